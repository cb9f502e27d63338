import { describe, expect, it } from 'vitest';
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { BlockAnswer, CardAnswer, PlaceAnswer, ProcessDescription, Sheet } from '../../server/src/requests.ts';
import { inventedCardFile } from '../invented-machine.ts';
import { startClient, type LanguageClient } from './language-client.ts';
import { program } from './programs.ts';

const slot = { BORE: '30', LENGTH: '25', RPM: '500', FEED: '0.05' };

function withCard(): Promise<LanguageClient> {
  return startClient({ initializationOptions: { machineCard: inventedCardFile } });
}

function applied(text: string, { line, character, text: newText }: BlockAnswer): string {
  const position = { line, character };
  return TextDocument.applyEdits(TextDocument.create(program, 'nc-program', 1, text), [{ range: { start: position, end: position }, newText }]);
}

describe('requests behind the parameter sheet', () => {
  it('list the processes', async () => {
    const client = await startClient();
    const processes = await client.request<ProcessDescription[]>('blockwright/processes');
    expect(processes.slice(0, 2).map(({ id, title }) => [id, title])).toEqual([['hobbing', 'Hobbing'], ['keyway', 'Keyway']]);
    for (const { summary } of processes) expect(summary).toMatch(/\.$/);
  });

  it('give the sheet for the values typed so far, in the units at the place', async () => {
    const client = await withCard();
    await client.open(program, 'G20\n\nG21\n\n');
    const sheet = (line: number) => client.request<Sheet>('blockwright/sheet', { process: 'keyway', place: { uri: program, line, character: 0 }, values: { LENGTH: '0' } });
    const [inches, millimetres] = [await sheet(1), await sheet(3)];
    expect(inches.rows.find(({ name }) => name === 'BORE')).toMatchObject({ unit: 'inch', required: true });
    expect(millimetres.rows.find(({ name }) => name === 'BORE')).toMatchObject({ unit: 'mm' });
    expect(millimetres.rows.find(({ name }) => name === 'LENGTH')?.problem).toBe('LENGTH: 0 is not allowed: it must be more than 0, at most 1000 mm.');
    expect(millimetres.ready).toBe(false);
  });

  it('give the block for the version of the document that it was made for', async () => {
    const client = await withCard();
    await client.open(program, 'N10 G21\r\nN100 M30\r\n');
    await client.change(program, { range: { start: { line: 0, character: 7 }, end: { line: 0, character: 7 } }, text: ' G90' });
    const answer = await client.request<BlockAnswer>('blockwright/block', { process: 'keyway', place: { uri: program, line: 1, character: 0 }, values: slot });
    expect(answer).toMatchObject({ version: 2, line: 1, character: 0, problems: [] });
    const after = applied('N10 G21 G90\r\nN100 M30\r\n', answer);
    expect(after).toMatch(/^N10 G21 G90\r\n\(KEYWAY: BORE=30 LENGTH=25 RPM=500 FEED=0\.05\)\r\n/);
    expect(after).toMatch(/\r\n\(END KEYWAY\)\r\nN100 M30\r\n$/);
    expect(after.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
  });

  it('a block that was put in is explained and has no error', async () => {
    const client = await withCard();
    const text = '%\nG21 G90 G18 G40\nM30\n%\n';
    await client.open(program, text);
    const answer = await client.request<BlockAnswer>('blockwright/block', { process: 'keyway', place: { uri: program, line: 2, character: 0 }, values: slot });
    await client.change(program, { range: { start: answer, end: answer }, text: answer.text });
    expect((await client.diagnostics(program)).filter(({ severity }) => severity === 1)).toEqual([]);
    const lines = applied(text, answer).split('\n');
    const line = lines.findIndex((each) => each.includes('S500'));
    expect(await client.hoverText(program, line, lines[line]?.indexOf('S500') ?? 0)).toMatch(/^### 500/);
  });

  it('give no text, but the reason, for values that are wrong', async () => {
    const client = await withCard();
    await client.open(program, 'G21\n');
    const answer = await client.request<BlockAnswer>('blockwright/block', { process: 'keyway', place: { uri: program, line: 1, character: 0 }, values: { ...slot, FEED: '9' } });
    expect(answer).toMatchObject({ text: '', problems: ['FEED: 9 is not allowed: it must be more than 0, at most 2 mm/stroke.'] });
  });

  it('name the machine card in use', async () => {
    expect(await (await withCard()).request<CardAnswer>('blockwright/card')).toEqual({ name: 'Invented lathe', uri: `file://${inventedCardFile}` });
    expect(await (await startClient()).request<CardAnswer>('blockwright/card')).toEqual({ name: 'Open standard words only' });
  });

  it('say where no block can go in, and why', async () => {
    const client = await withCard();
    await client.open(program, 'O1\n(KEYWAY: BORE=30 LENGTH=25 RPM=500 FEED=0.05)\n(END KEYWAY)\nM30\n\n');
    const place = (line: number) => ({ uri: program, line, character: 0 });
    expect(await client.request<PlaceAnswer>('blockwright/place', place(3))).toEqual({});
    expect((await client.request<PlaceAnswer>('blockwright/place', place(4))).refusal).toMatch(/has ended/);
    const answer = await client.request<BlockAnswer>('blockwright/block', { process: 'keyway', place: place(4), values: slot });
    expect(answer).toMatchObject({ text: '', problems: [expect.stringMatching(/has ended/) as string] });
    const titles = async (line: number) => {
      const position = { line, character: 0 };
      const actions = await client.request<{ title: string }[]>('textDocument/codeAction', { textDocument: { uri: program }, range: { start: position, end: position }, context: { diagnostics: [] } });
      return actions.map(({ title }) => title).filter((title) => /Insert keyway/.test(title));
    };
    expect([await titles(3), await titles(2), await titles(4), await titles(0)]).toEqual([['Insert keyway block…'], ['Insert keyway block behind this block…'], [], []]);
  });
});
