/**
 * Flank tolerances after ISO 1328-1:1995 (the same figures as JIS B 1702-1:1998)
 * in micrometres. That edition computes with the geometric mean of the range in
 * which diameter, module and face width lie, so its values step at the limits.
 */
import { inRange } from './domain.ts';
import { roundedTolerance } from './flank-tolerance.ts';

export interface OlderToleranceInput {
  readonly referenceDiameterMm: number;
  readonly normalModuleMm: number;
  readonly faceWidthMm: number;
  /** 0 (finest) to 12. */
  readonly flankClass: number;
}

/** All in micrometres. */
export interface OlderFlankTolerances {
  readonly singlePitch: number;
  readonly totalPitch: number;
  readonly profileTotal: number;
  readonly profileForm: number;
  readonly profileSlope: number;
  readonly helixTotal: number;
  readonly helixForm: number;
  readonly helixSlope: number;
  /** From part 2, annex. */
  readonly runout: number;
}

/** Throws `OutOfRange` outside the ranges that were checked against print: d 5 to 1000, m 0.5 to 16, b 4 to 250 mm. */
export function olderFlankTolerances(input: OlderToleranceInput): OlderFlankTolerances {
  inRange('flankClass', input.flankClass, { atLeast: 0, atMost: 12, whole: true });
  const d = rangeMean('referenceDiameterMm', input.referenceDiameterMm, DIAMETER_LIMITS);
  const module = rangeMean('normalModuleMm', input.normalModuleMm, MODULE_LIMITS);
  const face = rangeMean('faceWidthMm', input.faceWidthMm, FACE_LIMITS);
  const step = Math.SQRT2 ** (input.flankClass - 5);
  const rounded = (classFive: number): number => roundedTolerance(classFive * step);
  const helixPart = 0.07 * Math.sqrt(d) + 0.45 * Math.sqrt(face) + 3;
  return {
    singlePitch: rounded(0.3 * (module + 0.4 * Math.sqrt(d)) + 4),
    totalPitch: rounded(0.3 * module + 1.25 * Math.sqrt(d) + 7),
    profileTotal: rounded(3.2 * Math.sqrt(module) + 0.22 * Math.sqrt(d) + 0.7),
    profileForm: rounded(2.5 * Math.sqrt(module) + 0.17 * Math.sqrt(d) + 0.5),
    profileSlope: rounded(2 * Math.sqrt(module) + 0.14 * Math.sqrt(d) + 0.5),
    helixTotal: rounded(0.1 * Math.sqrt(d) + 0.63 * Math.sqrt(face) + 4.2),
    helixForm: rounded(helixPart),
    helixSlope: rounded(helixPart),
    runout: rounded(0.24 * module + Math.sqrt(d) + 5.6),
  };
}

const DIAMETER_LIMITS = [5, 20, 50, 125, 280, 560, 1000] as const;
const MODULE_LIMITS = [0.5, 2, 3.5, 6, 10, 16] as const;
const FACE_LIMITS = [4, 10, 20, 40, 80, 160, 250] as const;

/** Geometric mean of the range "over ... up to"; the first range includes its lower limit. */
function rangeMean(parameter: string, value: number, limits: readonly number[]): number {
  const [first, last] = [limits[0] ?? NaN, limits[limits.length - 1] ?? NaN];
  inRange(parameter, value, { atLeast: first, atMost: last, reason: 'the ranges of ISO 1328-1:1995 that were checked against print' });
  const upper = limits.findIndex((limit, index) => index > 0 && value <= limit);
  return Math.sqrt((limits[upper - 1] ?? NaN) * (limits[upper] ?? NaN));
}
