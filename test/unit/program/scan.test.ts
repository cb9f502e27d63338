import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Item, readProgram, scanItemAt, scanLine } from '../../../server/src/program/index.ts';
import { allNistPrograms, nistProgram } from './helpers.ts';
import { anyText } from './texts.ts';

const words = (line: string): string => scanLine(line).map(shown).join(' ');

function shown(item: Item): string {
  switch (item.kind) {
    case 'word': return `${item.letter}=${item.value}`;
    case 'sequence': return `N:${item.value}`;
    case 'programNumber': return `${item.mark}:${item.value}`;
    case 'skip': return item.level === undefined ? '/' : `/${item.level}`;
    case 'percent': return `%${item.identifier}`;
    case 'comment': return `${item.style}${item.closed ? '' : ' open'}[${item.text}]`;
    case 'assignment': return `#${item.parameter}=${item.value}`;
    case 'hole': return `hole ${item.name}`;
    case 'junk': return `junk[${item.text}]`;
  }
}

describe('numbers', () => {
  test.each([
    // NISTIR 6556 §3.3: the report's own example.
    ['g0x +0. 12 34y 7', 'G=0 X=0.1234 Y=7'],
    // NISTIR 6556 §3.3.2.1 and §E.2: legal forms.
    ['X5 Y5. Z.5', 'X=5 Y=5 Z=0.5'],
    ['X+0.50 Y-.5 Z007', 'X=0.5 Y=-0.5 Z=7'],
    ['x1y2z3', 'X=1 Y=2 Z=3'],
    ['G59.1', 'G=59.1'],
    // Derived: more digits than a double holds still give the nearest double.
    ['X123456789012345678', 'X=123456789012345680'],
    ['X0.12345678901234567890', 'X=0.12345678901234568'],
  ])('%s', (line, expected) => expect(words(line)).toBe(expected));

  test.each([
    // NISTIR 6556 §3.3.2.1: illegal forms.
    ['X.', 'X=undefined'],
    ['X', 'X=undefined'],
    ['X1e3', 'X=1 E=3'],
    ['X--3', 'X=undefined junk[-3]'],
    // NISTIR 6556 §E.2: a sign belongs to a literal number only.
    ['X-#1', 'X=undefined'],
    ['X-[1]', 'X=undefined'],
  ])('%s is not a number', (line, expected) => expect(words(line)).toBe(expected));

  test('numbers agree with the language of this project itself', () => {
    fc.assert(fc.property(fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e9, max: 1e9 }), (value) => {
      const text = value.toFixed(6);
      const [word] = scanLine(`X${text}`);
      expect(word).toMatchObject({ kind: 'word', value: Number(text) });
    }));
  });
});

describe('the order of items', () => {
  test.each([
    // NISTIR 6556 §3.3.1: N first, after the slash.
    ['/N10 G1', '/ N:10 G=1'],
    ['n0010g21', 'N:10 G=21'],
    // Numbered levels are later practice.
    ['/2 N10', '/2 N:10'],
    // From memory of ISO 6983: an identifier may follow the percent sign.
    ['%', '%'],
    ['% PART 7 (first)', '%PART 7 parenthesis[first]'],
    // Common practice, no source: program numbers.
    ['O1234 (PART)', 'O:1234 parenthesis[PART]'],
    [':1234', '::1234'],
  ])('%s', (line, expected) => expect(words(line)).toBe(expected));

  test('N that is not first is a word', () => expect(words('G1 N10')).toBe('G=1 N=10'));
  test('a slash that is not first belongs to nothing', () => expect(words('G1 / X2')).toBe('G=1 junk[/] X=2'));
});

describe('comments', () => {
  test.each([
    // NISTIR 6556 §3.3.4.
    ['G1 (a) X1 (b)', 'G=1 parenthesis[a] X=1 parenthesis[b]'],
    ['(open', 'parenthesis open[open'],
    ['(a(b)', 'parenthesis[a(b]'],
    ['()', 'parenthesis[]'],
    // Later practice.
    ['G1 X1 ; rest (of) it', 'G=1 X=1 semicolon[ rest (of) it]'],
    ['// a whole line', 'junk[// a whole line]'],
  ])('%s', (line, expected) => expect(words(line).replace('open[open]', 'open[open')).toBe(expected));
});

describe('holes and what belongs to nothing', () => {
  test.each([
    ['<syncOn> X1', 'hole syncOn X=1'],
    ['G1 <', 'G=1 junk[<]'],
    ['<1a>', 'junk[<1] A=undefined junk[>]'],
    ['@@@ X1', 'junk[@@@] X=1'],
  ])('%s', (line, expected) => expect(words(line)).toBe(expected));
});

describe('values in expressions', () => {
  test('a value that needs no parameter is computed', () => {
    expect(scanLine('X[1+2]')).toMatchObject([{ value: 3, valueStart: 1, expression: { text: '[1+2]', bracketed: true } }]);
  });
  test('a parameter has a value only where somebody gives it', () => {
    expect(scanLine('X#5')).toMatchObject([{ value: undefined, expression: { bracketed: false } }]);
    expect(scanLine('X#5', { get: () => 7 })).toMatchObject([{ value: 7 }]);
  });
});

describe('any text', () => {
  test('every character belongs to one item or is white space', () => {
    fc.assert(fc.property(anyText, (line) => {
      let at = 0;
      for (const item of scanLine(line)) {
        expect(line.slice(at, item.start)).toMatch(/^[ \t]*$/);
        expect(item.end).toBeGreaterThan(item.start);
        if (item.kind !== 'comment') expect(item.text).toBe(line.slice(item.start, item.end));
        at = item.end;
      }
      expect(line.slice(at)).toMatch(/^[ \t]*$/);
    }), { numRuns: 2000 });
  });

  test('the item at a character is the one that covers it, or else the one that ends there', () => {
    fc.assert(fc.property(anyText, (line) => {
      const items = scanLine(line);
      for (let character = 0; character <= line.length + 1; character++) {
        const wanted = items.find(({ start, end }) => start <= character && character < end) ?? items.find(({ end }) => end === character);
        expect(scanItemAt(line, character)).toEqual(wanted);
      }
    }), { numRuns: 500 });
  });

  test('the item at a character knows the parameters that hold on its line', () => {
    const program = readProgram('#1=3\nX#1 Y2');
    expect(program.itemAt(1, 1)).toMatchObject({ text: 'X#1', value: 3 });
    expect([program.itemAt(1, 9), program.itemAt(7, 0)]).toEqual([undefined, undefined]);
  });

  test.each(['#', 'X#', '#1=', '#1= ', 'X[', '#[', 'G1 X1 #', '##', 'X-', '/', 'O', '<'])('every mark has a width: %j', (text) => {
    const problems = readProgram(text).problems();
    expect(problems.length).toBeGreaterThan(0);
    for (const { start, end } of problems) expect(end).toBeGreaterThan(start);
  });

  test('a program of random bytes is read to its end', () => {
    fc.assert(fc.property(fc.uint8Array({ maxLength: 2000 }), (bytes) => {
      const program = readProgram(Buffer.from(bytes).toString('latin1'));
      for (const problem of program.problems()) expect(problem.end).toBeGreaterThan(problem.start);
      expect([...program.moves()].every(({ line }) => line < program.lineCount)).toBe(true);
    }));
  });

  test.each(['X1 ', '(', '9', '@', '\ud800'])('a line of ten million characters of %j', (unit) => {
    const program = readProgram(unit.repeat(Math.ceil(1e7 / unit.length)));
    expect(program.lineCount).toBe(1);
    expect(program.problemCounts().get('line-too-long')).toBe(1);
  });

  test.each(['[', '#', 'X[[', '/', '<', 'G1X#', 'ATAN[1]/', '#1='])('a line of a million characters of %j', (unit) => {
    const line = unit.repeat(Math.ceil(1e6 / unit.length));
    expect(scanLine(line).at(-1)?.end).toBe(line.length);
  });

  test('every word of the published programs is read', () => {
    for (const name of allNistPrograms) {
      const program = readProgram(nistProgram(name));
      for (let line = 0; line < program.lineCount; line++) expect(program.items(line).filter(({ kind }) => kind === 'junk')).toEqual([]);
    }
  });
});
