/**
 * Takes a word of the block back into the note: which parameter, at which value,
 * makes the composed block say what the program says. Solved numerically on the
 * composition itself, so that it holds for any process and any card.
 */
import { bounds, defaultText, readNumber, type NumberField, type RawValues } from './fields.ts';
import { blocksOf } from './drift.ts';
import { allLines, type Process, type Setting } from './process.ts';

export interface Solution {
  parameter: string;
  value: string;
}

export interface WordPlace {
  block: number;
  word: number;
}

/** Steps of the search. A word answers to its parameter almost in a straight line, so few are needed. */
const mostSteps = 40;
const mostDecimals = 6;

/** Every numeric parameter that can account for the word alone, those that change fewest other words first. */
export function solveWord(process: Process, raw: RawValues, setting: Setting, place: WordPlace, target: number): Solution[] {
  const before = wordValues(process, raw, setting);
  const found = numericFields(process).flatMap(([name, field]) => {
    const value = solveFor(process, raw, setting, place, target, name, field);
    return value === undefined ? [] : [{ parameter: name, value, touched: touchedWords(before, wordValues(process, { ...raw, [name]: value }, setting)) }];
  });
  return found.sort((first, second) => first.touched - second.touched).map(({ parameter, value }) => ({ parameter, value }));
}

function numericFields(process: Process): [string, NumberField][] {
  return Object.entries(process.fields).filter((entry): entry is [string, NumberField] => entry[1].kind === 'number');
}

type BlockValues = (number | undefined)[][];

function wordValues(process: Process, raw: RawValues, setting: Setting): BlockValues | undefined {
  const composition = process.compose(raw, setting);
  return composition.lines.length === 0 ? undefined : blocksOf(allLines(composition)).map((words) => words.map(({ value }) => value));
}

function touchedWords(before: BlockValues | undefined, after: BlockValues | undefined): number {
  if (!before || !after || before.length !== after.length) return Infinity;
  return before.flat().filter((value, index) => value !== after.flat()[index]).length;
}

function solveFor(process: Process, raw: RawValues, setting: Setting, { block, word }: WordPlace, target: number, name: string, field: NumberField): string | undefined {
  const start = readNumber(raw[name] ?? defaultText(field, setting.units) ?? '');
  if (start === undefined) return undefined;
  const at = (value: number): number | undefined => wordValues(process, { ...raw, [name]: plain(value) }, setting)?.[block]?.[word];
  const root = secant(at, start, target, field, setting);
  return root === undefined ? undefined : shortest(at, root, target, field);
}

/** The secant search, held inside the field's bounds. Undefined where the word does not answer to the parameter. */
function secant(at: (value: number) => number | undefined, start: number, target: number, field: NumberField, setting: Setting): number | undefined {
  const { least, above, most } = bounds(field, setting.units);
  const low = least ?? above ?? -Infinity;
  const inside = (value: number) => Math.min(most, Math.max(low, field.whole ? Math.round(value) : value));
  let [previous, current] = [start, inside(start + (field.whole ? 1 : Math.max(Math.abs(start) * 0.01, 0.01)))];
  let [previousGap, gap] = [gapAt(at, previous, target), gapAt(at, current, target)];
  for (let step = 0; step < mostSteps; step += 1) {
    if (gap === undefined || previousGap === undefined) return undefined;
    if (gap === 0) return current;
    if (gap === previousGap) return undefined;
    const next = inside(current - (gap * (current - previous)) / (gap - previousGap));
    if (next === current) return current;
    [previous, previousGap, current] = [current, gap, next];
    gap = gapAt(at, current, target);
  }
  return current;
}

function gapAt(at: (value: number) => number | undefined, value: number, target: number): number | undefined {
  const reached = at(value);
  return reached === undefined ? undefined : reached - target;
}

/** The value with the fewest decimals that still gives exactly the word. */
function shortest(at: (value: number) => number | undefined, root: number, target: number, field: NumberField): string | undefined {
  for (let decimals = 0; decimals <= (field.whole ? 0 : mostDecimals); decimals += 1) {
    const value = Number(root.toFixed(decimals));
    if (at(value) === target) return plain(value);
  }
  return undefined;
}

/** Never with an exponent, which no note can hold. */
function plain(value: number): string {
  return value.toFixed(mostDecimals).replace(/\.?0+$/, '');
}
