import { describe, expect, it } from 'vitest';
import { startClient } from './language-client.ts';
import { hobbingText, keywayText, placeOf, program } from './programs.ts';

async function hoverOn(text: string, word: string): Promise<string> {
  const client = await startClient();
  await client.open(program, text);
  const { line, character } = placeOf(text, word);
  return client.hoverText(program, line, character);
}

/** The figures of a hover: the leading one, then those of its table. */
function figuresIn(markdown: string): string[] {
  const lead = /^### (.*)\n\n\*\*(.*)\*\*/.exec(markdown);
  const rows = [...markdown.matchAll(/^\| ([^|:]*\S) \| (.*) \|$/gm)].map(([, name, value]) => `${name}: ${value}`);
  return lead ? [`${lead[2]}: ${lead[1]}`, ...rows] : rows;
}

describe('capabilities', () => {
  it('follow from the services', async () => {
    const client = await startClient();
    expect(client.initializeResult).toMatchObject({
      serverInfo: { name: 'blockwright' },
      capabilities: {
        positionEncoding: 'utf-16', textDocumentSync: 2, hoverProvider: true,
        codeActionProvider: { codeActionKinds: ['refactor.rewrite', 'quickfix'] }, diagnosticProvider: { identifier: 'blockwright', workspaceDiagnostics: false },
      },
    });
  });
});

describe('hover', () => {
  it('S in a hobbing block: the synchronous ratio first [kinematics, derived; speeds D26, recomputed published value]', async () => {
    const figures = figuresIn(await hoverOn(hobbingText, 'S279'));
    expect(figures.slice(0, 4)).toEqual(['Sync ratio, work revolutions per hob revolution: 1/24 (0.0416667)', expect.stringMatching(/^Speed of the work: 11\.605/) as string, expect.stringMatching(/^Cutting speed at the hob tips: 70 m\/min/) as string, expect.stringMatching(/^Speed of the hob: 278\.521/) as string]);
  });

  it('S in a keyway block: strokes a minute first, seconds a stroke beside it [1000 a minute: common practice]', async () => {
    const figures = figuresIn(await hoverOn(keywayText, 'S1000'));
    expect(figures[0]).toMatch(/^Strokes per minute: 1000/);
    expect(figures[1]).toBe('Time of one stroke: 0.06 s');
    expect(figures[2]).toMatch(/^Peak cutting speed: 109\.956 m\/min/);
  });

  it.each(['HOB-STARTS=1', 'HOB-DIA=80'])('%s: lead angle, helix angle (90 degrees less the lead) and setting angle [technical references on hobs; setting angle D18, derived]', async (word) => {
    const markdown = await hoverOn(hobbingText, word);
    const figures = figuresIn(markdown);
    expect(figures[0]).toMatch(/^Lead angle of the hob: 2\.37154 deg$/);
    expect(figures[1]).toMatch(/^Helix angle of the hob \(90 deg less the lead angle\): 87\.62846 deg$/);
    expect(figures[2]).toMatch(/^Setting angle.*: -2\.37154 deg$/i);
    expect(markdown).toMatch(/\*Source: .*\*/);
    expect(markdown).toMatch(/asin\(1 . 3 \/ 72\.5\)/);
  });

  it('marks the word that it is about', async () => {
    const client = await startClient();
    await client.open(program, hobbingText);
    const hover = await client.hover(program, 1, 20);
    expect(hover?.range).toEqual({ start: { line: 1, character: 19 }, end: { line: 1, character: 27 } });
    expect(hover?.contents).toMatchObject({ kind: 'markdown' });
  });

  it('says nothing on white space, beyond the text, and in a document that is not open', async () => {
    const client = await startClient();
    await client.open(program, 'G21   M30\n');
    expect(await client.hover(program, 0, 4)).toBeNull();
    expect(await client.hover(program, 9, 0)).toBeNull();
    expect(await client.hover('file:///shop/other.nc', 0, 0)).toBeNull();
  });

  it('after many edits equals the hover of a program that was opened fresh', async () => {
    const client = await startClient();
    await client.open(program, hobbingText);
    const lines = hobbingText.split('\n');
    for (let edit = 0; edit < 200; edit += 1) {
      const line = edit % 3 === 0 ? 1 : 4;
      const text = line === 1 ? `(HOBBING: MODULE=${1 + (edit % 3) / 2} TEETH=${20 + (edit % 41)} HOB-DIA=70 FACE=30 SPEED=70 FEED=2.5)` : `G01 Z-${edit}. F${edit}.`;
      await client.change(program, { range: { start: { line, character: 0 }, end: { line, character: lines[line]?.length ?? 0 } }, text });
      lines[line] = text;
    }
    const fresh = 'file:///shop/fresh.nc';
    await client.open(fresh, lines.join('\n'));
    for (const [line, text] of lines.entries()) {
      for (let character = 0; character < text.length; character += 3) {
        expect(await client.hover(program, line, character), `${line + 1}:${character + 1}`).toEqual(await client.hover(fresh, line, character));
      }
    }
    expect(await client.diagnostics(program)).toEqual(await client.diagnostics(fresh));
  });

  it('counts characters as the protocol does: a pair of surrogates is two', async () => {
    const client = await startClient();
    await client.open(program, '(\ud83d\ude00) M30\n');
    const hover = await client.hover(program, 0, 5);
    expect(hover?.range).toEqual({ start: { line: 0, character: 5 }, end: { line: 0, character: 8 } });
  });
});

describe('a request that is not wanted any more', () => {
  it('is refused as cancelled or answered, and the server goes on', async () => {
    const client = await startClient();
    await client.open(program, hobbingText);
    const { CancellationTokenSource, HoverRequest } = await import('vscode-languageserver/node');
    const outcomes = await Promise.all(Array.from({ length: 20 }, async () => {
      const source = new CancellationTokenSource();
      const answer = client.connection.sendRequest(HoverRequest.type, { textDocument: { uri: program }, position: { line: 3, character: 5 } }, source.token);
      source.cancel();
      return answer.then(() => 'answered', (error: { code: number }) => error.code);
    }));
    for (const outcome of outcomes) expect([-32800, 'answered']).toContain(outcome);
    expect(outcomes).toContain(-32800);
    expect(await client.hoverText(program, 3, 5)).toMatch(/^### 1\/24/);
  });
});

describe('a server that is asked for nonsense', () => {
  it('stays up', async () => {
    const client = await startClient();
    await client.open(program, '\ud800\u0000(HOBBING: \udc00=1');
    await expect(client.request('blockwright/sheet', {})).rejects.toThrow();
    await expect(client.request('blockwright/sheet', { process: 'turning', place: { uri: program, line: 0, character: 0 }, values: {} })).rejects.toThrow(/turning is not a process/);
    await expect(client.request('blockwright/sheet', { process: 'hobbing', place: { uri: 'file:///none.nc', line: 0, character: 0 }, values: {} })).rejects.toThrow(/is not an open program/);
    await expect(client.request('blockwright/nothing', {})).rejects.toThrow();
    expect(await client.hoverText(program, 0, 5)).not.toBe('');
    expect(client.isAlive).toBe(true);
  });

  it('answers about a line of 10 MB', async () => {
    const client = await startClient();
    await client.open(program, `G21\n${'X1.5'.repeat(2_600_000)}\nM30`);
    expect(await client.hoverText(program, 2, 0)).toMatch(/M30/);
    const diagnostics = await client.diagnostics(program);
    expect(diagnostics.length).toBeGreaterThan(0);
    expect(diagnostics.length).toBeLessThan(100_000);
    expect(client.isAlive).toBe(true);
  }, 600_000);
});
