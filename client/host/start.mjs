#!/usr/bin/env node
// `npm start`: shows the extension at work on the demo, in a desktop editor when there is one, else in the embedded one.
import { parseArgs } from 'node:util';
import { cloneCacheFolder, repositoryRoot } from './cache.mjs';
import { prepareDemo } from './demo.mjs';
import { findDesktopEditor, openBrowser, runDesktopEditor } from './desktop.mjs';
import { installEmbeddedEditor } from './embedded-install.mjs';
import { installExtension, startEmbeddedEditor, workspaceAddress, writeInitialSettings } from './embedded-server.mjs';
import { buildWhenStale, packageWhenStale } from './freshness.mjs';

const help = `Opens the Blockwright demo workspace in an editor.

  npm start                     in the desktop editor, or in the embedded one when there is none
  npm start -- --port 8123      embedded editor on this port (any free one without it)
  npm start -- --no-open        print the address only, open no browser
  npm start -- --fresh          throw away what was changed in the demo copy
  npm start -- --help           this text

BLOCKWRIGHT_EDITOR=COMMAND chooses another desktop editor, BLOCKWRIGHT_EDITOR=embedded the embedded one.`;

/** The command line, checked. */
function readOptions(words) {
  const options = {
    port: { type: 'string', default: '0' }, 'no-open': { type: 'boolean', default: false },
    fresh: { type: 'boolean', default: false }, help: { type: 'boolean', short: 'h', default: false },
  };
  const { values } = parseArgs({ args: words, options, strict: true });
  const port = Number(values.port);
  if (!Number.isInteger(port) || port < 0 || port > 65535) throw new Error(`--port ${values.port}: a whole number from 0 to 65535 is wanted`);
  return { ...values, port };
}

async function startDesktop(editor, { fresh }) {
  await buildWhenStale(console.log);
  const demo = prepareDemo(cloneCacheFolder(), { fresh });
  console.log(`Opening ${demo.folder} in ${editor}.`);
  await runDesktopEditor(editor, ['--new-window', `--extensionDevelopmentPath=${repositoryRoot}`, demo.folder, demo.program]);
}

async function startEmbedded({ port, fresh, 'no-open': noOpen }) {
  const editor = await installEmbeddedEditor(console.log);
  const packageFile = await packageWhenStale(console.log);
  const demo = prepareDemo(cloneCacheFolder(), { fresh });
  const dataFolder = `${cloneCacheFolder()}/editor`;
  writeInitialSettings(dataFolder);
  await installExtension(editor, dataFolder, packageFile);
  const server = await startEmbeddedEditor(editor, dataFolder, port);
  stopOnSignal(server);
  announce(workspaceAddress(server.address, demo.folder, { file: demo.program }), noOpen);
  await server.closed;
}

function announce(address, noOpen) {
  const opened = !noOpen && openBrowser(address);
  console.log(`${opened ? 'Opened in your browser' : 'Open in a browser'}:\n\n  ${address}\n\nThe demo is a copy; the clone stays as it is. Ctrl+C stops the editor.`);
}

function stopOnSignal(server) {
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.on(signal, () => void server.stop());
}

async function main() {
  const options = readOptions(process.argv.slice(2));
  if (options.help) return console.log(help);
  const editor = findDesktopEditor();
  return editor === undefined ? startEmbedded(options) : startDesktop(editor, options);
}

main().catch((error) => {
  console.error(`start: ${error.message}`);
  process.exitCode = 1;
});
