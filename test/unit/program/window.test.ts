/** The window of bytes agrees with the text that it shows, wherever it is asked to look. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { CharacterWindow } from '../../../server/src/program/window.ts';

/** Characters as the window must show them: ASCII as it is, all else as one byte that is no letter, digit or sign. */
const asBytes = (text: string): number[] => Array.from({ length: text.length }, (_, at) => Math.min(text.charCodeAt(at), 128)).map((code) => (code < 128 ? code : 255));

function shown(window: CharacterWindow, text: string, from: number, limit: number): number[] {
  window.show(text, from, limit);
  return [...window.bytes.subarray(from - window.start, limit - window.start)];
}

it('shows what stands in the text, one place after the other', () => {
  const texts = fc.array(fc.string({ unit: fc.constantFrom('G', '1', ' ', '\n', 'é', '中', '😀', '\ud800', '\u0080', '\u0000'), maxLength: 60 }), { minLength: 1, maxLength: 4 });
  const looks = fc.array(fc.tuple(fc.nat(), fc.nat(), fc.nat()), { minLength: 1, maxLength: 20 });
  fc.assert(fc.property(texts, looks, fc.constantFrom(1, 100, 1000), (parts, places, repeats) => {
    const sources = parts.map((part) => part.repeat(repeats));
    const window = new CharacterWindow();
    for (const [which, a, b] of places) {
      const text = sources[which % sources.length]!;
      const [from, limit] = [a % (text.length + 1), b % (text.length + 1)].sort((x, y) => x - y) as [number, number];
      expect(shown(window, text, from, limit)).toEqual(asBytes(text.slice(from, limit)));
    }
  }), { numRuns: 50 });
});

it('shows a line that is longer than usual, and short ones after it', () => {
  const window = new CharacterWindow();
  const text = `${'X1.5 '.repeat(10_000)}\n(é)\nG01`;
  expect(shown(window, text, 0, 50_000)).toEqual(asBytes(text.slice(0, 50_000)));
  expect(shown(window, text, 50_001, text.length)).toEqual(asBytes(text.slice(50_001)));
  expect(shown(window, text, 0, 4)).toEqual(asBytes('X1.5'));
});
