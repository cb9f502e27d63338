/**
 * Flank tolerances after ISO 1328-1:2013 in micrometres, from the actual
 * diameter, module and face width in millimetres. The formulas and the rounding
 * stand here from memory; the ranges of validity were read in the standard.
 * It knows no process: what a mark may take of a tolerance is decided elsewhere.
 */
import { inRange } from './domain.ts';

export interface FlankToleranceInput {
  readonly teeth: number;
  readonly referenceDiameterMm: number;
  readonly normalModuleMm: number;
  readonly faceWidthMm: number;
  readonly helixAngleDegrees: number;
  /** 1 (finest) to 11. */
  readonly flankClass: number;
}

/** All in micrometres. */
export interface FlankTolerances {
  readonly singlePitch: number;
  readonly totalPitch: number;
  readonly profileSlope: number;
  readonly profileForm: number;
  readonly profileTotal: number;
  readonly helixSlope: number;
  readonly helixForm: number;
  readonly helixTotal: number;
  readonly runout: number;
}

/** The tolerances as a drawing prints them, rounded. Throws `OutOfRange` outside the scope of the standard. */
export function flankTolerances(input: FlankToleranceInput): FlankTolerances {
  return mapTolerances(unroundedFlankTolerances(input), roundedTolerance);
}

/** The same before rounding, for checks of the formulas. */
export function unroundedFlankTolerances(input: FlankToleranceInput): FlankTolerances {
  checkFlankToleranceScope(input);
  const step = Math.SQRT2 ** (input.flankClass - 5);
  return mapTolerances(classFiveTolerances(input), (tolerance) => tolerance * step);
}

/** Rounds half up: over 10 to whole micrometres, from 5 to halves, below to tenths. From memory. */
export function roundedTolerance(micrometres: number): number {
  const perMicrometre = micrometres > 10 ? 1 : micrometres >= 5 ? 2 : 10;
  return Math.floor(micrometres * perMicrometre + 0.5) / perMicrometre;
}

function checkFlankToleranceScope(input: FlankToleranceInput): void {
  const reason = 'the scope of ISO 1328-1:2013';
  inRange('flankClass', input.flankClass, { atLeast: 1, atMost: 11, whole: true, reason });
  inRange('teeth', input.teeth, { atLeast: 5, atMost: 1000, whole: true, reason });
  inRange('referenceDiameterMm', input.referenceDiameterMm, { atLeast: 5, atMost: 15_000, reason });
  inRange('normalModuleMm', input.normalModuleMm, { atLeast: 0.5, atMost: 70, reason });
  inRange('faceWidthMm', input.faceWidthMm, { atLeast: 4, atMost: 1200, reason });
  inRange('helixAngleDegrees', input.helixAngleDegrees, { atLeast: 0, atMost: 45, reason });
}

function classFiveTolerances(input: FlankToleranceInput): FlankTolerances {
  const { referenceDiameterMm: d, normalModuleMm: module, faceWidthMm: face } = input;
  const totalPitch = 0.002 * d + 0.55 * Math.sqrt(d) + 0.7 * module + 12;
  const profileSlope = 0.4 * module + 0.001 * d + 4;
  const profileForm = 0.55 * module + 5;
  const helixSlope = 0.05 * Math.sqrt(d) + 0.35 * Math.sqrt(face) + 4;
  const helixForm = 0.07 * Math.sqrt(d) + 0.45 * Math.sqrt(face) + 4;
  return {
    singlePitch: 0.001 * d + 0.4 * module + 5,
    totalPitch,
    profileSlope,
    profileForm,
    profileTotal: Math.hypot(profileSlope, profileForm),
    helixSlope,
    helixForm,
    helixTotal: Math.hypot(helixSlope, helixForm),
    runout: 0.9 * totalPitch,
  };
}

function mapTolerances(tolerances: FlankTolerances, change: (micrometres: number) => number): FlankTolerances {
  return {
    singlePitch: change(tolerances.singlePitch),
    totalPitch: change(tolerances.totalPitch),
    profileSlope: change(tolerances.profileSlope),
    profileForm: change(tolerances.profileForm),
    profileTotal: change(tolerances.profileTotal),
    helixSlope: change(tolerances.helixSlope),
    helixForm: change(tolerances.helixForm),
    helixTotal: change(tolerances.helixTotal),
    runout: change(tolerances.runout),
  };
}
