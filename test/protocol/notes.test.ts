import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { CancellationTokenSource } from 'vscode-languageserver/node';
import type { BlockAnswer, NoteAnswer, ProveAnswer, RemakeAnswer } from '../../server/src/requests.ts';
import { inventedCardFile } from '../invented-machine.ts';
import { startClient, type LanguageClient } from './language-client.ts';
import { placeOf, program } from './programs.ts';

const slot = { BORE: '30', LENGTH: '25', RPM: '500', FEED: '0.05' };

/** A client with an open program that holds one keyway block, and the program's text. */
async function withBlock(): Promise<{ client: LanguageClient; text: string }> {
  const client = await startClient({ initializationOptions: { machineCard: inventedCardFile } });
  const before = 'G21 G90 G18 G40\nM30\n';
  await client.open(program, before);
  const answer = await client.request<BlockAnswer>('blockwright/block', { process: 'keyway', place: { uri: program, line: 1, character: 0 }, values: slot });
  await client.change(program, { range: { start: answer, end: answer }, text: answer.text });
  const text = TextDocument.applyEdits(TextDocument.create(program, 'nc-program', 1, before), [{ range: { start: answer, end: answer }, newText: answer.text }]);
  return { client, text };
}

describe('the note of a block', () => {
  it('is found from any line of the block, and from none outside', async () => {
    const { client, text } = await withBlock();
    const note = (line: number) => client.request<NoteAnswer | null>('blockwright/note', { uri: program, line, character: 0 });
    const expected = { process: 'keyway', title: 'Keyway', values: slot, line: 1 };
    for (const word of ['KEYWAY:', 'S500', '(END KEYWAY)']) expect(await note(placeOf(text, word).line), word).toEqual(expected);
    expect(await note(0)).toBeNull();
    expect(await note(placeOf(text, 'M30').line)).toBeNull();
  });
});

describe('a block made anew', () => {
  it('takes the place of the old one, with the values that are wanted', async () => {
    const { client, text } = await withBlock();
    const end = placeOf(text, '(END KEYWAY)').line;
    const answer = await client.request<RemakeAnswer>('blockwright/remake', { uri: program, line: 3, values: { ...slot, RPM: '600' } });
    expect(answer).toMatchObject({ version: 2, fromLine: 1, toLine: end + 1, problems: [] });
    expect(answer.text).toMatch(/^\(KEYWAY: BORE=30 LENGTH=25 RPM=600 FEED=0\.05\)\n/);
    expect(answer.text).toMatch(/S600/);
    expect(answer.text).toMatch(/\(END KEYWAY\)\n$/);
  });

  it('from its own note is the block as it stands, and drops nothing', async () => {
    const { client, text } = await withBlock();
    const answer = await client.request<RemakeAnswer>('blockwright/remake', { uri: program, line: 1 });
    expect(answer.dropped).toEqual([]);
    expect(answer.text).toBe(`${text.split('\n').slice(answer.fromLine, answer.toLine).join('\n')}\n`);
  });

  it('names what the user had written into it', async () => {
    const { client, text } = await withBlock();
    const { line } = placeOf(text, 'F25.0');
    await client.change(program, { range: { start: { line, character: 0 }, end: { line, character: 0 } }, text: 'M808 (OWN WORD)\n' });
    const answer = await client.request<RemakeAnswer>('blockwright/remake', { uri: program, line: 1 });
    expect(answer.dropped.join(' ')).toMatch(/M808/);
    expect(answer.dropped.join(' ')).toMatch(/OWN WORD/);
  });

  it('is no text, but the reason, for values that are wrong', async () => {
    const { client } = await withBlock();
    const answer = await client.request<RemakeAnswer>('blockwright/remake', { uri: program, line: 1, values: { ...slot, FEED: '9' } });
    expect(answer.text).toBe('');
    expect(answer.problems).toEqual(['FEED: 9 is not allowed: it must be more than 0, at most 2 mm/stroke.']);
  });
});

describe('the virtual cut', () => {
  it('reports what it measured, with progress', async () => {
    const { client } = await withBlock();
    const answer = await client.request<ProveAnswer>('blockwright/prove', { uri: program });
    expect(answer.version).toBe(2);
    expect(answer.text).toMatch(/KEYWAY, lines 2 to \d+: cuts what the note asks for/);
    expect(answer.findings).toEqual([]);
  });

  it('says why a block cannot be cut', async () => {
    const client = await startClient();
    await client.open(program, 'G21\n(KEYWAY: BORE=30 LENGTH=25 RPM=500 FEED=0.05)\n<drivenStart>\n(END KEYWAY)\nM30\n');
    const answer = await client.request<ProveAnswer>('blockwright/prove', { uri: program });
    expect(answer.findings).toMatchObject([{ line: 1, severity: 'error', rule: 'not-proved', message: expect.stringMatching(/holes.*drivenStart/) as string }]);
  });

  it('is left when it is cancelled, and the server goes on', async () => {
    const client = await startClient({ initializationOptions: { machineCard: fileURLToPath(new URL('../../client/demo/invented.machine.json', import.meta.url)) } });
    const text = readFileSync(new URL('../../client/demo/drive-hub-mm.nc', import.meta.url), 'utf8');
    await client.open(program, text);
    const source = new CancellationTokenSource();
    const cancelled = client.connection.sendRequest('blockwright/prove', { uri: program }, source.token);
    client.connection.onNotification('blockwright/proveProgress', () => source.cancel());
    await expect(cancelled).rejects.toMatchObject({ code: -32800 });
    const { line, character } = placeOf(text, 'S303');
    expect(await client.hoverText(program, line, character)).toMatch(/^### 1\/32/);
  });
});
