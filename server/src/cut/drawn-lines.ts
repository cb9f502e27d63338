/**
 * Lines drawn on a flat surface, and whether one drawing covers another: a place
 * of one is covered when some line of the other runs within an allowance of it.
 * Lengths in mm.
 */
export interface Point {
  along: number;
  up: number;
}

export interface Line {
  from: Point;
  to: Point;
}

/** The box round a drawing. */
export interface Extent {
  low: Point;
  high: Point;
}

export function extentOf(lines: readonly Line[]): Extent {
  const points = lines.flatMap(({ from, to }) => [from, to]);
  const least = (of: (point: Point) => number): number => points.reduce((low, point) => Math.min(low, of(point)), Infinity);
  return {
    low: { along: least(({ along }) => along), up: least(({ up }) => up) },
    high: { along: -least(({ along }) => -along), up: -least(({ up }) => -up) },
  };
}

export function lengthOf({ from, to }: Line): number {
  return Math.hypot(to.along - from.along, to.up - from.up);
}

/** A drawing that can be asked, fast, which of its lines pass near a place. */
export class Drawing {
  readonly #columns = new Map<number, Line[]>();
  readonly #width: number;

  constructor(readonly lines: readonly Line[], private readonly allowance: number) {
    this.#width = Math.max(8 * allowance, lines.reduce((sum, line) => sum + lengthOf(line), 0) / Math.max(1, lines.length));
    for (const line of lines) this.#enter(line);
  }

  covers(point: Point): boolean {
    const column = this.#columns.get(Math.floor(point.along / this.#width));
    return column?.some((line) => distance(point, line) <= this.allowance) ?? false;
  }

  /** How much of a line, from 0 to 1, is covered. */
  shareCovered(line: Line): number {
    const count = Math.max(2, Math.ceil(lengthOf(line) / this.allowance));
    let covered = 0;
    for (let index = 0; index <= count; index += 1) if (this.covers(between(line, index / count))) covered += 1;
    return covered / (count + 1);
  }

  coversAll(lines: readonly Line[]): boolean {
    return lines.every((line) => this.shareCovered(line) === 1);
  }

  #enter(line: Line): void {
    const [low, high] = [Math.min(line.from.along, line.to.along) - this.allowance, Math.max(line.from.along, line.to.along) + this.allowance];
    for (let column = Math.floor(low / this.#width); column <= Math.floor(high / this.#width); column += 1) {
      const known = this.#columns.get(column);
      if (known) known.push(line);
      else this.#columns.set(column, [line]);
    }
  }
}

function between({ from, to }: Line, share: number): Point {
  return { along: from.along + share * (to.along - from.along), up: from.up + share * (to.up - from.up) };
}

function distance({ along, up }: Point, { from, to }: Line): number {
  const [dx, dy] = [to.along - from.along, to.up - from.up];
  const square = dx ** 2 + dy ** 2;
  const share = square === 0 ? 0 : Math.max(0, Math.min(1, ((along - from.along) * dx + (up - from.up) * dy) / square));
  return Math.hypot(along - from.along - share * dx, up - from.up - share * dy);
}
