import { Drawing, extentOf, type Extent, type Line, type Point } from './drawn-lines.ts';

/**
 * Whether a cut drawing is a wanted one, or the wanted one mirrored, stretched,
 * turned or moved. Each way is tried as a whole: the wanted lines are laid out
 * that way, and then both drawings must cover each other.
 */
export interface Likeness {
  /** Factors along and up; negative where it is mirrored. */
  stretch: Point;
  /** Where the start of the baseline has come to. */
  start: Point;
  /** Turned about the work axis, in radians, as the drawing counts. */
  turnedRadians: number;
}

/** `axis` is the place of the work axis in the drawing; only a face has one. */
export function likenessOf(cut: readonly Line[], wanted: readonly Line[], allowance: number, axis: Point | undefined): Likeness | undefined {
  const drawing = new Drawing(cut, allowance);
  return [...stretched(cut, wanted), ...(axis ? turned(cut, wanted, axis) : [])].find((likeness) => {
    const laid = wanted.map((line) => laidOut(line, likeness, axis));
    return drawing.coversAll(laid) && new Drawing(laid, allowance).coversAll(cut);
  });
}

/** As wanted first, then as the boxes of both tell, upright before mirrored: a drawing that is its own mirror image is not mirrored. */
function stretched(cut: readonly Line[], wanted: readonly Line[]): Likeness[] {
  const [is, should] = [extentOf(cut), extentOf(wanted)];
  const signs = [[1, 1], [-1, 1], [1, -1], [-1, -1]] as const;
  return [asWanted, ...signs.map(([along, up]) => byBoxes(is, should, { along, up }))];
}

const asWanted: Likeness = { stretch: { along: 1, up: 1 }, start: { along: 0, up: 0 }, turnedRadians: 0 };

function byBoxes(is: Extent, should: Extent, signs: Point): Likeness {
  const stretch = { along: signs.along * ratio(is, should, 'along'), up: signs.up * ratio(is, should, 'up') };
  const middle = ({ low, high }: Extent, axis: keyof Point): number => (low[axis] + high[axis]) / 2;
  const start = (axis: keyof Point): number => middle(is, axis) - stretch[axis] * middle(should, axis);
  return { stretch, start: { along: start('along'), up: start('up') }, turnedRadians: 0 };
}

/** A drawing without extent in one direction cannot tell how it is stretched there. */
function ratio(is: Extent, should: Extent, axis: keyof Point): number {
  const [cut, wanted] = [is.high[axis] - is.low[axis], should.high[axis] - should.low[axis]];
  return cut > 1e-6 && wanted > 1e-6 ? cut / wanted : 1;
}

function turned(cut: readonly Line[], wanted: readonly Line[], axis: Point): Likeness[] {
  const turnedRadians = angleOf(centreOf(cut), axis) - angleOf(centreOf(wanted), axis);
  return [{ ...asWanted, turnedRadians }];
}

/** The middle of the lines, each by its length. */
function centreOf(lines: readonly Line[]): Point {
  const lengths = lines.map(({ from, to }) => Math.hypot(to.along - from.along, to.up - from.up));
  const whole = lengths.reduce((sum, length) => sum + length, 0);
  const middle = (axis: keyof Point): number => lines.reduce((sum, { from, to }, index) => sum + (lengths[index]! * (from[axis] + to[axis])) / 2, 0) / whole;
  return { along: middle('along'), up: middle('up') };
}

function angleOf(point: Point, axis: Point): number {
  return Math.atan2(point.up - axis.up, point.along - axis.along);
}

function laidOut(line: Line, likeness: Likeness, axis: Point | undefined): Line {
  return { from: pointLaidOut(line.from, likeness, axis), to: pointLaidOut(line.to, likeness, axis) };
}

function pointLaidOut({ along, up }: Point, { stretch, start, turnedRadians }: Likeness, axis: Point | undefined): Point {
  const placed = { along: start.along + stretch.along * along, up: start.up + stretch.up * up };
  if (turnedRadians === 0 || !axis) return placed;
  const [dx, dy] = [placed.along - axis.along, placed.up - axis.up];
  const [cos, sin] = [Math.cos(turnedRadians), Math.sin(turnedRadians)];
  return { along: axis.along + dx * cos - dy * sin, up: axis.up + dx * sin + dy * cos };
}
