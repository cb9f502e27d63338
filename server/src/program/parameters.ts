/**
 * The numbered parameters of a program (NISTIR 6556 §3.2.1: 1 to 5399).
 *
 * Values live in small pages that are shared between snapshots until somebody
 * writes to them, so that a snapshot every few hundred lines costs next to
 * nothing. A parameter that the program has not set has no value: what the
 * machine remembers from yesterday is not in the text.
 */

export const LAST_PARAMETER = 5399;
const PAGE_BITS = 3;
const PAGE_SIZE = 1 << PAGE_BITS;
const PAGE_COUNT = (LAST_PARAMETER >> PAGE_BITS) + 1;

type Page = Float64Array | undefined;

/** Pages frozen at one moment. Never written to. */
export type ParameterSnapshot = readonly Page[];

export const noParameters: ParameterSnapshot = [];

export const isParameterNumber = (index: number): boolean => Number.isInteger(index) && index >= 1 && index <= LAST_PARAMETER;

/** The value in a snapshot, NaN if never set. */
export function parameterIn(snapshot: ParameterSnapshot, index: number): number {
  return snapshot[index >> PAGE_BITS]?.[index & (PAGE_SIZE - 1)] ?? NaN;
}

export function sameParameters(a: ParameterSnapshot, b: ParameterSnapshot): boolean {
  if (a === b) return true;
  const pages = Math.max(a.length, b.length);
  for (let page = 0; page < pages; page++) {
    if (!samePage(a[page], b[page])) return false;
  }
  return true;
}

/** Every parameter that has a value, in order. */
export function* setParameters(snapshot: ParameterSnapshot): Iterable<[index: number, value: number]> {
  for (let page = 0; page < snapshot.length; page++) {
    const values = snapshot[page] ?? [];
    for (let slot = 0; slot < values.length; slot++) {
      if (!Number.isNaN(values[slot])) yield [(page << PAGE_BITS) + slot, values[slot]!];
    }
  }
}

/** The working copy that an interpreter writes to. */
export class Parameters {
  #pages: Page[] = [];
  #owned = new Uint8Array(PAGE_COUNT);
  #snapshot: ParameterSnapshot | undefined = noParameters;

  get(index: number): number {
    return parameterIn(this.#pages, index);
  }

  /** `index` must be a parameter number. */
  set(index: number, value: number): void {
    const page = index >> PAGE_BITS;
    this.#writable(page)[index & (PAGE_SIZE - 1)] = value;
    this.#snapshot = undefined;
  }

  snapshot(): ParameterSnapshot {
    if (this.#snapshot === undefined) {
      this.#snapshot = this.#pages.slice();
      this.#owned.fill(0);
    }
    return this.#snapshot;
  }

  restore(snapshot: ParameterSnapshot): void {
    if (this.#snapshot === snapshot) return;
    this.#pages = snapshot.slice();
    this.#owned.fill(0);
    this.#snapshot = snapshot;
  }

  #writable(page: number): Float64Array {
    const existing = this.#pages[page];
    if (existing !== undefined && this.#owned[page] === 1) return existing;
    const fresh = existing?.slice() ?? new Float64Array(PAGE_SIZE).fill(NaN);
    while (this.#pages.length < page) this.#pages.push(undefined);
    this.#pages[page] = fresh;
    this.#owned[page] = 1;
    return fresh;
  }
}

function samePage(a: Page, b: Page): boolean {
  if (a === b) return true;
  if (a === undefined || b === undefined) return false;
  for (let slot = 0; slot < PAGE_SIZE; slot++) {
    if (!Object.is(a[slot], b[slot])) return false;
  }
  return true;
}
