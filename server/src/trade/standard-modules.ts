/**
 * Preferred modules and diametral pitches, and the one nearest to a given
 * figure. The series stand here from memory; they hint, they do not forbid.
 */
import { inRange } from './domain.ts';
import { MILLIMETRES_PER_INCH } from './lengths.ts';

export type ModuleSeries = 'ISO 54, series I' | 'ISO 54, series II' | 'DIN 780, below 1 mm';

export interface StandardModule {
  /** Millimetres. */
  readonly module: number;
  readonly series: ModuleSeries;
}

/** ISO 54:1996, series I, mm. */
export const PREFERRED_MODULES: readonly number[] = [1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 32, 40, 50];

/** ISO 54:1996, series II, mm. */
export const SECOND_CHOICE_MODULES: readonly number[] = [
  1.125, 1.375, 1.75, 2.25, 2.75, 3.5, 4.5, 5.5, 6.5, 7, 9, 11, 14, 18, 22, 28, 36, 45,
];

/** DIN 780, mm. */
export const SMALL_MODULES: readonly number[] = [0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9];

/** Coarse and fine together, teeth per inch of reference diameter. */
export const DIAMETRAL_PITCHES: readonly number[] = [
  1, 1.25, 1.5, 1.75, 2, 2.25, 2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20, 24, 32, 40, 48, 64, 80, 96, 120, 150, 200,
];

/** m = 25.4 / P, millimetres. `pitch` more than 0, teeth per inch. */
export function moduleOfDiametralPitch(pitch: number): number {
  return MILLIMETRES_PER_INCH / inRange('pitch', pitch, { over: 0, atMost: 10_000 });
}

/** P = 25.4 / m, teeth per inch. `module` more than 0, millimetres. */
export function diametralPitchOfModule(module: number): number {
  return MILLIMETRES_PER_INCH / inRange('module', module, { over: 0, atMost: 10_000 });
}

/** The standard module whose ratio to the given one (mm) is nearest to 1; series I wins a tie. */
export function nearestStandardModule(module: number): StandardModule {
  inRange('module', module, { over: 0, atMost: 10_000 });
  return STANDARD_MODULES.reduce((best, next) => (distance(next.module, module) < distance(best.module, module) ? next : best));
}

/** The standard diametral pitch whose ratio to the given one is nearest to 1. */
export function nearestStandardDiametralPitch(pitch: number): number {
  inRange('pitch', pitch, { over: 0, atMost: 10_000 });
  return DIAMETRAL_PITCHES.reduce((best, next) => (distance(next, pitch) < distance(best, pitch) ? next : best));
}

const STANDARD_MODULES: readonly [StandardModule, ...StandardModule[]] = [
  { module: 1, series: 'ISO 54, series I' },
  ...PREFERRED_MODULES.slice(1).map((module): StandardModule => ({ module, series: 'ISO 54, series I' })),
  ...SECOND_CHOICE_MODULES.map((module): StandardModule => ({ module, series: 'ISO 54, series II' })),
  ...SMALL_MODULES.map((module): StandardModule => ({ module, series: 'DIN 780, below 1 mm' })),
];

const distance = (first: number, second: number): number => Math.abs(Math.log(first / second));
