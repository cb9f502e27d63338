// Installs a complete editor that runs in a browser, from the npm registry alone: for machines without a desktop editor
// and for the editor tests. Knows how the pieces are put together, not how the editor is run or what is opened in it.
//
// Everything is installed into a temporary folder that is renamed when it is complete. A folder with the final name is
// therefore always a whole installation, however an earlier attempt ended.
import { closeSync, existsSync, mkdirSync, openSync, readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { cacheFolder } from './cache.mjs';
import { runNpm } from './npm.mjs';

const editorVersion = '4.139.1';
// The editor's server needs this major version of Node; the npm package carries the binary.
const nodeMajorVersion = '24';
// Raise it when the steps below change, so that an older installation is not taken for a current one.
const recipe = 1;

const folderPrefix = 'embedded-';
const partialPrefix = 'partial-';

/**
 * Makes sure that the embedded editor is installed and says where its parts are. Takes minutes the first time and no
 * time after that.
 * @param {(line: string) => void} report receives one line of progress at a time
 * @returns {Promise<{ node: string, entry: string }>} the Node binary and the script that it has to run
 * @throws {Error} with one line that says which step failed and where its log is
 */
export async function installEmbeddedEditor(report) {
  const finalFolder = join(cacheFolder(), `${folderPrefix}${editorVersion}-${recipe}`);
  if (!existsSync(finalFolder)) await installInto(finalFolder, report);
  return editorParts(finalFolder);
}

async function installInto(finalFolder, report) {
  if (process.platform === 'win32') throw new Error('the embedded editor does not run on Windows; install a desktop editor');
  mkdirSync(cacheFolder(), { recursive: true });
  removeAbandonedAttempts();
  const attempt = join(cacheFolder(), `${partialPrefix}${process.pid}`);
  mkdirSync(attempt);
  try {
    await runSteps(attempt, report);
    publish(attempt, finalFolder);
  } finally {
    rmSync(attempt, { recursive: true, force: true });
  }
  report('Embedded editor installed.');
}

async function runSteps(folder, report) {
  report('No editor found: installing the embedded one (about 800 MB, once; no compiler needed).');
  writeFileSync(join(folder, 'package.json'), '{ "private": true }\n');
  report('  1 of 3: the editor');
  await npmInstall(folder, ['--ignore-scripts', `code-server@${editorVersion}`]);
  report(`  2 of 3: Node ${nodeMajorVersion} for the editor`);
  // This package fetches its binary in an install script, so scripts must run for it, and for it alone.
  await npmInstall(folder, ['--ignore-scripts=false', `node@${nodeMajorVersion}`]);
  report('  3 of 3: the editor\'s own packages');
  await npmInstall(workbenchFolder(folder), ['--ignore-scripts', '--omit=dev']);
  replaceNativeWatchdog(folder);
}

/**
 * The watchdog is a native module that ends a hung extension host. Without a compiler it is not there, and the
 * extension host dies at start when it cannot load it: a stand-in that watches nothing takes its place.
 */
function replaceNativeWatchdog(folder) {
  const watchdog = join(workbenchFolder(folder), 'node_modules', '@vscode', 'native-watchdog');
  mkdirSync(watchdog, { recursive: true });
  writeFileSync(join(watchdog, 'package.json'), '{ "name": "@vscode/native-watchdog", "version": "0.0.0", "main": "index.js" }\n');
  writeFileSync(join(watchdog, 'index.js'), 'exports.start = () => {};\nexports.exit = () => {};\n');
}

/** Another process may have finished first. Its installation is as good as ours. */
function publish(attempt, finalFolder) {
  try {
    renameSync(attempt, finalFolder);
  } catch (error) {
    if (!existsSync(finalFolder)) throw error;
  }
}

function removeAbandonedAttempts() {
  for (const name of readdirSync(cacheFolder())) {
    const owner = name.startsWith(partialPrefix) ? Number(name.slice(partialPrefix.length)) : NaN;
    if (owner > 0 && !isRunning(owner)) rmSync(join(cacheFolder(), name), { recursive: true, force: true });
  }
}

function isRunning(processId) {
  try {
    process.kill(processId, 0);
    return true;
  } catch (error) {
    // The process exists but belongs to somebody else.
    return error.code === 'EPERM';
  }
}

function editorParts(folder) {
  return {
    node: join(folder, 'node_modules', 'node', 'bin', 'node'),
    entry: join(folder, 'node_modules', 'code-server', 'out', 'node', 'entry.js'),
  };
}

function workbenchFolder(folder) {
  return join(folder, 'node_modules', 'code-server', 'lib', 'vscode');
}

/** Runs npm with its output in a log, because what it prints on failure is neither one line nor clear. */
async function npmInstall(folder, options) {
  const logFile = join(cacheFolder(), 'install.log');
  const log = openSync(logFile, 'w');
  try {
    const code = await runNpm(folder, ['install', '--no-audit', '--no-fund', '--loglevel=error', ...options], ['ignore', log, log]);
    if (code !== 0) throw new Error(`npm install ${options.at(-1)} failed with code ${code}; see ${logFile}`);
  } finally {
    closeSync(log);
  }
}
