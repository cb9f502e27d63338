// The server's browser bundle in a real browser's worker, spoken to by messages, beside the bundle for Node on stdio: both
// must give the same answers. A worker has no files, so the machine card comes through the client.
import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { createProtocolConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver/node';
import { packageWhenStale } from '../../client/host/freshness.mjs';
import { launchChromium } from './chromium.mjs';
import { serveFolder } from './served-folder.mjs';

const repository = fileURLToPath(new URL('../..', import.meta.url));
const demo = new URL('../../client/demo/', import.meta.url);
const uri = new URL('drive-hub-mm.nc', demo).href;
const text = readFileSync(new URL(uri), 'utf8');
const cardPath = fileURLToPath(new URL('invented.machine.json', demo));
const initialization = { processId: null, rootUri: null, capabilities: { textDocument: { diagnostic: {} } }, initializationOptions: { machineCard: cardPath, listsWordsOnDemand: true } };

let served;
let browser;
let page;
let node;

beforeAll(async () => {
  await packageWhenStale(console.error);
  served = await serveFolder(repository);
  browser = await launchChromium();
  page = await browser.newPage();
  await page.goto(`${served.address}/package.json`);
  await page.evaluate(startServerInWorker, { script: '/server/dist/browser.js', cardText: readFileSync(cardPath, 'utf8') });
  node = startServerOnNode();
  for (const ask of [inWorker, onNode]) await opened(ask);
});

afterAll(async () => {
  node?.process.kill();
  await browser?.close();
  served?.close();
});

function startServerOnNode() {
  const child = spawn(process.execPath, [`${repository}server/dist/main.js`, '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] });
  const connection = createProtocolConnection(new StreamMessageReader(child.stdout), new StreamMessageWriter(child.stdin));
  connection.listen();
  return { process: child, connection };
}

/** Sends a message and resolves to the answer; a notification, which has none, is marked by its caller. */
const inWorker = (method, params, isRequest = true) => page.evaluate((message) => window.askServer(message), { method, params, isRequest });
const onNode = (method, params, isRequest = true) => (isRequest ? node.connection.sendRequest(method, params) : node.connection.sendNotification(method, params));

async function opened(ask) {
  await ask('initialize', initialization);
  await ask('initialized', {}, false);
  await ask('textDocument/didOpen', { textDocument: { uri, languageId: 'nc-program', version: 1, text } }, false);
}

/** Runs in the page. Answers what the server asks the client: the text of a file. */
function startServerInWorker({ script, cardText }) {
  const worker = new Worker(script);
  const waiting = new Map();
  let last = 0;
  worker.onmessage = ({ data: { id, method, result, error } }) => {
    if (method === 'blockwright/readText') worker.postMessage({ jsonrpc: '2.0', id, result: cardText });
    else if (method === undefined) waiting.get(id)(error === undefined ? result : { error });
  };
  window.askServer = ({ method, params, isRequest }) => {
    if (!isRequest) return worker.postMessage({ jsonrpc: '2.0', method, params });
    const id = (last += 1);
    return new Promise((resolve, reject) => {
      waiting.set(id, resolve);
      worker.onerror = ({ message }) => reject(new Error(message));
      worker.postMessage({ jsonrpc: '2.0', id, method, params });
    });
  };
}

async function bothAnswer(method, params) {
  const [worker, plain] = [await inWorker(method, params), await onNode(method, params)];
  expect(worker).toEqual(plain);
  return worker;
}

const placeOf = (word) => {
  const line = text.split('\n').findIndex((each) => each.includes(word));
  return { textDocument: { uri }, position: { line, character: text.split('\n')[line].indexOf(word) } };
};

test.each([['S303', /^### 1\/32/], ['S900', /^### 900/], ['HOB-DIA=63', /Lead angle of the hob/], ['G37', /machine card/], ['G96', /Constant cutting speed/]])('a hover on %s is the same', async (word, wanted) => {
  expect((await bothAnswer('textDocument/hover', placeOf(word))).contents.value).toMatch(wanted);
});

test('the card that only the client can read is in use, and the program is without a finding', async () => {
  expect((await inWorker('blockwright/card')).name).toMatch(/^Invented turning centre/);
  expect((await bothAnswer('textDocument/diagnostic', { textDocument: { uri } })).items).toEqual([]);
});

test('outline, folding and completion are the same', async () => {
  expect((await bothAnswer('textDocument/documentSymbol', { textDocument: { uri } }))[0].name).toBe('O1001');
  expect((await bothAnswer('textDocument/foldingRange', { textDocument: { uri } })).length).toBeGreaterThan(10);
  expect((await bothAnswer('textDocument/completion', placeOf('G37 P1'))).length).toBe(0);
  const { textDocument, position } = placeOf('METHOD=CLIMB');
  const items = await bothAnswer('textDocument/completion', { textDocument, position: { ...position, character: position.character + 'METHOD='.length } });
  expect(items.map(({ label }) => label)).toEqual(['CLIMB', 'CONVENTIONAL']);
});
