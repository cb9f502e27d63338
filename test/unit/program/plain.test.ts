import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Block, type ProblemSink } from '../../../server/src/program/block.ts';
import { type Dialect, openStandardDialect, readProgram } from '../../../server/src/program/index.ts';
import { LineReader } from '../../../server/src/program/lines.ts';
import { Parameters } from '../../../server/src/program/parameters.ts';
import { PatternFinder } from '../../../server/src/program/patterns.ts';
import { PlainReader } from '../../../server/src/program/plain.ts';
import { mayBeNote } from '../../../server/src/program/notes.ts';
import { PARENTHESIS_COMMENT, type Tape } from '../../../server/src/program/tape.ts';
import { CharacterWindow } from '../../../server/src/program/window.ts';
import { anyText, programLine, programText } from './texts.ts';

const dialect: Dialect = {
  ...openStandardDialect,
  incrementalAxes: { U: 'X' },
  patterns: [{ name: 'syncOn', words: [{ letter: 'G', value: 137 }, { letter: 'Q', slot: 'teeth' }] }, { name: 'drivenStop', words: [{ letter: 'M', value: 205.5 }] }],
};

const finder = new PatternFinder(dialect);
const window = new CharacterWindow();
const reader = new LineReader(new Parameters(), undefined, window);
const gathered = new Block(dialect, finder, () => reader.tape);
let objections: string[] = [];
const sink: ProblemSink = { problem: (rule) => objections.push(rule) };

/** Reads a line that stands somewhere in a longer text both ways. */
function bothWays(line: string, before = '', after = ''): { plain: Block | undefined; tape: Tape; objections: string[] } {
  const text = before + line + after;
  const limit = before.length + line.length;
  const block = new Block(dialect, finder, () => reader.read(text, before.length, limit));
  window.show(text, before.length, limit);
  const plain = new PlainReader(block).read(window, before.length, limit) ? block : undefined;
  const shown = plain && pictureOf(plain);
  objections = [];
  const tape = reader.read(text, before.length, limit);
  gathered.gather(tape, sink);
  if (shown !== undefined) expect(shown).toEqual(pictureOf(gathered));
  return { plain, tape, objections };
}

/** What the interpreter asks a block for, but the places of the words. */
function pictureOf(block: Block): unknown {
  const { seen, axes, gSeen, mSeen, isSkip, isPercent, startsProgram, hasAssignments } = block;
  const groups = Array.from({ length: 14 }, (_, group) => [block.gOf(group), block.mOf(group)]);
  const values = Array.from({ length: 26 }, (_, letter) => (block.has(letter) ? block.values[letter] : undefined));
  return { seen, axes, gSeen, mSeen, isSkip, isPercent, startsProgram, hasAssignments, groups, values, matches: block.matches.length };
}

describe('a plain line', () => {
  test.each([
    '', ' ', 'N10 G01 X1.5 Z-2. F.2', 'g1x1z2', 'G0X-0.', 'N99999G2 X1 Z2 R3', '/N5 G0 X1', 'M3 S100 (START)', '(ANY TEXT)', 'T1 M06', 'G59.1', 'M8 M3 M10 M60', 'X1\tZ2', 'X123456789012345',
  ])('%s is read without a tape', (line) => {
    expect(bothWays(line, 'X9\n', '\n9').plain).toBeDefined();
  });

  test.each([
    'X', 'X-', 'X1X2', 'G1 G2', 'G5', 'G1.55', 'M77', 'M1.5', 'M3 M4', 'M8 M3 M10 M60 M48', 'X1 2', 'X 1', 'X1. 5', 'X1  ', 'X#1', 'X[1]', '#1=2', '%', 'O1', ':1', 'N1.5', 'N123456', 'N', 'X1 N5', '/1 X1', '/ X1', '//', '<syncOn>',
    '(OPEN', '(A (B)', '(HOBBING: MODULE=2)', '( end hobbing)', '(\u00e4)', ';X1', 'G137 Q5', 'M205.5', 'X1234567890123456', 'X0.1234567890123456', 'X+1', '@',
  ])('%s is left to the reader of all lines', (line) => {
    expect(bothWays(line, 'X9\n', '\n9').plain).toBeUndefined();
  });

  test('is read the same both ways, wherever it stands, and is never one to object to', () => {
    const words = fc.array(fc.oneof(programLine, fc.constantFrom('N1', 'G1', 'G01', 'X1.5', 'Z-2', ' ', '  ', '.', '-', '5', 'M8', 'M3', 'S100', 'F.2', '(A)', '(A: B)', '(END A)', '/', 'G137', 'Q5', 'U2', 'g0', 'G59.1', '\t')), { maxLength: 8 });
    const line = fc.oneof(words.map((parts) => parts.join('')), words.map((parts) => parts.join(' ')), anyText).map((text) => text.replace(/[\r\n]/g, ''));
    fc.assert(fc.property(line, fc.constantFrom('', 'X1\n'), fc.constantFrom('', '\n', '\r\n', '\n5 .5'), (text, before, after) => {
      const { plain, tape, objections: found } = bothWays(text, before, after);
      if (plain === undefined) return;
      expect(found).toEqual([]);
      expect(tape.faults).toEqual([]);
      for (let row = 0; row < tape.count; row++) {
        if (tape.kind(row) === PARENTHESIS_COMMENT) expect(mayBeNote(before + text, tape.start[row]! + 1, tape.end[row]! - 1)).toBe(false);
      }
    }), { numRuns: 3000 });
  });

  test('tells where its words are once somebody asks', () => {
    const { plain } = bothWays('N1 G1 X5 M8', 'Z1\n');
    expect(plain!.text('Z1\nN1 G1 X5 M8', 'X'.charCodeAt(0) - 65)).toBe('X5');
    expect([plain!.gRowOf(2), plain!.mRowOf(4)]).toEqual([1, 3]);
  });
});

test('objections are counted as often as they are listed', () => {
  fc.assert(fc.property(programText, (text) => {
    const program = readProgram(text, dialect);
    const listed = new Map<string, number>();
    for (const { rule } of program.problems()) listed.set(rule, (listed.get(rule) ?? 0) + 1);
    expect(Object.fromEntries(program.problemCounts())).toEqual(Object.fromEntries(listed));
  }), { numRuns: 200 });
});
