/**
 * Text as pen strokes: single-stroke letters laid side by side on a flat line.
 *
 * Picture: `along` runs to the right in reading direction from the left margin
 * of the first letter, `up` from the baseline to the top of the letters. Knows
 * nothing of tools or of the surface that the text goes on.
 */
import { inRange, positiveLength } from './domain.ts';
import { BASELINE, CAP_HEIGHT, ROMAN_SIMPLEX_CHARACTERS, ROMAN_SIMPLEX_RECORDS } from './letters/roman-simplex.ts';
import { OutOfRange } from './quantity.ts';

export interface StrokePoint {
  readonly along: number;
  readonly up: number;
}

/** What is drawn without lifting the pen: two points or more. */
export type Stroke = readonly StrokePoint[];

/** Longest text that is laid out, in characters. */
export const LONGEST_TEXT = 1000;

/**
 * The strokes of a text in capitals of the given height. Blanks advance and draw nothing.
 *
 * @param height from the baseline to the top of a capital; the strokes are in its unit
 * @throws OutOfRange on `text` naming the character that the font does not have, or when it draws nothing
 */
export function strokesOfText(text: string, height: number): Stroke[] {
  const scale = positiveLength('height', height) / CAP_HEIGHT;
  let left = 0;
  const strokes = glyphsOf(text).flatMap((glyph) => {
    const placed = glyph.strokes.map((stroke) => stroke.map(({ along, up }) => ({ along: (left + along) * scale, up: up * scale })));
    left += glyph.advance;
    return placed;
  });
  if (strokes.length === 0) throw new OutOfRange('text', text, 'text with at least one letter, digit or sign');
  return strokes;
}

/** Length of the text from the left margin of its first letter to the right margin of its last, in the unit of the height. */
export function widthOfText(text: string, height: number): number {
  const scale = positiveLength('height', height) / CAP_HEIGHT;
  return glyphsOf(text).reduce((sum, { advance }) => sum + advance, 0) * scale;
}

/** Length that the pen draws, lifted moves not counted. */
export function drawnLength(strokes: readonly Stroke[]): number {
  return strokes.reduce((sum, stroke) => sum + lengthOfStroke(stroke), 0);
}

/** A letter in font units, its left margin at 0 and its baseline at 0. */
interface Glyph {
  readonly advance: number;
  readonly strokes: readonly Stroke[];
}

const glyphs = new Map<string, Glyph>();

function glyphsOf(text: string): Glyph[] {
  const characters = [...text];
  inRange('text', characters.length, { atLeast: 1, atMost: LONGEST_TEXT, reason: 'characters' });
  return characters.map(glyphOf);
}

function glyphOf(character: string): Glyph {
  const known = glyphs.get(character);
  if (known) return known;
  const record = ROMAN_SIMPLEX_RECORDS[[...ROMAN_SIMPLEX_CHARACTERS].indexOf(character)];
  if (!record) throw new OutOfRange('text', character, 'printable ASCII or the degree sign', 'the font has no such letter');
  const glyph = parseRecord(record);
  glyphs.set(character, glyph);
  return glyph;
}

/** Reads a record by its count of pairs, as its format demands. */
function parseRecord(record: string): Glyph {
  const pairs = Array.from({ length: Number(record.slice(5, 8)) }, (_, i) => record.slice(8 + 2 * i, 10 + 2 * i));
  const coordinate = (pair: string, index: number) => pair.charCodeAt(index) - 'R'.charCodeAt(0);
  const [margins = 'RR', ...drawn] = pairs;
  const left = coordinate(margins, 0);
  const strokes: StrokePoint[][] = [[]];
  for (const pair of drawn) {
    if (pair === ' R') strokes.push([]);
    else strokes.at(-1)?.push({ along: coordinate(pair, 0) - left, up: BASELINE - coordinate(pair, 1) });
  }
  return { advance: coordinate(margins, 1) - left, strokes: strokes.filter(({ length }) => length > 1) };
}

function lengthOfStroke(stroke: Stroke): number {
  return stroke.slice(1).reduce((sum, point, i) => {
    const before = stroke[i] ?? point;
    return sum + Math.hypot(point.along - before.along, point.up - before.up);
  }, 0);
}
