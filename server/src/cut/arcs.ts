/**
 * The parts of a circle that a cutter has removed, as a union of arcs that
 * never overlap. Exact but for rounding: no raster stands behind it.
 *
 * Angles are radians from -pi to pi; an arc that passes pi is kept in two
 * pieces and joined again when the arcs are read.
 */
export class RemovedArcs {
  readonly #starts: number[] = [];
  readonly #ends: number[] = [];

  /** Removes the arc from `start` to `end` (end at least start). Returns the angle that was still there and is gone now. */
  remove(start: number, end: number): number {
    if (end - start >= 2 * Math.PI) return this.#insert(-Math.PI, Math.PI);
    const shift = -2 * Math.PI * Math.floor((start + Math.PI) / (2 * Math.PI));
    const from = start + shift;
    const to = end + shift;
    if (to <= Math.PI) return this.#insert(from, to);
    return this.#insert(from, Math.PI) + this.#insert(-Math.PI, to - 2 * Math.PI);
  }

  /** The removed arcs in rising order; the last one may end beyond pi. */
  arcs(): Arc[] {
    const arcs = this.#starts.map((start, index) => ({ start, end: this.#ends[index]! }));
    return joinOverTheSeam(arcs);
  }

  get isUntouched(): boolean {
    return this.#starts.length === 0;
  }

  #insert(start: number, end: number): number {
    const first = this.#firstEndingAtOrAfter(start);
    if (this.#covers(first, start, end)) return 0;
    let last = first;
    let alreadyGone = 0;
    for (; last < this.#starts.length && this.#starts[last]! <= end; last += 1) {
      alreadyGone += this.#ends[last]! - this.#starts[last]!;
    }
    const from = last > first ? Math.min(start, this.#starts[first]!) : start;
    const to = last > first ? Math.max(end, this.#ends[last - 1]!) : end;
    this.#starts.splice(first, last - first, from);
    this.#ends.splice(first, last - first, to);
    return to - from - alreadyGone;
  }

  #covers(index: number, start: number, end: number): boolean {
    return index < this.#starts.length && this.#starts[index]! <= start && this.#ends[index]! >= end;
  }

  #firstEndingAtOrAfter(angle: number): number {
    let low = 0;
    let high = this.#ends.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.#ends[middle]! < angle) low = middle + 1;
      else high = middle;
    }
    return low;
  }
}

export interface Arc {
  start: number;
  end: number;
}

export function middleOf(arc: Arc): number {
  return (arc.start + arc.end) / 2;
}

/** The angle brought to the range from -pi (included) to pi. */
export function wrapped(angle: number): number {
  return angle - 2 * Math.PI * Math.floor((angle + Math.PI) / (2 * Math.PI));
}

function joinOverTheSeam(arcs: Arc[]): Arc[] {
  const first = arcs[0];
  const last = arcs.at(-1);
  if (!first || !last || arcs.length < 2) return arcs;
  if (first.start > -Math.PI || last.end < Math.PI) return arcs;
  return [...arcs.slice(1, -1), { start: last.start, end: first.end + 2 * Math.PI }];
}
