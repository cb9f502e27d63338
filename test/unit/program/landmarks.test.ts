import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { openStandardDialect, ProgramDocument, readProgram } from '../../../server/src/program/index.ts';
import { EditableProgram } from '../../../server/src/program/program.ts';
import { TextStore } from '../../../server/src/program/store.ts';

const dialect = { ...openStandardDialect, toolChange: 'T' as const };

/** "line kind name" of every landmark, lines from 1. */
function check(lines: readonly string[], expected: readonly string[]): void {
  const found = [...readProgram(lines.join('\n'), dialect).landmarks()];
  expect(found.map(({ line, kind, name }) => `${line + 1} ${kind} ${name}`.trim())).toEqual(expected);
}

describe('landmarks', () => {
  it('are program numbers, tool changes and the comments of notes, in the order of their lines', () => {
    check(
      ['%', 'O1001 (HUB)', 'T0101', 'G00 X1.', '(HOBBING: TEETH=32)', '(END HOBBING)', 'N5 T2', 'M30', 'o2000', 'T3', '%'],
      ['2 programNumber', '3 tool', '5 noteStart HOBBING', '6 noteEnd HOBBING', '7 tool', '9 programNumber', '10 tool'],
    );
  });

  it('are none where nothing begins', () => check(['G00 X1.', '(TEXT)', 'M30'], []));

  it('stand on the lines of the whole program, far behind its start too', () => {
    const many = Array.from({ length: 1000 }, (_, index) => (index % 250 === 249 ? 'T1' : 'G01 X1. F1.'));
    check([...many, 'O7'], ['250 tool', '500 tool', '750 tool', '1000 tool', '1001 programNumber']);
  });

  it('of a part of the program are those on its lines', () => {
    const program = readProgram(Array.from({ length: 2000 }, () => 'T1').join('\n'), dialect);
    expect([...program.landmarks(700, 703)].map(({ line }) => line)).toEqual([700, 701, 702]);
    expect([...program.landmarks(5, 5)]).toEqual([]);
    expect([...program.landmarks(1999)].map(({ line }) => line)).toEqual([1999]);
  });

  it('are found lazily: who stops early reads no further', () => {
    const program = new EditableProgram(new TextStore(Array.from({ length: 10_000 }, () => 'T1').join('\n')), dialect);
    const [first] = program.landmarks();
    expect(first).toEqual({ line: 0, kind: 'tool', name: '' });
    expect(program.linesExecuted).toBeLessThan(1000);
  });

  it('after edits equal those of a fresh program', () => {
    const line = fc.constantFrom('O1', 'O22 (X)', 'T1', '(HOBBING: A=1)', '(END HOBBING)', 'G00 X1.', '', 'M30');
    const text = fc.array(line, { maxLength: 300 }).map((lines) => lines.join('\n'));
    fc.assert(fc.property(text, fc.array(fc.tuple(fc.nat(300), fc.nat(20), text), { maxLength: 4 }), (before, edits) => {
      const document = ProgramDocument.create('file:///a.nc', 'nc-program', 1, before);
      edits.forEach(([line, removed, added], index) => {
        [...document.program(dialect).landmarks()];
        const range = { start: { line, character: 0 }, end: { line: line + removed, character: 0 } };
        ProgramDocument.update(document, [{ range, text: added }], index + 2);
      });
      expect([...document.program(dialect).landmarks()]).toEqual([...readProgram(document.getText(), dialect).landmarks()]);
    }));
  });
});
