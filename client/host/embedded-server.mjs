// Runs the embedded editor: installs an extension into it, starts it, tells the address of a folder or file, stops it.
// Knows the editor's command line and addresses, not what is edited.
import { spawn } from 'node:child_process';
import { createWriteStream, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

// A quiet window: nothing asks, advertises or covers the program.
const quietSettings = {
  'workbench.startupEditor': 'none',
  'workbench.secondarySideBar.defaultVisibility': 'hidden',
  'workbench.tips.enabled': false,
  'chat.disableAIFeatures': true,
  'security.workspace.trust.enabled': false,
  'telemetry.telemetryLevel': 'off',
  'extensions.autoCheckUpdates': false,
  'extensions.autoUpdate': false,
  'extensions.ignoreRecommendations': true,
};

/** Writes the settings of an editor that has none yet; what a person has set since is left alone. */
export function writeInitialSettings(dataFolder, extraSettings = {}) {
  const folder = join(dataFolder, 'User');
  mkdirSync(folder, { recursive: true });
  const text = `${JSON.stringify({ ...quietSettings, ...extraSettings }, null, 2)}\n`;
  try {
    writeFileSync(join(folder, 'settings.json'), text, { flag: 'wx' });
  } catch (error) {
    if (error.code !== 'EEXIST') throw error;
  }
}

/**
 * Installs a packaged extension as a user would.
 * @param {{ node: string, entry: string }} editor as `installEmbeddedEditor` returns it
 * @throws {Error} with one line, and the editor's own words, when it refuses the package
 */
export async function installExtension(editor, dataFolder, packageFile) {
  const child = startEditorProcess(editor, dataFolder, ['--force', '--install-extension', packageFile]);
  const output = collectOutput(child);
  const code = await new Promise((resolve) => child.once('close', resolve));
  if (code !== 0) throw new Error(`the editor did not accept ${packageFile}:\n${output()}`);
}

/**
 * Starts the editor and resolves when it answers.
 * @param {{ node: string, entry: string }} editor as `installEmbeddedEditor` returns it
 * @param {string} dataFolder settings, extensions and the log go there
 * @param {number} port 0 for any free one
 * @returns {Promise<{ address: string, closed: Promise<void>, stop: () => Promise<void> }>}
 */
export async function startEmbeddedEditor(editor, dataFolder, port = 0) {
  const child = startEditorProcess(editor, dataFolder, [
    '--auth', 'none', '--bind-addr', `127.0.0.1:${port}`,
    '--disable-telemetry', '--disable-update-check', '--disable-workspace-trust', '--disable-getting-started-override',
  ]);
  const closed = new Promise((resolve) => child.once('close', () => resolve()));
  const address = await listeningAddress(child, join(dataFolder, 'editor.log'));
  return { address, closed, stop: () => stopProcess(child, closed) };
}

/**
 * The address that opens a folder, with one file in an editor and, for tests, an extension loaded from its source.
 * @param {string} serverAddress as `startEmbeddedEditor` returns it
 */
export function workspaceAddress(serverAddress, folder, { file, developedExtension } = {}) {
  const address = new URL(serverAddress);
  const remote = (path) => `vscode-remote://${address.host}${encodeURI(path)}`;
  const payload = [
    ...(file ? [['openFile', remote(file)]] : []),
    ...(developedExtension ? [['extensionDevelopmentPath', remote(developedExtension)]] : []),
  ];
  address.searchParams.set('folder', folder);
  if (payload.length > 0) address.searchParams.set('payload', JSON.stringify(payload));
  return address.href;
}

function startEditorProcess({ node, entry }, dataFolder, options) {
  mkdirSync(dataFolder, { recursive: true });
  const folders = [
    '--config', join(dataFolder, 'config.yaml'),
    '--user-data-dir', dataFolder,
    '--extensions-dir', join(dataFolder, 'extensions'),
  ];
  return spawn(node, [entry, ...folders, ...options], { env: editorEnvironment(dataFolder), stdio: ['ignore', 'pipe', 'pipe'] });
}

/** Started from a terminal inside another editor, the variables of that one would make this one hand over to it. */
function editorEnvironment(dataFolder) {
  const foreign = /^(VSCODE_|ELECTRON_|CODE_SERVER_|PASSWORD$|HASHED_PASSWORD$|PORT$|NODE_OPTIONS$)/;
  const own = Object.entries(process.env).filter(([name]) => !foreign.test(name));
  return { ...Object.fromEntries(own), XDG_DATA_HOME: dataFolder };
}

function listeningAddress(child, logFile) {
  const log = createWriteStream(logFile);
  child.stdout.pipe(log);
  child.stderr.pipe(log);
  const output = collectOutput(child);
  return new Promise((resolve, reject) => {
    child.once('error', (error) => reject(new Error(`cannot run the embedded editor: ${error.message}`)));
    child.once('close', () => reject(new Error(`the embedded editor stopped at start: ${reasonIn(output())}; see ${logFile}`)));
    child.stdout.on('data', () => {
      const found = /HTTP server listening on (http:\/\/\S+)/.exec(output());
      if (found) resolve(found[1]);
    });
  });
}

function reasonIn(output) {
  return /EADDRINUSE/.test(output) ? 'the port is in use' : (/\berror\b\s+(.+)/.exec(output)?.[1] ?? 'no reason given');
}

/** The last of what a process said. The editor runs for hours, so not all of it is kept. */
function collectOutput(child) {
  let text = '';
  const add = (chunk) => { text = (text + chunk).slice(-20_000); };
  child.stdout.on('data', add);
  child.stderr.on('data', add);
  return () => text;
}

async function stopProcess(child, closed) {
  child.kill('SIGTERM');
  await closed;
}
