/**
 * ANSI B92.1-1970: inch splines with stub teeth, pitch P / 2P, after its table
 * of basic dimensions. What that table prints doubtfully is refused: the 45
 * degree form, and the fillet root of 16/32 and finer.
 */
import { radians } from './angles.ts';
import { inRange } from './domain.ts';
import type { GearInput } from './gear.ts';
import { OutOfRange } from './quantity.ts';

export type B92Form = '30 degree flat root side fit' | '30 degree flat root major diameter fit' | '30 degree fillet root' | '37.5 degree fillet root';

export interface B92Input {
  readonly form: B92Form;
  readonly teeth: number;
  /** P, the first of the two numbers; the second is twice as much. */
  readonly pitch: number;
}

/** Inches. */
export interface B92Spline {
  readonly pitchDiameter: number;
  readonly baseDiameter: number;
  readonly majorInternalDiameter: number;
  readonly majorExternalDiameter: number;
  readonly minorInternalDiameter: number;
  readonly minorExternalDiameter: number;
  readonly formInternalDiameter: number;
  readonly formExternalDiameter: number;
  readonly formClearance: number;
  readonly minEffectiveSpaceWidth: number;
}

/** Throws `OutOfRange` for what the source table leaves in doubt: 45 degrees, and fillet roots of 16/32 and finer. */
export function b92Spline(input: B92Input): B92Spline {
  const row = b92Row(input);
  const { teeth, pitch } = input;
  const diameter = (extra: number): number => (teeth + extra) / pitch;
  const pitchDiameter = diameter(0);
  const formClearance = Math.min(0.01, Math.max(0.002, 0.001 * pitchDiameter));
  return {
    pitchDiameter,
    baseDiameter: pitchDiameter * Math.cos(radians(row.pressureAngleDegrees)),
    majorInternalDiameter: diameter(row.majorInternal),
    majorExternalDiameter: diameter(1),
    minorInternalDiameter: diameter(row.minorInternal),
    minorExternalDiameter: diameter(row.minorExternal),
    formInternalDiameter: diameter(row.formInternal) + row.formInternalOffset + 2 * formClearance,
    formExternalDiameter: diameter(row.formExternal) - 2 * formClearance,
    formClearance,
    minEffectiveSpaceWidth: (Math.PI / 2 + row.extraSpace) / pitch,
  };
}

/** The external spline as a gear of module 1/P inch with the tooth as wide as the least effective space. */
export function b92ShaftAsGear(input: B92Input): GearInput {
  const spline = b92Spline(input);
  const { pressureAngleDegrees, extraSpace } = b92Row(input);
  return {
    units: 'inch',
    normalModule: 1 / input.pitch,
    teeth: input.teeth,
    helixAngleDegrees: 0,
    gearHand: 1,
    normalPressureAngleDegrees: pressureAngleDegrees,
    profileShift: extraSpace / (2 * Math.tan(radians(pressureAngleDegrees))),
    tipDiameter: spline.majorExternalDiameter,
    depth: (spline.majorExternalDiameter - spline.minorExternalDiameter) / 2,
  };
}

interface B92Row {
  readonly pressureAngleDegrees: number;
  readonly majorInternal: number;
  readonly minorInternal: number;
  readonly minorExternal: number;
  readonly formInternal: number;
  readonly formInternalOffset: number;
  readonly formExternal: number;
  readonly extraSpace: number;
  readonly finestPitch: number;
}

const FLAT_SIDE: B92Row = {
  pressureAngleDegrees: 30, majorInternal: 1.35, minorInternal: -1, minorExternal: -1.35,
  formInternal: 1, formInternalOffset: 0, formExternal: -1, extraSpace: 0, finestPitch: 128,
};

const B92_ROWS: Readonly<Record<B92Form, B92Row>> = {
  '30 degree flat root side fit': FLAT_SIDE,
  '30 degree flat root major diameter fit': { ...FLAT_SIDE, majorInternal: 1, formInternal: 0.8, formInternalOffset: -0.004 },
  '30 degree fillet root': { ...FLAT_SIDE, majorInternal: 1.8, minorExternal: -1.8, finestPitch: 12 },
  '37.5 degree fillet root': {
    pressureAngleDegrees: 37.5, majorInternal: 1.6, minorInternal: -0.8, minorExternal: -1.3,
    formInternal: 1, formInternalOffset: 0, formExternal: -0.8, extraSpace: 0.1, finestPitch: 128,
  },
};

function b92Row(input: B92Input): B92Row {
  const row: B92Row | undefined = B92_ROWS[input.form];
  if (row === undefined) {
    throw new OutOfRange('form', input.form, Object.keys(B92_ROWS).join(', '), 'the data of other forms are not verified');
  }
  inRange('teeth', input.teeth, { atLeast: 6, atMost: 500, whole: true });
  inRange('pitch', input.pitch, {
    atLeast: 2.5,
    atMost: row.finestPitch,
    ...(row.finestPitch < 128 ? { reason: 'the minor diameter of finer fillet roots is not verified' } : {}),
  });
  return row;
}
