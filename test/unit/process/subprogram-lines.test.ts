/** Where the subprogram of a number stands, and whose a line is, without reading a long program for every hover. */
import { describe, expect, it, vi } from 'vitest';
import { dialectOf } from '../../../server/src/machine/dialect.ts';
import { keyway } from '../../../server/src/process/keyway.ts';
import { noteOwning } from '../../../server/src/process/note-of-line.ts';
import { subprogramLines } from '../../../server/src/process/subprogram-lines.ts';
import { readProgram } from '../../../server/src/program/index.ts';
import { EditableProgram } from '../../../server/src/program/program.ts';
import { values } from './figures.ts';
import { callingCard, programOf } from './subprogram-cards.ts';

const dialect = dialectOf(callingCard);

describe('the lines of a subprogram', () => {
  it.each([
    ['up to its return', 'O1\nM30\nO5\nG0 X1\nM899\nG0 X2', { fromLine: 2, toLine: 5, returns: true, isTwice: false }],
    ['up to the next program number, where it has none', 'O1\nM30\nO5\nG0 X1\nO6\nM899', { fromLine: 2, toLine: 4, returns: false, isTwice: false }],
    ['up to the end of the text, where nothing follows', 'O1\nM30\nO5\nG0 X1', { fromLine: 2, toLine: 4, returns: false, isTwice: false }],
    ['with a number that stands twice, close together', 'O1\nM30\nO5\nM899\nO5\nM899', { fromLine: 2, toLine: 4, returns: true, isTwice: true }],
  ])('%s', (_, text, lines) => expect(subprogramLines(readProgram(text, dialect), 5)).toEqual(lines));
});

describe('the note that owns a line', () => {
  const text = programOf(keyway, values('BORE=30 LENGTH=25 METHOD=STATIC SPEED=8 FEED=0.05 PROGRAM=8000'), callingCard);

  it('is the one whose block calls the subprogram', () => {
    const lines = text.split('\n');
    const program = readProgram(text, dialect);
    const [first, last] = [lines.indexOf('O8000'), lines.indexOf('M899')];
    expect([first, last - 1, last].map((line) => noteOwning(program, line)?.keyword)).toEqual(['KEYWAY', 'KEYWAY', 'KEYWAY']);
    expect([first - 1, last + 1].map((line) => noteOwning(program, line))).toEqual([undefined, undefined]);
  });

  it('is not searched for in the text of a long main program', () => {
    const program = readProgram(['O7', ...Array.from({ length: 20_000 }, (_, index) => `G1 X${index % 50} F1`), 'M30', 'O8', 'G0 X1', 'M899'].join('\n'), dialect);
    program.problemCounts();
    const looks = vi.spyOn(EditableProgram.prototype, 'lineText');
    for (const line of [5, 900, 10_000]) expect(noteOwning(program, line)).toBeUndefined();
    expect(looks.mock.calls.length).toBeLessThan(50);
    looks.mockRestore();
  });
});
