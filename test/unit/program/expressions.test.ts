import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readProgram, scanLine } from '../../../server/src/program/index.ts';
import { atZero, marks, nistProgram } from './helpers.ts';

const valueOf = (expression: string): number | undefined => {
  const [item] = scanLine(`X${expression}`);
  return item?.kind === 'word' ? item.value : undefined;
};

describe('NISTIR 6556 App. C.2, program of expressions: the X that each line prints in its comment', () => {
  const text = nistProgram('C2-expressions.ngc');
  const program = readProgram(text, atZero);
  const checks = text.split('\n').flatMap((line, index) => {
    const printed = /x should be (-?[\d.]+)|so x should be (-?[\d.]+)/.exec(line);
    return printed === null ? [] : [[line.slice(0, 5), index, printed[1] ?? printed[2]!] as const];
  });

  test('there are 44 of them', () => expect(checks.length).toBe(44));

  test.each(checks)('%s', (_name, line, printed) => {
    const decimals = Math.max(1, printed.split('.')[1]?.length ?? 0);
    expect(program.stateAfter(line).position.X).toBeCloseTo(Number(printed), Math.min(decimals, 4));
  });

  test('n0460, which prints no value: computed by hand outside the project', () => expect(program.stateAfter(45).position.X).toBeCloseTo(2.000545078, 8));
  test('no line of it is objected to', () => expect(program.problems()).toEqual([]));
});

describe('precedence and functions (NISTIR 6556 §3.3.2.3, §3.3.2.4, App. C.2)', () => {
  test.each([
    ['[2.0/3*1.5-5.5/11.0]', 0.5], ['[1+2*3-4/5]', 6.2], ['[2 or 2]', 1], ['[2 xor 2]', 0], ['[15 MOD 4.0]', 3],
    ['FIX[-2.8]', -3], ['FUP[-2.8]', -2], ['ROUND[-0.499]', 0], ['ROUND[-0.5001]', -1], ['[1 --3]', 4],
    // Derived from the table of three levels, each from left to right.
    ['[2**3**2]', 64], ['[2+3*2**2]', 14], ['[8/4/2]', 1], ['[1 or 0 and 0]', 0], ['[10-2-3]', 5], ['[2*3 MOD 4]', 2],
    // Derived: angles in degrees both ways.
    ['SIN[30]', 0.5], ['COS[60]', 0.5], ['TAN[45]', 1], ['ACOS[0.5]', 60], ['ATAN[1]/[-1]', 135], ['ATAN[-1]/[-1]', -135],
    // NISTIR 6556 §3.3: white space means nothing, not even inside names.
    ['s i n [ 3 0 ]', 0.5], ['[1 m o d 1]', 0],
  ])('%s = %d', (expression, expected) => expect(valueOf(expression)).toBeCloseTo(expected, 12));

  test('nested parameters: ##2 is the parameter whose number is in #2', () => {
    const item = scanLine('X##2', { get: (index) => (index === 2 ? 7 : index === 7 ? 9 : NaN) })[0];
    expect(item).toMatchObject({ value: 9 });
  });

  test('the number sign binds tightest: [#1+2] is the value of #1, and 2', () => {
    expect(scanLine('X[#1+2]', { get: (index) => (index === 1 ? 10 : NaN) })[0]).toMatchObject({ value: 12 });
  });

  test('sums and products agree with the arithmetic of the platform', () => {
    const operand = fc.integer({ min: 0, max: 99 });
    fc.assert(fc.property(fc.array(fc.tuple(operand, fc.constantFrom('+', '-', '*')), { minLength: 1, maxLength: 8 }), operand, (pairs, last) => {
      const text = pairs.map(([value, operator]) => value + operator).join('') + last;
      // eslint-disable-next-line no-new-func -- digits and three operators only; an evaluator that shares no code with ours.
      const expected = new Function(`return ${text}`)() as number;
      expect(valueOf(`[${text}]`)).toBe(expected);
    }));
  });
});

describe('values that do not exist', () => {
  test.each([
    ['[1/0]'], ['SQRT[-1]'], ['LN[0]'], ['LN[-2]'], ['ASIN[1.1]'], ['ACOS[-1.1]'], ['[1 MOD 0]'], ['[-1 MOD 4]'], ['[[0-8]**0.5]'], ['EXP[1000]'],
  ])('%s', (expression) => {
    expect(valueOf(expression)).toBeUndefined();
    expect(marks(`G1 F1 X${expression}`)).toContainEqual(expect.stringMatching(/ expression-value$/));
  });
});

describe('expressions that cannot be read', () => {
  test.each([['[1+]'], ['[1'], ['[]'], ['[1 2 3'], ['ASIM[0.5]'], ['ATAN[1]'], ['ATAN[1]/2'], ['[1+2 Y3'], ['SIN[]']])('%s', (expression) => {
    expect(valueOf(expression)).toBeUndefined();
    expect(marks(`G1 F1 X${expression}`)).toContainEqual(expect.stringMatching(/ expression$/));
  });

  test('a bare operator after a value is no part of it (NISTIR 6556 §E.2)', () => expect(marks('#1=2+3')).toEqual(['1:5 expression']));
  test('thousands of brackets neither hang nor overflow', () => expect(marks(`X${'['.repeat(50_000)}`)).toContain('1:2 expression'));
});

describe('parameters', () => {
  test.each([['#0=1', '1:1 parameter-index'], ['#5400=1', '1:1 parameter-index'], ['#1.5=1', '1:1 parameter-index'], ['G1F1X#0', '1:6 parameter-index'], ['#5220=10', '1:1 parameter-index']])('%s', (line, expected) => {
    expect(marks(line)).toEqual([expected]);
  });
  test.each([['#1=1'], ['#5399=1'], ['#2.00005=1'], ['#5220=9']])('%s is allowed', (line) => expect(marks(line)).toEqual([]));

  test('settings take effect after the line, and the last one wins (NISTIR 6556 §3.3.3)', () => {
    const program = readProgram('#3=15\n#3=6 G1 F1 X#3\n#4=1 #4=2', atZero);
    expect(program.stateAfter(1).position.X).toBe(15);
    expect(program.stateAfter(1).parameter(3)).toBe(6);
    expect(program.stateAfter(2).parameter(4)).toBe(2);
    expect(program.stateAfter(2).parameterValues()).toEqual(new Map([[3, 6], [4, 2]]));
  });

  test('a parameter that the program has not set has no value, and that is said', () => {
    expect(readProgram('G1 F1 X#100', atZero).stateAfter(0).position.X).toBeUndefined();
    expect(marks('G1 F1 X#100')).toEqual(['1:8 parameter-unset']);
  });

  test('items of a line have the values that hold there', () => {
    expect(readProgram('#1=4\nX[#1*2]').items(1)).toMatchObject([{ letter: 'X', value: 8 }]);
  });
});
