/**
 * The cross-section of one keyway: its width with limits and its depth, taken
 * from the input or from the standard by bore. Knows nothing of strokes.
 */
import { inRange } from './domain.ts';
import type { Origin } from './figure-maker.ts';
import { limitDeviations } from './fits.ts';
import { hubDepthDimension, inchKeyForBore, inchKeyHeight, inchSeatLimits, metricKeyForBore, type KeyShape } from './key-standards.ts';
import { INCH_HUB_DEPTH_UPPER } from './key-tables.ts';
import type { KeywayInput } from './keyway-input.ts';
import { millimetresPerUnit } from './lengths.ts';
import { OutOfRange, shown } from './quantity.ts';
import { cornerContactRadius, sagittaOfChord } from './slot-geometry.ts';

export interface KeywaySection {
  readonly boreRadius: number;
  readonly width: number;
  /** At the centre line, from the bore's circle. */
  readonly depth: number;
  /** Where width and depth come from. */
  readonly sizeOrigin: Origin;
  /** By how much the depth may be larger; undefined where no standard says. */
  readonly depthUpperDeviation: number | undefined;
  /** Deviations of the width from its nominal size, in the unit of the input. */
  readonly widthUpperDeviation: number;
  readonly widthLowerDeviation: number;
  readonly fitOrigin: Origin;
  /** Distance of the floor from the axis. */
  readonly floorRadius: number;
  /** Distance of the edge from the axis when its corners, a keyway's width apart, touch the bore. */
  readonly cornerContactRadius: number;
  readonly sagitta: number;
}

/**
 * Width, depth and the radii that follow.
 *
 * @throws OutOfRange on `boreDiameter` outside the standard when width or depth is left out,
 *   on `depth` when it is left out beside a width that the standard does not give this bore,
 *   on `width` not below the bore, on `fit`
 */
export function keywaySection(input: KeywayInput): KeywaySection {
  const size = nominalSize(input);
  const boreRadius = input.boreDiameter / 2;
  inRange('width', size.width, { over: 0, under: input.boreDiameter });
  const contact = cornerContactRadius(boreRadius, size.width / 2);
  return {
    ...size,
    ...widthLimits(input, size),
    boreRadius,
    floorRadius: boreRadius + size.depth,
    cornerContactRadius: contact,
    sagitta: sagittaOfChord(boreRadius, size.width),
  };
}

interface NominalSize {
  width: number;
  depth: number;
  shape: KeyShape;
  sizeOrigin: Origin;
  depthUpperDeviation: number | undefined;
}

const DIN_6885: Origin = { source: 'DIN 6885-1:1968', standing: 'seen in source' };
const AS_GIVEN: Origin = { source: 'geometry, width and depth as given', standing: 'derived' };

function nominalSize(input: KeywayInput): NominalSize {
  const { width, depth } = input;
  if (width !== undefined && depth !== undefined) {
    return { width, depth, shape: input.keyShape ?? 'square', sizeOrigin: AS_GIVEN, depthUpperDeviation: undefined };
  }
  const standard = input.units === 'mm' ? metricSize(input) : inchSize(input);
  if (depth !== undefined) return { ...standard, depth, depthUpperDeviation: undefined, sizeOrigin: AS_GIVEN };
  if (width !== undefined && width !== standard.width) throw depthIsUnknown(input, standard);
  return standard;
}

function metricSize({ boreDiameter }: KeywayInput): NominalSize {
  const { width, hubDepth, depthTolerance } = metricKeyForBore(boreDiameter);
  return { width, depth: hubDepth, shape: 'square', sizeOrigin: DIN_6885, depthUpperDeviation: depthTolerance };
}

function inchSize({ boreDiameter, keyShape }: KeywayInput): NominalSize {
  const size = inchKeyForBore(boreDiameter);
  const shape = keyShape ?? size.preferred;
  const overall = hubDepthDimension(boreDiameter, size.width, inchKeyHeight(size, shape));
  const sizeOrigin: Origin = { source: `ASME B17.1-1967, ${shape} key`, standing: 'recomputed published value' };
  return { width: size.width, depth: overall - boreDiameter, shape, sizeOrigin, depthUpperDeviation: INCH_HUB_DEPTH_UPPER };
}

function depthIsUnknown({ width }: KeywayInput, standard: NominalSize): OutOfRange {
  return new OutOfRange(
    'depth', undefined, 'given together with this width',
    `${standard.sizeOrigin.source} gives this bore the width ${shown(standard.width)}, not ${shown(width ?? NaN)}`,
  );
}

type WidthLimits = Pick<KeywaySection, 'widthUpperDeviation' | 'widthLowerDeviation' | 'fitOrigin'>;

function widthLimits({ units, fit }: KeywayInput, { width, shape }: NominalSize): WidthLimits {
  return units === 'inch' && fit.startsWith('CLASS') ? inchLimits(width, fit, shape) : isoLimits(millimetresPerUnit(units), width, fit);
}

function inchLimits(width: number, fit: string, shape: KeyShape): WidthLimits {
  const { upper, lower, standing } = inchSeatLimits(width, fit, shape);
  return { widthUpperDeviation: upper, widthLowerDeviation: lower, fitOrigin: { source: 'ASME B17.1-1967', standing } };
}

function isoLimits(millimetres: number, width: number, fit: string): WidthLimits {
  const nominal = inRange('width', width * millimetres, { over: 0, atMost: 500, reason: 'ISO 286 holds up to 500 mm' });
  if (!/^[A-Z]/.test(fit)) throw new OutOfRange('fit', fit, 'a class of a hole, in capitals, such as JS9, P9, D10');
  const limits = limitDeviations(nominal, fit);
  const unitsPerMicrometre = 1 / (1000 * millimetres);
  return {
    widthUpperDeviation: limits.upperMicrometres * unitsPerMicrometre,
    widthLowerDeviation: limits.lowerMicrometres * unitsPerMicrometre,
    fitOrigin: { source: limits.source, standing: limits.standing },
  };
}
