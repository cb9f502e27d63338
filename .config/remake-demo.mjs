// Makes the blocks of the demo programs anew from their notes, through the language server as an editor would. To be run
// when the text of blocks has changed; a test tells when the demo and its notes no longer agree.
//
//   npm run build && node .config/remake-demo.mjs
import { spawn } from 'node:child_process';
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { createProtocolConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver/node';

const demoFolder = new URL('../client/demo/', import.meta.url);
const settings = JSON.parse(readFileSync(new URL('.vscode/settings.json', demoFolder), 'utf8'));

/** Starts the server on the demo's folder and settings. */
async function connect(server) {
  const connection = createProtocolConnection(new StreamMessageReader(server.stdout), new StreamMessageWriter(server.stdin));
  connection.onRequest('workspace/configuration', ({ items }) => items.map(({ section }) => settings[section] ?? null));
  connection.onRequest('client/registerCapability', () => null);
  connection.listen();
  const cardKnown = new Promise((resolve) => connection.onNotification('blockwright/cardChanged', resolve));
  const folder = demoFolder.href.replace(/\/$/, '');
  await connection.sendRequest('initialize', {
    processId: process.pid, rootUri: folder, workspaceFolders: [{ uri: folder, name: 'demo' }],
    capabilities: { workspace: { configuration: true }, textDocument: { diagnostic: {} } },
  });
  await connection.sendNotification('initialized', {});
  await cardKnown;
  return connection;
}

// A block restores what was in force before it, so one block made anew can change what the next one has to hold.
const mostRounds = 5;

async function remakeProgram(connection, file) {
  const document = { uri: file.href, languageId: 'nc-program', version: 1 };
  let text = readFileSync(file, 'utf8');
  await connection.sendNotification('textDocument/didOpen', { textDocument: { ...document, text } });
  for (let round = 1; round <= mostRounds; round += 1) {
    const before = text;
    text = renumbered(await remakeBlocks(connection, document, text));
    if (text === before) return text;
  }
  throw new Error(`${file.href}: the blocks still change after ${mostRounds} rounds`);
}

/** From the last note to the first, so that the lines of those still to come stay where they are. */
async function remakeBlocks(connection, document, start) {
  let text = start;
  for (const line of noteLines(start).reverse()) {
    document.version += 1;
    await connection.sendNotification('textDocument/didChange', { textDocument: document, contentChanges: [{ text }] });
    text = withBlock(text, await connection.sendRequest('blockwright/remake', { uri: document.uri, line }));
  }
  return text;
}

/** Blocks squeezed between the numbers around them get the even steps of the rest. The demo has no jumps to a number. */
function renumbered(text) {
  let number = 0;
  return text.replace(/^N\d+ /gm, () => `N${(number += 10)} `);
}

function noteLines(text) {
  return text.split('\n').flatMap((line, index) => (/^\((HOBBING|KEYWAY|SLOTTING|ENGRAVING|HANDOVER):/.test(line) ? [index] : []));
}

function withBlock(text, { fromLine, toLine, text: block, problems }) {
  if (block === '') throw new Error(problems.join(' '));
  const lines = text.split('\n');
  return `${lines.slice(0, fromLine).map((line) => `${line}\n`).join('')}${block}${lines.slice(toLine).join('\n')}`;
}

const server = spawn(process.execPath, [fileURLToPath(new URL('../server/dist/main.js', import.meta.url)), '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] });
try {
  const connection = await connect(server);
  for (const name of readdirSync(demoFolder).filter((each) => each.endsWith('.nc'))) {
    const file = new URL(name, demoFolder);
    writeFileSync(file, await remakeProgram(connection, file));
    console.log(`remade ${name}`);
  }
} catch (error) {
  console.error(`remake: ${error.message}`);
  process.exitCode = 1;
} finally {
  server.kill();
}
