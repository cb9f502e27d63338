import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { inventedCardFile, inventedCardText } from '../invented-machine.ts';
import { startClient, type LanguageClient } from './language-client.ts';
import { program } from './programs.ts';

let folder = '';
let folderUri = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'blockwright-test-'));
  folderUri = pathToFileURL(folder).href;
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

function write(name: string, text: string): string {
  writeFileSync(join(folder, name), text);
  return `${folderUri}/${name}`;
}

const openStandard = 'Open standard words only';
const wrongKey = inventedCardText.replace('"units"', '"unit"');
const text = 'G21\nG881 P1 Q-32 R15.0\nM30\n';

/** What a hover says of the word that only the invented card knows. */
async function syncHover(client: LanguageClient): Promise<string> {
  return client.hoverText(program, 1, 0);
}

async function nextCard(client: LanguageClient, act: () => Promise<void>): Promise<unknown> {
  const before = client.cards.length;
  await act();
  await client.until(() => client.cards.length > before);
  return client.cards.at(-1);
}

describe('the machine card', () => {
  it('comes from the settings, by its path in the workspace folder', async () => {
    write('lathe.machine.json', inventedCardText);
    const client = await startClient({ folder: folderUri, settings: { 'blockwright.machineCard': 'lathe.machine.json' } });
    expect(client.cards).toEqual([{ name: 'Invented lathe', uri: `${folderUri}/lathe.machine.json` }]);
    await client.open(program, text);
    expect(await syncHover(client)).toMatch(/Starts synchronous running of hob and work/);
  });

  it('comes from the settings by an absolute path', async () => {
    const client = await startClient({ settings: { 'blockwright.machineCard': inventedCardFile } });
    expect(client.cards).toMatchObject([{ name: 'Invented lathe' }]);
  });

  it('may have a name with spaces, brackets and signs, and is found open in the editor too', async () => {
    const name = "lathe (2) #1 & co's 100%.machine.json";
    write(name, inventedCardText);
    const client = await startClient({ folder: folderUri, settings: { 'blockwright.machineCard': name } });
    expect(client.cards).toMatchObject([{ name: 'Invented lathe' }]);
    const uri = `${folderUri}/lathe%20%282%29%20%231%20%26%20co%27s%20100%25.machine.json`;
    expect(client.cards[0]?.uri).toBe(uri);
    await nextCard(client, () => client.open(uri, inventedCardText, 'jsonc'));
    expect(await nextCard(client, () => client.change(uri, { text: inventedCardText.replace('Invented lathe', 'Unsaved') }))).toMatchObject({ name: 'Unsaved' });
  });

  it('comes from the initialization options of a client without settings', async () => {
    const client = await startClient({ initializationOptions: { machineCard: inventedCardFile } });
    expect(client.cards).toMatchObject([{ name: 'Invented lathe' }]);
  });

  it('comes from the initialization options where the client has settings but not this one', async () => {
    const client = await startClient({ settings: {}, initializationOptions: { machineCard: inventedCardFile } });
    expect(client.cards).toMatchObject([{ name: 'Invented lathe' }]);
  });

  it('is the open-standard one where the setting is empty', async () => {
    const client = await startClient({ settings: { 'blockwright.machineCard': '' }, initializationOptions: { machineCard: inventedCardFile } });
    expect(client.cards).toEqual([{ name: openStandard }]);
  });

  it('changes with the settings, for the programs that are open too', async () => {
    const client = await startClient({ settings: {} });
    await client.open(program, text);
    expect(await syncHover(client)).not.toMatch(/synchronous/);
    client.settings = { 'blockwright.machineCard': inventedCardFile };
    await nextCard(client, () => client.notify('workspace/didChangeConfiguration', { settings: null }));
    expect(await syncHover(client)).toMatch(/Starts synchronous running/);
  });

  it('is read with the block skip switch of the settings', async () => {
    const client = await startClient({ settings: {} });
    await client.open(program, 'G00 X10.\n/G00 X50.\nG00 X20.\nM30\n');
    const lengthOfLastMove = async () => JSON.stringify(await client.hover(program, 2, 5));
    expect(await lengthOfLastMove()).toContain('15 mm');
    client.settings = { 'blockwright.blockSkip': true };
    await nextCard(client, () => client.notify('workspace/didChangeConfiguration', { settings: null }));
    expect(await lengthOfLastMove()).toContain('5 mm');
    expect(await lengthOfLastMove()).not.toContain('15 mm');
  });

  it('changes with its file', async () => {
    const uri = write('lathe.machine.json', inventedCardText);
    const client = await startClient({ folder: folderUri, settings: { 'blockwright.machineCard': 'lathe.machine.json' } });
    write('lathe.machine.json', inventedCardText.replace('Invented lathe', 'Other'));
    expect(await nextCard(client, () => client.notify('workspace/didChangeWatchedFiles', { changes: [{ uri, type: 2 }] }))).toMatchObject({ name: 'Other' });
  });

  it('is the text in the editor while it is open, and the file again when it is closed', async () => {
    const uri = write('lathe.machine.json', inventedCardText);
    const client = await startClient({ folder: folderUri, settings: { 'blockwright.machineCard': 'lathe.machine.json' } });
    await nextCard(client, () => client.open(uri, inventedCardText.replace('Invented lathe', 'Typed'), 'jsonc'));
    expect(client.cards.at(-1)).toMatchObject({ name: 'Typed' });
    expect(await nextCard(client, () => client.close(uri))).toMatchObject({ name: 'Invented lathe' });
  });

  it('that was asked for last counts, whatever came between', async () => {
    const names = ['a', 'b', 'c', 'd'].map((name) => write(`${name}.machine.json`, inventedCardText.replace('Invented lathe', name)).split('/').at(-1) ?? '');
    const client = await startClient({ folder: folderUri, settings: {} });
    for (const name of names) {
      client.settings = { 'blockwright.machineCard': name };
      await client.notify('workspace/didChangeConfiguration', { settings: null });
    }
    await client.until(() => client.cards.at(-1)?.name === 'd');
    expect(await client.request('blockwright/card')).toMatchObject({ name: 'd' });
  });
});

describe('a card that is faulty', () => {
  it.each([['a wrong key', wrongKey, /"unit" is not a key of a machine card\. Allowed: name, units/], ['broken JSON', inventedCardText.slice(0, 200), /is not valid JSON here/]])('%s keeps the last good card, and the server up', async (_name, faulty, message) => {
    const uri = write('lathe.machine.json', inventedCardText);
    const client = await startClient({ folder: folderUri, settings: { 'blockwright.machineCard': 'lathe.machine.json' } });
    await client.open(program, text);
    await nextCard(client, () => client.open(uri, inventedCardText, 'jsonc'));
    expect(await nextCard(client, () => client.change(uri, { text: faulty }))).toMatchObject({ name: 'Invented lathe', fault: expect.stringMatching(message) as string });
    expect(await syncHover(client)).toMatch(/Starts synchronous running/);
    expect((await client.diagnostics(program))[0]).toMatchObject({ severity: 2, code: 'card', message: expect.stringMatching(/The last good card is in use\.$/) as string });
    const [problem, ...others] = await client.diagnostics(uri);
    expect(others).toEqual([]);
    expect(problem).toMatchObject({ severity: 1, code: 'card', message: expect.stringMatching(message) as string });
    expect(await nextCard(client, () => client.change(uri, { text: inventedCardText }))).toEqual({ name: 'Invented lathe', uri });
    expect(await client.diagnostics(uri)).toEqual([]);
  });

  it('from the start leaves the open-standard one in use', async () => {
    write('lathe.machine.json', wrongKey);
    const client = await startClient({ folder: folderUri, settings: { 'blockwright.machineCard': 'lathe.machine.json' } });
    expect(client.cards).toMatchObject([{ name: openStandard, fault: expect.stringMatching(/lathe\.machine\.json is not usable/) as string }]);
  });

  it('or that is not there says so', async () => {
    const client = await startClient({ folder: folderUri, settings: { 'blockwright.machineCard': 'none.machine.json' } });
    expect(client.cards).toMatchObject([{ name: openStandard, fault: 'The machine card none.machine.json cannot be read.' }]);
  });

  it('is not marked for broken JSON where the client marks that itself, but for a wrong key', async () => {
    const client = await startClient({ initializationOptions: { marksBrokenJson: true } });
    await client.open('file:///shop/a.machine.json', '{ "name": ', 'jsonc');
    expect(await client.diagnostics('file:///shop/a.machine.json')).toEqual([]);
    await client.open('file:///shop/b.machine.json', '{ "name": "M", "unit": "mm" }', 'jsonc');
    expect(await client.diagnostics('file:///shop/b.machine.json')).toMatchObject([{ range: { start: { line: 0, character: 15 }, end: { line: 0, character: 21 } }, message: expect.stringMatching(/^"unit" is not a key/) as string }]);
  });

  it('any settings value that is no path leaves the open-standard one in use', async () => {
    for (const value of [7, {}, [], true, '   ']) {
      const client = await startClient({ settings: { 'blockwright.machineCard': value } });
      expect(client.cards).toEqual([{ name: openStandard }]);
    }
  });
});

describe('a client that refuses what it said it could do', () => {
  it('has a card all the same', async () => {
    const client = await startClient({ settings: 'refused', registrations: 'refused', initializationOptions: { machineCard: inventedCardFile } });
    expect(client.cards).toMatchObject([{ name: 'Invented lathe' }]);
    expect(client.isAlive).toBe(true);
    expect(client.log.filter((line) => line.startsWith('The client refused a request')).length).toBeGreaterThanOrEqual(3);
  });
});

describe('registrations', () => {
  it('are asked for where the client can take them: settings and card files', async () => {
    const client = await startClient({ settings: {}, registrations: 'taken' });
    expect(client.registered).toEqual(['workspace/didChangeConfiguration', 'workspace/didChangeWatchedFiles']);
  });

  it('are not asked for otherwise', async () => {
    expect((await startClient()).registered).toEqual([]);
  });
});

describe('diagnostics of open programs', () => {
  it('are refreshed when the card changes, where the client can', async () => {
    const client = await startClient({ settings: {}, capabilities: { textDocument: { diagnostic: {} }, workspace: { diagnostics: { refreshSupport: true } } } });
    await client.until(() => client.refreshes > 0);
    const before = client.refreshes;
    client.settings = { 'blockwright.machineCard': inventedCardFile };
    await client.notify('workspace/didChangeConfiguration', { settings: null });
    await client.until(() => client.refreshes > before);
    expect(client.cards.at(-1)).toMatchObject({ name: 'Invented lathe' });
  });

  it('are pushed anew when the card changes, where the client cannot pull', async () => {
    const client = await startClient({ settings: {}, capabilities: {} });
    await client.open(program, 'G21 G90 G94\n(KEYWAY: BORE=30 LENGTH=37 RPM=500 FEED=0.05)\n(END KEYWAY)\nM30\n');
    await client.until(() => client.published.length > 0);
    const limits = () => client.published.at(-1)?.diagnostics.filter(({ code }) => code === 'machine-limit').length;
    expect(limits()).toBe(0);
    client.settings = { 'blockwright.machineCard': inventedCardFile };
    await client.notify('workspace/didChangeConfiguration', { settings: null });
    await client.until(() => limits() === 1);
    expect(limits()).toBe(1);
  });
});
