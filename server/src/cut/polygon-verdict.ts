import { shown } from '../trade/quantity.ts';
import { measurePolygon, type FlatMeasurement, type PolygonMeasurement } from './polygon-measure.ts';
import type { CutFigure, CutFinding } from './rules.ts';
import { cutFinding } from './rules.ts';
import { judgeCount, judgeFloorSlope, judgeLength, judgePositions, programmedAngle, type SlotJudgement } from './slot-places.ts';
import type { Polygon } from './slot-stretch.ts';

/** What differs between a cut square, hexagon or other polygon and the wanted one, and its figures. Lengths in mm. */
const ACROSS_ALLOWANCE = 0.02;
const CORNER_ALLOWANCE = 0.01;
/** Where nobody states a flatness: what rounding of the words explains. */
const USUAL_FLATNESS = 0.005;
const FLAT_ANGLE_ALLOWANCE_DEGREES = 0.05;

export function measuredPolygon({ sweeps, stretch }: SlotJudgement): PolygonMeasurement {
  return measurePolygon(sweeps, stretch.bore);
}

export function polygonFindings(context: SlotJudgement, form: Polygon, measured: PolygonMeasurement): CutFinding[] {
  const sides = context.stretch.anglesDegrees.length;
  return [
    ...judgeCount(context, 'corners', measured.corners.length),
    ...judgePositions(context, 'corner', measured.corners),
    ...judgeCorners(context, form, measured),
    ...measured.flats.flatMap((flat) => judgeFlat(context, form, flat)),
    ...acrossFlats(measured.flats, sides).flatMap((across) => judgeAcross(context, form, across)),
  ];
}

function judgeCorners(context: SlotJudgement, form: Polygon, { corners }: PolygonMeasurement): CutFinding[] {
  return corners.flatMap((corner) => {
    const name = `corner at C ${shown(programmedAngle(corner, context.stretch), 2)}`;
    return [...judgeCornerRadius(context, form, corner.radius, name), ...judgeLength(context, corner, name), ...judgeFloorSlope(context, corner, name)];
  });
}

function cornerRadius(form: Polygon, sides: number): number {
  return form.acrossFlats / 2 / Math.cos(Math.PI / sides);
}

function judgeCornerRadius({ stretch, line, told }: SlotJudgement, form: Polygon, radius: number, name: string): CutFinding[] {
  const wanted = cornerRadius(form, stretch.anglesDegrees.length);
  if (Math.abs(radius - wanted) <= CORNER_ALLOWANCE) return [];
  const how = radius > wanted ? 'too deep' : 'not deep enough';
  return [cutFinding(line, 'slot-depth', `The ${name} is ${how}: ${told.size(radius)} from the work axis; ${told.place(wanted)} is wanted.`)];
}

/** Every flat must lie where one is wanted, square to the direction half way between two corners. */
function judgeFlat({ stretch, line, told }: SlotJudgement, { flatness = USUAL_FLATNESS }: Polygon, flat: FlatMeasurement): CutFinding[] {
  const name = `flat at C ${shown(programmedAngle(flat, stretch), 2)}`;
  const turned = turnedFlat(flat, stretch.anglesDegrees, stretch.workRotation);
  return [
    ...(flat.flatness <= flatness + 1e-6 ? [] : [cutFinding(line, 'slot-flatness', `The ${name} is ${told.size(flat.flatness)} out of flat; ${told.place(flatness)} is allowed. A pass is missing or does not lie in its plane.`)]),
    ...(Math.abs(turned) <= FLAT_ANGLE_ALLOWANCE_DEGREES ? [] : [cutFinding(line, 'slot-position', `The ${name} is turned ${shown(Math.abs(turned), 3)} degrees from where it is wanted.`)]),
  ];
}

function turnedFlat(flat: FlatMeasurement, corners: readonly number[], workRotation: 1 | -1): number {
  const pitch = 360 / corners.length;
  const from = -workRotation * flat.angleDegrees - (corners[0]! + pitch / 2);
  return from - pitch * Math.round(from / pitch);
}

interface Across {
  size: number;
  /** Of the first of the two flats. */
  angleDegrees: number;
}

/** Opposite flats, found by their direction; the other polygons have none. */
function acrossFlats(flats: readonly FlatMeasurement[], sides: number): Across[] {
  if (sides % 2 === 1) return [];
  return flats.flatMap((flat, index) => {
    const opposite = flats.slice(index + 1).find((other) => Math.abs(Math.abs(other.angleDegrees - flat.angleDegrees) - 180) < 180 / sides);
    return opposite ? [{ size: flat.distance + opposite.distance, angleDegrees: flat.angleDegrees }] : [];
  });
}

function judgeAcross({ stretch, line, told }: SlotJudgement, form: Polygon, { size, angleDegrees }: Across): CutFinding[] {
  if (Math.abs(size - form.acrossFlats) <= ACROSS_ALLOWANCE) return [];
  return [cutFinding(line, 'slot-across-flats', `The flat at C ${shown(programmedAngle({ angleDegrees }, stretch), 2)} and the one opposite are ${told.size(size)} apart; ${told.place(form.acrossFlats)} is wanted.`)];
}

export function polygonFigures({ stretch }: SlotJudgement, form: Polygon, { corners, flats }: PolygonMeasurement): CutFigure[] {
  const sides = stretch.anglesDegrees.length;
  const length = stretch.bore.zHigh - stretch.bore.zLow;
  return [
    { id: 'slotCount', name: 'corners', value: corners.length, unit: '', wanted: sides },
    ...acrossFlats(flats, sides).map(({ size }, index): CutFigure => ({ id: `acrossFlats${index + 1}`, name: `width across flats, pair ${index + 1}`, value: size, unit: 'mm', wanted: form.acrossFlats })),
    ...corners.flatMap((corner, index): CutFigure[] => [
      { id: `cornerAngle${index + 1}`, name: `C position of corner ${index + 1}`, value: programmedAngle(corner, stretch), unit: 'deg' },
      { id: `cornerDiameter${index + 1}`, name: `twice the distance of corner ${index + 1} from the axis`, value: 2 * corner.radius, unit: 'mm', wanted: 2 * cornerRadius(form, sides) },
      { id: `cornerLength${index + 1}`, name: `length of corner ${index + 1}`, value: corner.zHigh - corner.zLow, unit: 'mm', wanted: length },
    ]),
    ...flats.flatMap((flat, index): CutFigure[] => [
      { id: `flatAngle${index + 1}`, name: `C position of flat ${index + 1}`, value: programmedAngle(flat, stretch), unit: 'deg' },
      { id: `flatness${index + 1}`, name: `flatness of flat ${index + 1}`, value: flat.flatness, unit: 'mm', ...(form.flatness === undefined ? {} : { wanted: form.flatness }) },
    ]),
  ];
}
