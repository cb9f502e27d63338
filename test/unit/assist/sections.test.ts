import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { SymbolKind, type DocumentSymbol } from 'vscode-languageserver';
import { foldingRangesOf as rangesOfSections } from '../../../server/src/assist/folding.ts';
import { symbolsOf as symbolsOfSections } from '../../../server/src/assist/outline.ts';
import { sectionsOf, type Sections } from '../../../server/src/assist/sections.ts';
import { readProgram, type Program } from '../../../server/src/program/index.ts';
import { programOf } from './programs.ts';

function sections(program: Program, most: number): Sections {
  const work = sectionsOf(program, most);
  let step = work.next();
  while (!step.done) step = work.next();
  return step.value;
}

const symbolsOf = (program: Program, most: number) => symbolsOfSections(program, sections(program, most), most);
const foldingRangesOf = (program: Program, most: number) => rangesOfSections(sections(program, most));

/** One line a symbol, indented by its depth: name, detail, first to last line counted from 1. */
function linesOf(symbols: readonly DocumentSymbol[], depth = 0): string[] {
  return symbols.flatMap(({ name, detail, range, children }) => [
    `${'  '.repeat(depth)}${name}${detail ? ` | ${detail}` : ''} ${range.start.line + 1}-${range.end.line + 1}`,
    ...linesOf(children ?? [], depth + 1),
  ]);
}

function check(lines: readonly string[], expected: readonly string[], most = 100): void {
  expect(linesOf(symbolsOf(programOf(lines.join('\n')), most))).toEqual(expected);
}

describe('outline', () => {
  it('has programs, in them the tools, in them the blocks of notes', () => {
    check(
      ['%', 'O1001 (HUB)', 'G21', 'N10 T0101 (TURN)', 'G00 X1.', '', 'T5', '(HOBBING: MODULE=2 TEETH=32)', '(+ HELIX=15 HAND=RIGHT FACE=20)', 'M08', '(END HOBBING)', 'M30', 'O2000 (SUB)', 'G01 X2. F1.', '%'],
      ['O1001 | HUB 2-12', '  T0101 | TURN 4-5', '  T5 7-12', '    Hobbing | MODULE=2 TEETH=32 HELIX=15 HAND=RIGHT 8-11', 'O2000 | SUB 13-14'],
    );
  });

  it.each<[string, string[], string[]]>([
    ['on its line before all', ['(ABOVE)', 'T1 (ON IT)', '(BELOW)'], ['T1 | ON IT 2-3']],
    ['above it', ['(ABOVE)', 'N1T 01', '(BELOW)'], ['T01 | ABOVE 2-3']],
    ['below it', ['G00 X1. (A MOVE)', 't1', '(BELOW)'], ['T1 | BELOW 2-3']],
    ['but no part of a note', ['(HOBBING: TEETH=9)', '(+ FACE=1)', '(END HOBBING)', 'T1', '(KEYWAY: BORE=9)'], ['Hobbing | TEETH=9 FACE=1 1-3', 'T1 4-5', '  Keyway | BORE=9 5-5']],
  ])('takes the comment of a tool %s', (_name, lines, expected) => check(lines, expected));

  it('gives a heading to the tool that it announces, and no blank line to anybody', () => {
    check(['T1', 'G00 X1.', '', '(SECOND)', 'T2', 'G00 X2.', ''], ['T1 | SECOND 1-2', 'T2 | SECOND 5-6'].map((line, index) => (index === 0 ? 'T1 1-2' : line)));
  });

  it('does not divide a block: a tool change inside a closed note is no section of its own', () => {
    check(['T1', '(HOBBING: TEETH=9)', 'T5', 'G00 X1.', '(END HOBBING)', 'G00 X2.'], ['T1 1-6', '  Hobbing | TEETH=9 2-5']);
  });

  it('takes no more than its parameters for a note that is not closed', () => {
    check(['(HOBBING: TEETH=9)', '(+ FACE=3)', 'G00 X1.', 'T2', 'M30'], ['Hobbing | TEETH=9 FACE=3 1-2', 'T2 4-5']);
  });

  it('lets a program that begins inside a note end it', () => {
    check(['(HOBBING: TEETH=9)', 'G00 X1.', 'O5', 'M30', '(END HOBBING)'], ['Hobbing | TEETH=9 1-2', 'O5 3-5']);
  });

  it('leaves out comments that only look like notes, and misspelt ones', () => {
    check(['T5', '(UNIT: HOB UNIT)', '(HOBING: TEETH=9)'], ['T5 | UNIT: HOB UNIT 1-3']);
  });

  it('is empty where there is nothing to list', () => check(['G21', 'M30', ''], []));

  it('says where it ends when there is more', () => {
    check(['T1', 'T2', 'T3', 'T4'], ['T1 1-1', 'T2 2-2', 'Only the first 2 entries are listed 3-3'], 2);
  });

  it('marks the word that names a section', () => {
    const [symbol] = symbolsOf(programOf('N10 T0101 M06'), 9);
    expect(symbol?.selectionRange).toEqual({ start: { line: 0, character: 4 }, end: { line: 0, character: 9 } });
    expect(symbol?.kind).toBe(SymbolKind.Property);
  });

  it('of the demo lists both spindles and all five blocks', () => {
    const text = readFileSync(new URL('../../../client/demo/drive-hub-mm.nc', import.meta.url), 'utf8');
    const lines = linesOf(symbolsOf(programOf(text), 100)).map((line) => line.replace(/ \d+-\d+$/, ''));
    expect(lines[0]).toMatch(/^O1001 \| DRIVE HUB/);
    expect(lines.filter((line) => /^ {2}T/.test(line)).map((line) => line.trim().split(' ')[0])).toEqual(['T0101', 'T0606', 'T0202', 'T0303', 'T0404', 'T0505', 'T0707', 'T0909', 'T0111', 'T0515']);
    expect(lines.filter((line) => /^ {4}\S/.test(line)).map((line) => line.trim().split(' ')[0])).toEqual(['Hobbing', 'Keyway', 'Engraving', 'Hand-over', 'Hobbing']);
  });
});

describe('folding', () => {
  it('folds what the outline lists, from its first line to its last', () => {
    const ranges = foldingRangesOf(programOf(['O1', 'T1', 'G00 X1.', '(KEYWAY: BORE=9)', 'M08', '(END KEYWAY)', '', '(NEXT)', 'T2', 'O2', 'M30'].join('\n')), 100);
    expect(ranges).toEqual([
      { startLine: 0, endLine: 8 }, { startLine: 1, endLine: 5 }, { startLine: 3, endLine: 5, kind: 'region' }, { startLine: 9, endLine: 10 },
    ]);
  });

  it('is limited', () => {
    const text = Array.from({ length: 50 }, () => 'T1\nG00 X1.').join('\n');
    expect(foldingRangesOf(programOf(text), 7)).toHaveLength(7);
  });
});

describe('any program', () => {
  const line = fc.oneof(
    fc.constantFrom('%', 'O1', 'O2 (SUB)', 'T1', 'T2 (TOOL)', '(HEADING)', '(HOBBING: TEETH=9)', '(+ FACE=2)', '(KEYWAY: BORE=3)', '(END HOBBING)', '(END KEYWAY)', 'G00 X1.', '', 'M30', ':7 T3'),
    fc.string({ unit: 'binary', maxLength: 12 }),
  );
  const text = fc.array(line, { maxLength: 40 }).map((lines) => lines.join('\n'));

  it('has sections that lie inside each other and come one after the other', () => {
    fc.assert(fc.property(text, fc.integer({ min: 1, max: 12 }), (sample, most) => {
      const program = readProgram(sample, programOf('').dialect);
      checkNesting(program, symbolsOf(program, most), 0, program.lineCount - 1);
    }));
  });

  it('folds without one range crossing another', () => {
    fc.assert(fc.property(text, (sample) => {
      const ranges = foldingRangesOf(programOf(sample), 100);
      for (const one of ranges) {
        for (const other of ranges) expect(other.startLine > one.startLine && other.startLine <= one.endLine && other.endLine > one.endLine).toBe(false);
      }
    }));
  });
});

function checkNesting(program: Program, symbols: readonly DocumentSymbol[], fromLine: number, toLine: number): void {
  let last = fromLine;
  for (const { name, range, selectionRange, children } of symbols) {
    expect(name).not.toBe('');
    expect(range.start.line).toBeGreaterThanOrEqual(last);
    expect(range.end.line).toBeGreaterThanOrEqual(range.start.line);
    expect(range.end.line).toBeLessThanOrEqual(toLine);
    expect(selectionRange.start.line).toBe(range.start.line);
    expect(selectionRange.end.character).toBeLessThanOrEqual(program.lineText(selectionRange.end.line).length);
    checkNesting(program, children ?? [], range.start.line, range.end.line);
    last = range.end.line;
  }
}
