/**
 * Checks of single figures against something outside the project: tables of
 * inputs and expected values, each with its source and its standing, run by one
 * helper so that they can be counted and listed.
 */
import { expect, describe, it } from 'vitest';
import type { Standing } from '../../../server/src/trade/standing.ts';

export interface Check<Input> {
  /** The catalogue's id of the quantity that is checked. */
  id: string;
  /** Which case it is, for a reader who looks it up, for example "keyway 14". */
  case: string;
  source: string;
  standing: Standing;
  inputs: Input;
  expected: number;
  /** Decimals that the expected value is printed with; all of them must agree. */
  digits: number;
}

/** Checks that are computed alike. */
export interface CheckTable {
  readonly title: string;
  readonly checks: readonly Check<unknown>[];
  readonly compute: (index: number) => number;
}

/** Ties checks to the function that computes them. */
export function checkTable<Input>(
  title: string,
  compute: (inputs: Input, id: string) => number,
  checks: readonly Check<Input>[],
): CheckTable {
  const at = (index: number) => checks[index] ?? missing(index);
  return { title, checks, compute: (index) => compute(at(index).inputs, at(index).id) };
}

/** One test for each check. */
export function runCheckTables(tables: readonly CheckTable[]): void {
  for (const table of tables) {
    describe(table.title, () => {
      table.checks.forEach((check, index) => {
        it(`${check.case}: ${check.id} ${JSON.stringify(check.inputs)} is ${check.expected} [${check.source}; ${check.standing}]`, () => {
          expectToAllPrintedDigits(table.compute(index), check);
        });
      });
    });
  }
}

/** The value rounds to what is printed; half a unit of the last digit is the most that print can hide. */
export function expectToAllPrintedDigits(value: number, { expected, digits }: { expected: number; digits: number }): void {
  const halfUnit = 0.5 * 10 ** -digits;
  expect(Math.abs(value - expected), `${value} against ${expected} to ${digits} decimals`).toBeLessThanOrEqual(halfUnit * (1 + 1e-9));
}

function missing(index: number): never {
  throw new Error(`no check ${index}`);
}
