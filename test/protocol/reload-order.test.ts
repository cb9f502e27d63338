import { PassThrough } from 'node:stream';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { createConnection, createProtocolConnection, StreamMessageReader, StreamMessageWriter, type ProtocolConnection } from 'vscode-languageserver/node';
import type { CardChanged } from '../../server/src/requests.ts';
import { startServer } from '../../server/src/server.ts';
import { inventedCardText } from '../invented-machine.ts';

const uri = 'file:///shop/lathe.machine.json';
const cardNamed = (name: string) => inventedCardText.replace('Invented lathe', name);

/** A server in this process whose files are read when the test says so. */
function serverWithSlowFiles(): { client: ProtocolConnection; reads: ((text: string) => void)[]; cards: string[]; until: (condition: () => boolean) => Promise<void> } {
  const [toServer, toClient] = [new PassThrough(), new PassThrough()];
  const reads: ((text: string) => void)[] = [];
  const cards: string[] = [];
  let wake = () => {};
  const woken = () => new Promise<void>((resolve) => (wake = resolve));
  startServer(createConnection(new StreamMessageReader(toServer), new StreamMessageWriter(toClient)), {
    readText: () => new Promise((resolve) => {
      reads.push(resolve);
      wake();
    }),
    yieldToMessages: () => new Promise((resolve) => setImmediate(resolve)),
    rest: (milliseconds) => new Promise((resolve) => setTimeout(resolve, milliseconds)),
  });
  const client = createProtocolConnection(new StreamMessageReader(toClient), new StreamMessageWriter(toServer));
  client.onNotification('blockwright/cardChanged', ({ name }: CardChanged) => {
    cards.push(name);
    wake();
  });
  client.listen();
  clients.push(client);
  return {
    client, reads, cards,
    async until(condition) {
      while (!condition()) await woken();
    },
  };
}

const clients: ProtocolConnection[] = [];
afterEach(() => clients.splice(0).forEach((client) => client.dispose()));

describe('reloads of the card that overlap', () => {
  it('end with the one that was asked for last, although its file was read first', async () => {
    const { client, reads, cards, until } = serverWithSlowFiles();
    await client.sendRequest('initialize', { processId: null, rootUri: null, capabilities: {}, workspaceFolders: null, initializationOptions: { machineCard: '/shop/lathe.machine.json' } });
    await client.sendNotification('initialized', {});
    await until(() => reads.length === 1);
    reads[0]?.(cardNamed('first'));
    await until(() => cards.includes('first'));

    await client.sendNotification('textDocument/didOpen', { textDocument: { uri, languageId: 'jsonc', version: 1, text: cardNamed('typed') } });
    await client.sendNotification('textDocument/didClose', { textDocument: { uri } });
    await until(() => reads.length === 2);
    await client.sendNotification('workspace/didChangeWatchedFiles', { changes: [{ uri, type: 2 }] });
    await until(() => reads.length === 3);
    reads[2]?.(cardNamed('new'));
    await until(() => cards.includes('new'));
    reads[1]?.(cardNamed('old'));
    expect(await client.sendRequest('blockwright/card')).toMatchObject({ name: 'new' });
    expect(cards).toEqual(['first', 'typed', 'new']);
  });

  it('leave questions open until the last one is through', async () => {
    const { client, reads, cards, until } = serverWithSlowFiles();
    await client.sendRequest('initialize', { processId: null, rootUri: null, capabilities: {}, workspaceFolders: null, initializationOptions: { machineCard: '/shop/lathe.machine.json' } });
    await client.sendNotification('initialized', {});
    await until(() => reads.length === 1);
    await client.sendNotification('textDocument/didOpen', { textDocument: { uri: 'file:///shop/a.nc', languageId: 'nc-program', version: 1, text: '%\nM881\nM30\n%\n' } });
    await client.sendNotification('workspace/didChangeWatchedFiles', { changes: [{ uri, type: 2 }] });
    await until(() => reads.length === 2);
    // M881 is a word of the invented card alone.
    const report = client.sendRequest('textDocument/diagnostic', { textDocument: { uri: 'file:///shop/a.nc' } });
    reads[0]?.(cardNamed('first'));
    await client.sendRequest('blockwright/card');
    reads[1]?.(cardNamed('second'));
    expect(await report).toEqual({ kind: 'full', items: [] });
    expect(cards).toEqual(['second']);
  });
});

describe('readings of the settings that overlap', () => {
  it('end with the one that was asked for last, although its answer came first', async () => {
    const { client } = serverWithSlowFiles();
    const rules: ((value: object) => void)[] = [];
    client.onRequest('workspace/configuration', ({ items: [item] }: { items: { section: string }[] }) =>
      item!.section === 'blockwright.rules' ? new Promise((resolve) => rules.push((value) => resolve([value]))) : [null]);
    await client.sendRequest('initialize', { processId: null, rootUri: null, capabilities: { workspace: { configuration: true }, textDocument: { diagnostic: {} } }, workspaceFolders: null });
    await client.sendNotification('initialized', {});
    await vi.waitUntil(() => rules.length === 1);
    await client.sendNotification('workspace/didChangeConfiguration', { settings: null });
    await vi.waitUntil(() => rules.length === 2);
    rules[1]!({ 'unknown-code': 'error' });
    await client.sendRequest('blockwright/card');
    rules[0]!({ 'unknown-code': 'off' });
    await client.sendNotification('textDocument/didOpen', { textDocument: { uri: 'file:///shop/a.nc', languageId: 'nc-program', version: 1, text: '%\nM881\nM30\n%\n' } });
    expect(await client.sendRequest('textDocument/diagnostic', { textDocument: { uri: 'file:///shop/a.nc' } })).toMatchObject({ items: [{ code: 'unknown-code', severity: 1 }] });
  });
});
