/** Checks of a process's figures against something outside the project, by note values alone. */
import { expect, it } from 'vitest';
import { openStandardCard } from '../../../server/src/machine/open-standard.ts';
import type { RawValues } from '../../../server/src/process/fields.ts';
import type { Evaluation, Process, Setting } from '../../../server/src/process/process.ts';
import type { Standing } from '../../../server/src/trade/standing.ts';

export const metric: Setting = { units: 'mm', card: openStandardCard };
export const inch: Setting = { units: 'inch', card: openStandardCard };

/** Values as a person writes them in a note or on the command line. */
export function values(text: string): RawValues {
  return Object.fromEntries(text.split(/\s+/).filter((word) => word !== '').map((word) => [word.slice(0, word.indexOf('=')), word.slice(word.indexOf('=') + 1)]));
}

export interface FigureCase {
  name: string;
  source: string;
  standing: Standing;
  values: string;
  setting?: Setting;
  /** By quantity id: the value, and the decimals that it is given with. */
  expected: Readonly<Record<string, readonly [value: number, decimals: number]>>;
}

/** One test for each case; every figure must agree in all the decimals that are given. */
export function checkFigures(process: Process, cases: readonly FigureCase[]): void {
  for (const { name, source, standing, values: text, setting = metric, expected } of cases) {
    it(`${name} [${source}; ${standing}]`, () => {
      const evaluation = process.evaluate(values(text), setting);
      expect(evaluation.problems.filter(({ severity }) => severity === 'error')).toEqual([]);
      for (const [id, [value, decimals]] of Object.entries(expected)) {
        const found = figureOf(evaluation, id);
        expect(Math.abs(found - value), `${id}: ${found} against ${value}`).toBeLessThanOrEqual(0.5 * 10 ** -decimals * (1 + 1e-9));
      }
    });
  }
}

/** The value of a figure; NaN, which agrees with nothing, when there is none. */
export function figureOf({ quantities }: Evaluation, id: string): number {
  return quantities.find((each) => each.id === id)?.value ?? NaN;
}
