import { describe, expect, it } from 'vitest';
import { count, inRange, lengthOrZero, positiveLength, positiveRate, rangeInWords, resultInRange, turningSpeed, type Range } from '../../../server/src/trade/domain.ts';
import { OutOfRange } from '../../../server/src/trade/quantity.ts';

const accepts = (value: number, range: Range): boolean => {
  try {
    return Object.is(inRange('x', value, range), value);
  } catch (error) {
    expect(error).toBeInstanceOf(OutOfRange);
    return false;
  }
};

describe('a range', () => {
  it.each<[Range, number[], number[]]>([
    [{ over: 1 }, [1.001], [1, 0]],
    [{ atLeast: 1 }, [1, 2], [0.999]],
    [{ under: 5 }, [4.999, -3], [5, 6]],
    [{ atMost: 5 }, [5, 4], [5.001]],
    [{ over: 1, atMost: 5, whole: true }, [2, 5], [1, 2.5, 6]],
  ])('%j', (range, inside, outside) => {
    expect(inside.map((value) => accepts(value, range))).toEqual(inside.map(() => true));
    expect([...outside, NaN, Infinity, -Infinity].some((value) => accepts(value, range))).toBe(false);
  });

  it('says itself in words', () => {
    expect(rangeInWords({ over: 0, atMost: 5 })).toBe('more than 0 and at most 5');
    expect(rangeInWords({ atLeast: 1, under: 90, whole: true })).toBe('a whole number, at least 1 and less than 90');
  });

  it('names parameter, value, range and reason', () => {
    expect(() => inRange('depth', -1, { over: 0, reason: 'a slot is deep' })).toThrow('depth: -1 is not allowed; it must be more than 0 (a slot is deep)');
  });
});

describe('the usual ranges', () => {
  it('take and refuse', () => {
    expect(positiveLength('x', 0.001)).toBe(0.001);
    expect(lengthOrZero('x', 0)).toBe(0);
    expect(turningSpeed('x', 75000)).toBe(75000);
    expect(positiveRate('x', 20000)).toBe(20000);
    expect(count('x', 1)).toBe(1);
    for (const refuse of [() => positiveLength('x', 0), () => lengthOrZero('x', -1e-9), () => turningSpeed('x', 0), () => positiveRate('x', 0), () => count('x', 0), () => count('x', 1.5)]) {
      expect(refuse).toThrow(OutOfRange);
    }
  });

  it('blame the input for a result that leads nowhere', () => {
    expect(resultInRange(10, 'turns', 100, 'speed', 3)).toBe(10);
    expect(() => resultInRange(101, 'turns', 100, 'speed', 3)).toThrow(/speed: 3 is not allowed; it must be a value that gives turns more than 0 and at most 100/);
  });
});
