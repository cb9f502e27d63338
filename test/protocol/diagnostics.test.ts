import { describe, expect, it } from 'vitest';
import type { CodeAction, Diagnostic } from 'vscode-languageserver/node';
import { startClient, type LanguageClient } from './language-client.ts';
import { hobbingText, keywayText, program } from './programs.ts';

const pushed = { capabilities: {} };
const faulty = hobbingText.replace('TEETH=24', 'TEETH=0');
const teeth = { range: { start: { line: 1, character: 25 }, end: { line: 1, character: 26 } }, severity: 1, code: 'bad-value', source: 'blockwright', message: 'TEETH: 0 is not allowed: it must be a whole number from 3 to 1000.' };

function errorsOf(diagnostics: readonly Diagnostic[]): Diagnostic[] {
  return diagnostics.filter(({ severity }) => severity === 1);
}

async function latest(client: LanguageClient, uri: string, version: number): Promise<Diagnostic[]> {
  await client.until(() => client.published.some((each) => each.uri === uri && each.version === version));
  return client.published.findLast((each) => each.uri === uri && each.version === version)?.diagnostics ?? [];
}

describe('diagnostics', () => {
  it('are pulled where the client can pull, and then never pushed', async () => {
    const client = await startClient();
    await client.open(program, faulty);
    expect(errorsOf(await client.diagnostics(program))).toEqual([teeth]);
    expect(client.published).toEqual([]);
  });

  it('are pushed where it cannot, after each change, with the version', async () => {
    const client = await startClient(pushed);
    await client.open(program, faulty);
    expect(errorsOf(await latest(client, program, 1))).toEqual([teeth]);
    await client.change(program, { range: teeth.range, text: '24' });
    // What is left is that the short block of this program is not the one that the note gives.
    expect(errorsOf(await latest(client, program, 2)).filter(({ code }) => code !== 'drift')).toEqual([]);
  });

  it('are the same, pushed and pulled', async () => {
    const [pulling, pushing] = [await startClient(), await startClient(pushed)];
    await pulling.open(program, keywayText);
    await pushing.open(program, keywayText);
    expect(await pulling.diagnostics(program)).toEqual(await latest(pushing, program, 1));
  });

  it('are taken away when a pushed document closes', async () => {
    const client = await startClient(pushed);
    await client.open(program, faulty);
    await latest(client, program, 1);
    await client.close(program);
    await client.until(() => client.published.at(-1)?.diagnostics.length === 0);
    expect(client.published.at(-1)).toMatchObject({ uri: program, diagnostics: [] });
  });

  it('are none for a document that is not open', async () => {
    const client = await startClient();
    expect(await client.diagnostics(program)).toEqual([]);
  });
});

describe('code actions', () => {
  async function actionsAt(client: LanguageClient, uri: string, line: number, diagnostics: Diagnostic[] = [], only?: string[]): Promise<CodeAction[]> {
    const place = { line, character: 0 };
    return client.request('textDocument/codeAction', { textDocument: { uri }, range: { start: place, end: place }, context: { diagnostics, ...(only ? { only } : {}) } });
  }

  it('insert a block of every process at the place', async () => {
    const client = await startClient();
    await client.open(program, 'G21\n\nM30\n');
    const actions = await actionsAt(client, program, 1);
    expect(actions.slice(0, 2)).toEqual(['hobbing', 'keyway'].map((process) => ({
      title: `Insert ${process} block…`, kind: 'refactor.rewrite',
      command: { title: `Insert ${process} block`, command: 'blockwright.insertBlock', arguments: [{ process, place: { uri: program, line: 1, character: 0 } }] },
    })));
  });

  it('lead from a hole to the key of the machine card that would fill it', async () => {
    const client = await startClient();
    await client.open(program, 'G21\n<syncOn>\nM30\n');
    const holes = (await client.diagnostics(program)).filter(({ code }) => code === 'hole');
    expect(holes).toMatchObject([{ data: { cardKey: 'codes.syncOn' }, range: { start: { line: 1, character: 0 }, end: { line: 1, character: 8 } } }]);
    const actions = await actionsAt(client, program, 1, holes, ['quickfix']);
    expect(actions).toMatchObject([{ title: 'Open the machine card at codes.syncOn', kind: 'quickfix', command: { command: 'blockwright.openCard', arguments: ['codes.syncOn'] } }]);
  });

  it('are only of the kinds that are wanted', async () => {
    const client = await startClient();
    await client.open(program, 'G21\nM30\n');
    expect(await actionsAt(client, program, 0, [], ['quickfix'])).toEqual([]);
    expect(await actionsAt(client, program, 0, [], ['source'])).toEqual([]);
    expect((await actionsAt(client, program, 0, [], ['refactor'])).length).toBeGreaterThanOrEqual(2);
  });

  it('are none in a machine card and in a document that is not open', async () => {
    const client = await startClient();
    await client.open('file:///shop/a.machine.json', '{}', 'json');
    expect(await actionsAt(client, 'file:///shop/a.machine.json', 0)).toEqual([]);
    expect(await actionsAt(client, program, 0)).toEqual([]);
  });
});
