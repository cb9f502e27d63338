import { degrees } from '../trade/angles.ts';
import { shown } from '../trade/quantity.ts';
import { Drawing, extentOf, lengthOf, type Line, type Point } from './drawn-lines.ts';
import type { EngravingCut } from './engraving-cuts.ts';
import type { EngravingStretch } from './engraving-stretch.ts';
import type { CutFigure, CutFinding } from './rules.ts';
import { cutFinding } from './rules.ts';
import { likenessOf, type Likeness } from './text-likeness.ts';
import type { Told } from './told.ts';
import { wantedLetters, type WantedLetter } from './wanted-text.ts';

/**
 * Whether what an engraving cutter left is the wanted text: the cut lines are
 * held against the strokes of the letters, whatever their order and direction.
 * Where they differ as a whole, the verdict says how; else which letters are not
 * there, and where something is cut that no letter asks for. Lengths in mm.
 */
export interface TextJudgement {
  stretch: EngravingStretch;
  /** Without rapid moves. */
  cuts: readonly EngravingCut[];
  told: Told;
}

/** How far a line may lie from its stroke: a hundredth of the letters, and never less than this. */
const LEAST_ALLOWANCE = 0.02;
const ALLOWANCE_SHARE = 0.01;
/** A letter of which more is missing is not whole. */
const WHOLE_SHARE = 0.98;

export function strokeAllowance({ height }: EngravingStretch): number {
  return Math.max(LEAST_ALLOWANCE, ALLOWANCE_SHARE * height);
}

export function textFindings(context: TextJudgement): CutFinding[] {
  const { stretch, cuts } = context;
  const lines = drawnLines(cuts);
  const letters = wantedLetters(stretch.text, stretch.height);
  if (lines.length === 0) return judgeLetters(context, letters);
  const likeness = likenessOf(lines, letters.flatMap((letter) => letter.lines), strokeAllowance(stretch), axisOf(stretch));
  return likeness ? judgeLikeness(context, likeness) : [...judgeLetters(context, letters), ...judgeStray(context, letters)];
}

/** A plunge draws nothing. */
function drawnLines(cuts: readonly EngravingCut[]): Line[] {
  return cuts.filter((cut) => lengthOf(cut) > 1e-9);
}

function axisOf({ surface }: EngravingStretch): Point | undefined {
  return surface.kind === 'face' ? { along: 0, up: -surface.baselineRadius } : undefined;
}

function firstLine({ cuts }: TextJudgement): number {
  return cuts[0]?.line ?? 0;
}

function judgeLikeness(context: TextJudgement, likeness: Likeness): CutFinding[] {
  return [...judgeMirrored(context, likeness), ...judgeSize(context, likeness), ...judgePlace(context, likeness)];
}

function judgeMirrored(context: TextJudgement, { stretch }: Likeness): CutFinding[] {
  if (stretch.along > 0 && stretch.up > 0) return [];
  const how = stretch.along < 0 && stretch.up < 0 ? 'stands on its head' : `is mirrored ${stretch.along < 0 ? 'left to right' : 'top to bottom'}`;
  return [cutFinding(firstLine(context), 'engrave-mirrored', `The text ${how}.`)];
}

function judgeSize(context: TextJudgement, { stretch: { along, up } }: Likeness): CutFinding[] {
  const { stretch, told } = context;
  const allowed = strokeAllowance(stretch) / stretch.height;
  const findings: CutFinding[] = [];
  if (Math.abs(Math.abs(up) - 1) > allowed) findings.push(cutFinding(firstLine(context), 'engrave-size', `The letters are ${told.size(Math.abs(up) * stretch.height)} high; ${told.place(stretch.height)} is wanted.${radiusForDiameter(Math.abs(up))}`));
  if (Math.abs(Math.abs(along) - 1) > allowed) findings.push(cutFinding(firstLine(context), 'engrave-size', `The letters are ${shown(Math.abs(along), 3)} times as wide as their height asks for.`));
  return findings;
}

function radiusForDiameter(factor: number): string {
  if (Math.abs(factor - 2) < 0.02) return ' A diameter was written where a radius counts.';
  return Math.abs(factor - 0.5) < 0.005 ? ' A radius was written where a diameter counts.' : '';
}

function judgePlace(context: TextJudgement, { start, turnedRadians, stretch }: Likeness): CutFinding[] {
  if (stretch.along < 0 || stretch.up < 0) return [];
  const { told } = context;
  const allowed = strokeAllowance(context.stretch);
  const findings: CutFinding[] = [];
  if (Math.hypot(start.along, start.up) > allowed) findings.push(cutFinding(firstLine(context), 'engrave-place', `The text starts ${told.size(start.along)} along and ${told.size(start.up)} up from where it is wanted, as it is read.`));
  if (Math.abs(turnedRadians) > 1e-9) findings.push(cutFinding(firstLine(context), 'engrave-place', `The text stands ${shown(Math.abs(degrees(turnedRadians)), 3)} degrees ${turnedRadians > 0 ? 'counter-clockwise' : 'clockwise'} about the work axis from where it is wanted.`));
  return findings;
}

function judgeLetters(context: TextJudgement, letters: readonly WantedLetter[]): CutFinding[] {
  const drawing = new Drawing(drawnLines(context.cuts), strokeAllowance(context.stretch));
  const shares = letters.map((letter) => ({ letter, share: shareOf(letter.lines, drawing) })).filter(({ share }) => share < WHOLE_SHARE);
  if (shares.length === 0) return [];
  const named = shares.slice(0, 8).map(({ letter, share }) => `${letter.character} (number ${letter.place}) ${share < 0.1 ? 'is missing' : `is cut to ${shown(100 * share, 0)} %`}`);
  const more = shares.length > 8 ? `, and ${shares.length - 8} more` : '';
  return [cutFinding(firstLine(context), 'engrave-letters', `Of the letters of the text, ${named.join(', ')}${more}.`)];
}

function shareOf(lines: readonly Line[], drawing: Drawing): number {
  const whole = lines.reduce((sum, line) => sum + lengthOf(line), 0);
  return lines.reduce((sum, line) => sum + lengthOf(line) * drawing.shareCovered(line), 0) / whole;
}

function judgeStray({ stretch, cuts, told }: TextJudgement, letters: readonly WantedLetter[]): CutFinding[] {
  const drawing = new Drawing(letters.flatMap(({ lines }) => lines), strokeAllowance(stretch));
  const stray = cuts.filter((cut) => drawing.shareCovered(cut) < WHOLE_SHARE);
  const [first] = stray;
  if (!first) return [];
  const length = stray.reduce((sum, cut) => sum + lengthOf(cut) * (1 - drawing.shareCovered(cut)), 0);
  return [cutFinding(first.line, 'engrave-stray', `From here on the cutter cuts ${told.size(length, 2)} where the text has no stroke.`)];
}

export function textFigures({ stretch, cuts }: TextJudgement): CutFigure[] {
  const lines = drawnLines(cuts);
  const letters = wantedLetters(stretch.text, stretch.height);
  const drawing = new Drawing(lines, strokeAllowance(stretch));
  const whole = letters.filter((letter) => shareOf(letter.lines, drawing) >= WHOLE_SHARE).length;
  const count: CutFigure = { id: 'letters', name: 'letters found in their place', value: whole, unit: '', wanted: letters.length };
  if (lines.length === 0) return [count];
  const [is, should] = [extentOf(lines), extentOf(letters.flatMap((letter) => letter.lines))];
  const size = (id: string, name: string, axis: keyof Point): CutFigure => ({ id, name, value: is.high[axis] - is.low[axis], unit: 'mm', wanted: should.high[axis] - should.low[axis] });
  return [count, size('textHeight', 'height of all that is engraved', 'up'), size('textLength', 'length of all that is engraved', 'along')];
}
