/** Basic data of splines as quantities. */
import { gearFigure } from './catalogue-gear.ts';
import { shown, type Quantity } from './quantity.ts';
import { b92Spline, type B92Input } from './spline-b92.ts';
import { din5480Spline, type Din5480Input } from './spline-din5480.ts';

export type Din5480QuantityId =
  | 'profileShiftLength'
  | 'splinePitchDiameter'
  | 'splineBaseDiameter'
  | 'shaftTipDiameter'
  | 'shaftRootDiameter'
  | 'hubTipDiameter'
  | 'hubRootDiameter'
  | 'splineToothThickness';

/** Millimetres. Throws `OutOfRange` when diameter, module and teeth do not belong together. */
export function din5480Data(input: Din5480Input): Record<Din5480QuantityId, Quantity> {
  const spline = din5480Spline(input);
  const make = (id: Din5480QuantityId, value: number, formula: string): Quantity =>
    gearFigure(id, value, 'mm', () => `${formula} with d_B ${shown(input.splineReferenceDiameter)}, m ${shown(input.module)}, z ${input.teeth} = ${shown(value)}`);
  return {
    profileShiftLength: make('profileShiftLength', spline.profileShiftLength, '(d_B - m z - 1.1 m) / 2'),
    splinePitchDiameter: make('splinePitchDiameter', spline.referenceDiameter, 'm z'),
    splineBaseDiameter: make('splineBaseDiameter', spline.baseDiameter, 'm z cos 30'),
    shaftTipDiameter: make('shaftTipDiameter', spline.shaftTipDiameter, 'd + 2 x1 m + 0.9 m'),
    shaftRootDiameter: make('shaftRootDiameter', spline.shaftRootDiameter, `d + 2 x1 m - 2 h_fP, ${input.cutting},`),
    hubTipDiameter: make('hubTipDiameter', spline.hubTipDiameter, 'd + 2 x1 m - 0.9 m'),
    hubRootDiameter: make('hubRootDiameter', spline.hubRootDiameter, 'd_B'),
    splineToothThickness: make('splineToothThickness', spline.toothThickness, 'pi m / 2 + 2 x1 m tan 30'),
  };
}

export type B92QuantityId =
  | 'b92PitchDiameter'
  | 'b92BaseDiameter'
  | 'b92MajorInternal'
  | 'b92MajorExternal'
  | 'b92MinorInternal'
  | 'b92MinorExternal'
  | 'b92FormInternal'
  | 'b92FormExternal'
  | 'b92FormClearance'
  | 'b92SpaceWidth';

/** Inches. Throws `OutOfRange` for forms and pitches whose data were not verified. */
export function b92Data(input: B92Input): Record<B92QuantityId, Quantity> {
  const spline = b92Spline(input);
  const make = (id: B92QuantityId, value: number): Quantity =>
    gearFigure(id, value, 'inch', () => `${input.form}, N ${input.teeth}, P ${shown(input.pitch)}: ${shown(value)}`);
  return {
    b92PitchDiameter: make('b92PitchDiameter', spline.pitchDiameter),
    b92BaseDiameter: make('b92BaseDiameter', spline.baseDiameter),
    b92MajorInternal: make('b92MajorInternal', spline.majorInternalDiameter),
    b92MajorExternal: make('b92MajorExternal', spline.majorExternalDiameter),
    b92MinorInternal: make('b92MinorInternal', spline.minorInternalDiameter),
    b92MinorExternal: make('b92MinorExternal', spline.minorExternalDiameter),
    b92FormInternal: make('b92FormInternal', spline.formInternalDiameter),
    b92FormExternal: make('b92FormExternal', spline.formExternalDiameter),
    b92FormClearance: make('b92FormClearance', spline.formClearance),
    b92SpaceWidth: make('b92SpaceWidth', spline.minEffectiveSpaceWidth),
  };
}
