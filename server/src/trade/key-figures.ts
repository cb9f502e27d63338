/** The key of a bore as figures to read. Tables and rules are in key-standards.ts. */
import { keyCatalogue } from './catalogue-keyway.ts';
import { figureMaker, type Origin } from './figure-maker.ts';
import {
  DEPTH_ALLOWANCE, hubDepthDimension, inchKeyForBore, inchKeyHeight, inchKeyLimits, inchSeatLimits, metricKeyForBore, shaftDepthDimension,
  type KeyKind, type KeyShape,
} from './key-standards.ts';
import { INCH_HUB_DEPTH_UPPER, INCH_SHAFT_DEPTH_LOWER } from './key-tables.ts';
import { shown, type Quantity } from './quantity.ts';
import { sagittaOfChord } from './slot-geometry.ts';

type KeyQuantityId = keyof typeof keyCatalogue;
type SizeId = 'keyWidth' | 'keyHeight';
export type MetricKeyQuantityId = SizeId | 'shaftDepth' | 'hubDepth' | 'depthTolerance' | 'cornerRadiusMin' | 'cornerRadiusMax';
export type InchKeyQuantityId = SizeId | 'shaftDimension' | 'hubDimension' | 'seatWidthUpper' | 'keyWidthUpper' | 'keyWidthLower' | 'hubDepthUpper' | 'shaftDepthLower';

/** DIN 6885-1, in millimetres. Throws `OutOfRange` on `boreDiameter` outside 6 to 500. */
export function metricKeyFigures(boreDiameter: number): Record<MetricKeyQuantityId, Quantity> {
  const size = metricKeyForBore(boreDiameter);
  const figure = figureMaker(keyCatalogue, 'mm');
  const row = `bore over ${size.boreOver} up to ${size.boreUpTo}, key ${size.width} x ${size.height}`;
  const fromTable = (id: KeyQuantityId, value: number) => figure(id, value, () => `${row}: ${shown(value)}`);
  return {
    keyWidth: fromTable('keyWidth', size.width),
    keyHeight: fromTable('keyHeight', size.height),
    shaftDepth: fromTable('shaftDepth', size.shaftDepth),
    hubDepth: fromTable('hubDepth', size.hubDepth),
    depthTolerance: fromTable('depthTolerance', size.depthTolerance),
    cornerRadiusMin: fromTable('cornerRadiusMin', size.cornerRadiusMin),
    cornerRadiusMax: fromTable('cornerRadiusMax', size.cornerRadiusMax),
  };
}

export interface InchKeyInput {
  boreDiameter: number;
  /** Left out: the shape that the standard prefers. */
  shape?: KeyShape;
  /** Left out: a parallel key. */
  kind?: KeyKind;
  fit: 'CLASS1' | 'CLASS2';
}

/** ASME B17.1, in inches. Throws `OutOfRange` on `boreDiameter`, `keyShape` or `fit`. */
export function inchKeyFigures({ boreDiameter, shape, kind = 'parallel', fit }: InchKeyInput): Record<InchKeyQuantityId, Quantity> {
  const size = inchKeyForBore(boreDiameter);
  const form = shape ?? size.preferred;
  const height = inchKeyHeight(size, form);
  const [seat, key] = [inchSeatLimits(size.width, fit, form), inchKeyLimits(size.width, fit, form)];
  const figure = figureMaker(keyCatalogue, 'inch');
  const [s, t] = [shaftDepthDimension(boreDiameter, size.width, height), hubDepthDimension(boreDiameter, size.width, height, kind)];
  const chord = `${shown(boreDiameter)} - ${shown(sagittaOfChord(boreDiameter / 2, size.width))}`;
  const row = `bore up to ${shown(size.boreUpTo)}, ${form} key ${shown(size.width)} x ${shown(height)}`;
  const origin = { source: 'ASME B17.1-1967', standing: 'seen in source' } as const;
  return {
    keyWidth: figure('keyWidth', size.width, () => row, origin),
    keyHeight: figure('keyHeight', height, () => row, origin),
    shaftDimension: figure('shaftDimension', s, () => `D - Y - H/2 = ${chord} - ${shown(height / 2)} = ${shown(s)}`),
    hubDimension: figure('hubDimension', t, () => `D - Y + H/2 + C = ${chord} + ${shown(height / 2)} + (${DEPTH_ALLOWANCE[kind]}) = ${shown(t)}`),
    seatWidthUpper: figure('seatWidthUpper', seat.upper, () => `${fit}, ${row}: ${shown(seat.upper)}`, { ...origin, standing: seat.standing }),
    keyWidthUpper: figure('keyWidthUpper', key.upper, () => `${fit}, ${row}: ${shown(key.upper)}`),
    keyWidthLower: figure('keyWidthLower', key.lower, () => `${fit}, ${row}: ${shown(key.lower)}`),
    hubDepthUpper: figure('hubDepthUpper', INCH_HUB_DEPTH_UPPER, () => `all sizes: ${INCH_HUB_DEPTH_UPPER}, not below nominal`, depthOrigin(fit)),
    shaftDepthLower: figure('shaftDepthLower', INCH_SHAFT_DEPTH_LOWER, () => `all sizes: ${INCH_SHAFT_DEPTH_LOWER}, not above nominal`, depthOrigin(fit)),
  };
}

/** The limits of the depths were read for class 1; those of class 2 are from memory. */
function depthOrigin(fit: InchKeyInput['fit']): Origin {
  return { source: 'ASME B17.1-1967', standing: fit === 'CLASS1' ? 'seen in source' : 'from memory' };
}
