import type { TextDocuments } from 'vscode-languageserver';
import { describe, expect, it, vi } from 'vitest';
import { Rehearsal } from '../../../server/src/assist/rehearsal.ts';
import { Session } from '../../../server/src/assist/session.ts';
import { ProgramDocument } from '../../../server/src/program/index.ts';

const uri = 'file:///shop/part.nc';

/** A session with one open document, which counts the pauses that are made and closes the document at one of them. */
function sessionWith(text: string, closeAtPause = Infinity) {
  const document = ProgramDocument.create(uri, 'nc-program', 1, text);
  const open = new Map([[uri, document]]);
  const seen = { pauses: 0 };
  const pause = (): Promise<void> => {
    seen.pauses += 1;
    if (seen.pauses === closeAtPause) open.clear();
    return Promise.resolve();
  };
  const documents = { get: (asked: string) => open.get(asked) } as unknown as TextDocuments<ProgramDocument>;
  const session = new Session(documents, { readText: () => Promise.resolve(undefined), yieldToMessages: pause, rest: pause });
  session.markCardKnown();
  const program = session.program(uri)!;
  return { session, program, seen, lookedAt: vi.spyOn(program, 'itemAt') };
}

const lines = (count: number): string => Array.from({ length: count }, (_, line) => `N${line + 1} G01 X${line} Z-${line} F0.2 (CUT ${line})`).join('\n');

describe('explaining words ahead', () => {
  it('reads the program to its end, and explains every kind of word on its lines, pausing between two', async () => {
    const { session, program, seen, lookedAt } = sessionWith(lines(50_000));
    await new Rehearsal(session).begin(uri);
    expect(program.advance(0)).toBe(true);
    expect(lookedAt).toHaveBeenCalledTimes(2000);
    expect(new Set(lookedAt.mock.results.map(({ value }) => value.kind === 'word' ? value.letter : value.kind))).toEqual(new Set(['sequence', 'G', 'X', 'Z', 'F', 'comment']));
    expect(seen.pauses).toBeGreaterThan(2000);
  });

  it('begins once, and not with a machine card', async () => {
    const { session, lookedAt } = sessionWith(lines(10));
    const rehearsal = new Rehearsal(session);
    await rehearsal.begin('file:///shop/lathe.machine.json');
    expect(lookedAt).not.toHaveBeenCalled();
    await rehearsal.begin(uri);
    const calls = lookedAt.mock.calls.length;
    expect(calls).toBeGreaterThan(0);
    await rehearsal.begin(uri);
    expect(lookedAt).toHaveBeenCalledTimes(calls);
  });

  it('ends when the program is closed', async () => {
    const { session, lookedAt } = sessionWith(lines(10), 5);
    await new Rehearsal(session).begin(uri);
    expect(lookedAt.mock.calls.length).toBeLessThan(5);
  });

  it.each(['', '\n\n\n', '   '])('has nothing to explain in %j', async (text) => {
    const { session, lookedAt } = sessionWith(text);
    await new Rehearsal(session).begin(uri);
    expect(lookedAt).not.toHaveBeenCalled();
  });
});
