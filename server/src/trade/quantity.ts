/**
 * A quantity is one computed figure with everything a reader needs to trust it:
 * the formula with the numbers put in, and where the formula comes from.
 *
 * This module knows nothing of programs, machines or editors. The working is a
 * function until somebody reads it, because most figures are computed far more
 * often than they are shown.
 */

/** The unit system of the lengths that go in and come out. Angles are degrees in both. */
export type Units = 'mm' | 'inch';

/** What every renderer shows. `value` is at full precision in `unit`. */
export interface Quantity {
  readonly id: string;
  readonly name: string;
  readonly symbol: string;
  readonly value: number;
  readonly unit: string;
  readonly working: string;
  readonly source: string;
}

export interface QuantityParts {
  id: string;
  name: string;
  symbol: string;
  value: number;
  unit: string;
  source: string;
  /** Formats the formula with its numbers. Called at most once, and only when somebody reads it. */
  working: () => string;
}

class LazyQuantity implements Quantity {
  readonly id: string;
  readonly name: string;
  readonly symbol: string;
  readonly value: number;
  readonly unit: string;
  readonly source: string;
  readonly #format: () => string;
  #text: string | undefined;

  constructor(parts: QuantityParts) {
    this.id = parts.id;
    this.name = parts.name;
    this.symbol = parts.symbol;
    this.value = parts.value;
    this.unit = parts.unit;
    this.source = parts.source;
    this.#format = parts.working;
  }

  get working(): string {
    return (this.#text ??= this.#format());
  }

  /** Plain data for the wire and for the command line. */
  toJSON(): Quantity {
    const { id, name, symbol, value, unit, working, source } = this;
    return { id, name, symbol, value, unit, working, source };
  }
}

/**
 * Makes a quantity. Throws `OutOfRange` when the value is not a finite number,
 * so that no NaN or Infinity ever leaves the library.
 */
export function quantity(parts: QuantityParts): Quantity {
  if (!Number.isFinite(parts.value)) {
    throw new OutOfRange(parts.id, parts.value, 'a finite number');
  }
  return new LazyQuantity(parts);
}

/** An input (or an intermediate result) outside the range in which a formula holds. */
export class OutOfRange extends Error {
  constructor(
    /** The field name of the input, as the function's input type spells it. */
    readonly parameter: string,
    readonly value: unknown,
    /** The allowed range in words, for example "more than 0 and at most 1000". */
    readonly allowed: string,
    /** Why, when the range alone does not explain it. */
    readonly reason?: string,
  ) {
    super(`${parameter}: ${String(value)} is not allowed; it must be ${allowed}${reason ? ` (${reason})` : ''}`);
    this.name = 'OutOfRange';
  }
}

/** Rounds for display without trailing zeros; never used for values that are computed on. */
export function shown(value: number, decimals = 5): string {
  if (Number.isInteger(value)) return String(value);
  const text = value.toFixed(decimals);
  return text.includes('.') ? text.replace(/0+$/, '').replace(/\.$/, '').replace(/^-0$/, '0') : text;
}
