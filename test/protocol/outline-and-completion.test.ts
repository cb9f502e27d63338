import { describe, expect, it } from 'vitest';
import type { CompletionItem, DocumentSymbol, FoldingRange } from 'vscode-languageserver';
import { CancellationTokenSource, DocumentSymbolRequest } from 'vscode-languageserver/node';
import { startClient, type LanguageClient } from './language-client.ts';
import { hobbingText, program } from './programs.ts';

function completions(client: LanguageClient, line: number, character: number): Promise<CompletionItem[]> {
  return client.request('textDocument/completion', { textDocument: { uri: program }, position: { line, character } });
}

function symbols(client: LanguageClient): Promise<DocumentSymbol[]> {
  return client.request('textDocument/documentSymbol', { textDocument: { uri: program } });
}

describe('capabilities', () => {
  it('offer outline, folding and completion', async () => {
    const client = await startClient();
    expect(client.initializeResult?.capabilities).toMatchObject({ documentSymbolProvider: { label: 'Blockwright' }, foldingRangeProvider: true, completionProvider: { triggerCharacters: ['(', ';', ':', '+', '=', ' '] } });
  });
});

describe('completion', () => {
  it('replaces the word at the cursor, in the order of the process', async () => {
    const client = await startClient();
    await client.open(program, 'G21\n(HOBBING: MODULE=2 TE)\n');
    const items = await completions(client, 1, 21);
    expect(items[0]).toMatchObject({
      label: 'TEETH', detail: 'Number of teeth', filterText: 'TEETH=', sortText: '0000',
      documentation: { kind: 'markdown', value: expect.stringMatching(/^Teeth of the gear\. Allowed: a whole number from 3 to 1000/) as string },
      textEdit: { newText: 'TEETH=', range: { start: { line: 1, character: 19 }, end: { line: 1, character: 21 } } },
    });
    expect(items.map(({ sortText }) => sortText)).toEqual(items.map(({ sortText }) => sortText).sort());
  });

  it('asks for the values of a choice next', async () => {
    const client = await startClient();
    await client.open(program, '(HOBBING: )');
    const items = await completions(client, 0, 10);
    expect(items.find(({ label }) => label === 'HAND')?.command?.command).toBe('editor.action.triggerSuggest');
    expect(items.find(({ label }) => label === 'TEETH')?.command).toBeUndefined();
  });

  it('lists G and M words only for a client that opens such a list on demand', async () => {
    const cautious = await startClient({ initializationOptions: { listsWordsOnDemand: true } });
    await cautious.open(program, 'G');
    const items = await completions(cautious, 0, 1);
    expect(items.find(({ label }) => label === 'G04')).toMatchObject({ kind: 14, detail: 'Dwell', textEdit: { newText: 'G04' } });
    const other = await startClient();
    await other.open(program, 'G');
    expect(await completions(other, 0, 1)).toEqual([]);
  });

  it('has nothing to say in a machine card, beyond the text, and in a document that is not open', async () => {
    const client = await startClient();
    await client.open('file:///shop/a.machine.json', '(', 'json');
    expect(await client.request('textDocument/completion', { textDocument: { uri: 'file:///shop/a.machine.json' }, position: { line: 0, character: 1 } })).toEqual([]);
    expect(await completions(client, 5, 0)).toEqual([]);
    await client.open(program, 'G21');
    expect(await completions(client, 7, 3)).toEqual([]);
  });
});

describe('outline and folding', () => {
  it('follow the edits of the program', async () => {
    const client = await startClient();
    await client.open(program, `O10 (PART)\nT5 (HOB)\n${hobbingText}`);
    const [part] = await symbols(client);
    expect([part?.name, part?.children?.[0]?.name, part?.children?.[0]?.children?.[0]?.name]).toEqual(['O10', 'T5', 'Hobbing']);
    await client.change(program, { range: { start: { line: 1, character: 0 }, end: { line: 1, character: 2 } }, text: 'T9' });
    expect((await symbols(client))[0]?.children?.[0]?.name).toBe('T9');
    const ranges = await client.request<FoldingRange[]>('textDocument/foldingRange', { textDocument: { uri: program } });
    expect(ranges.map(({ startLine, endLine }) => [startLine, endLine])).toEqual([[0, 8], [1, 8], [3, 7]]);
  });

  it('give no more ranges than the client takes', async () => {
    const client = await startClient({ capabilities: { textDocument: { diagnostic: {}, foldingRange: { rangeLimit: 3 } } } });
    await client.open(program, 'T1\nG00 X1.\n'.repeat(9));
    expect(await client.request<FoldingRange[]>('textDocument/foldingRange', { textDocument: { uri: program } })).toHaveLength(3);
  });

  it('of a long program let a hover come before them, and can be called off', async () => {
    const client = await startClient();
    await client.open(program, `S100 M03\n${'G01 X1. F1.\n'.repeat(200_000)}`);
    const order: string[] = [];
    const source = new CancellationTokenSource();
    const outline = client.connection.sendRequest(DocumentSymbolRequest.type, { textDocument: { uri: program } }, source.token).then(() => order.push('outline'), (error: { code: number }) => order.push(String(error.code)));
    await client.hoverText(program, 0, 0).then((text) => order.push(text === '' ? 'empty' : 'hover'));
    source.cancel();
    await outline;
    expect(order).toEqual(['hover', '-32800']);
    expect(await symbols(client)).toEqual([]);
  });
});
