import { describe, expect, test } from 'vitest';
import { ProgramDocument } from '../../../server/src/program/index.ts';
import { EditableProgram } from '../../../server/src/program/program.ts';
import { TextStore } from '../../../server/src/program/store.ts';

/** Lines as they come from a tool path generator: every position is given anew within a few lines. */
const text = (lines: number): string => Array.from({ length: lines }, (_, index) => `N${index % 99999} G1 X${index % 50}. Z${-(index % 70)}.5 F0.2`).join('\n');

const program = (lines: number): EditableProgram => new EditableProgram(new TextStore(text(lines)), { units: 'mm', unitsWords: { inch: [], mm: [] }, diameterProgramming: true, incrementalAxes: {}, patterns: [], meanings: {}, skipBlocks: false });

function linesExecuted(of: EditableProgram, work: () => void): number {
  const before = of.linesExecuted;
  work();
  return of.linesExecuted - before;
}

describe('work, counted in lines executed', () => {
  test('of reading a program through grows no faster than its length', () => {
    const small = program(2000);
    const large = program(16000);
    const work = [small, large].map((one) => linesExecuted(one, () => one.problemCounts()));
    expect(work[0]).toBeGreaterThanOrEqual(2000);
    expect(work[1]! / work[0]!).toBeLessThanOrEqual(8.5);
  });

  test('of a look at a line is that before it and no more', () => {
    const one = program(16000);
    expect(linesExecuted(one, () => one.stateBefore(4000))).toBeLessThan(4600);
    expect(linesExecuted(one, () => one.stateBefore(4100))).toBeLessThan(600);
  });

  test.each([[4000], [64000]])('of an edit in %d lines does not depend on their number', (lines) => {
    const document = ProgramDocument.create('u', 'l', 1, text(lines));
    const edited = document.program() as EditableProgram;
    edited.problemCounts();
    for (const line of [0, 1, Math.floor(lines / 2), lines - 2]) {
      const work = linesExecuted(edited, () => {
        ProgramDocument.update(document, [{ range: { start: { line, character: 7 }, end: { line, character: 7 } }, text: '(HELLO)\n' }], 2);
        edited.stateBefore(lines - 10);
        edited.problemCounts();
      });
      expect(work).toBeLessThan(2000);
    }
  });

  test('of asking where a mode was set is that of two pieces', () => {
    const one = program(64000);
    one.problemCounts();
    expect(linesExecuted(one, () => expect(one.stateBefore(63000).lineOf('motion')).toBe(62999))).toBeLessThan(1500);
    expect(linesExecuted(one, () => expect(one.stateBefore(63000).lineOf('units')).toBeUndefined())).toBeLessThan(1500);
  });
});
