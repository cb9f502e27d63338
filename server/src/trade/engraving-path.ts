/**
 * Where the letters lie on the work: strokes laid on a face or wrapped round a
 * cylinder. Knows nothing of a control; angles are places on the work, and the
 * sense in which C counts them is the machine's.
 *
 * Face, seen from outside along -Z: the baseline stands at a distance from the
 * axis on the X axis and runs towards -Y, the letters' tops point to +X, away
 * from the axis. So the text reads upright when +X is up, and is not mirrored.
 *
 * Cylinder, seen from outside at +X with +Z up: the baseline lies at one Z, the
 * letters' tops point to +Z, and reading direction is +Y, which is growing angle
 * on the work, right-handed about +Z.
 */
import { degrees, radians } from './angles.ts';
import { inRange, positiveLength, positiveRate } from './domain.ts';
import { OutOfRange } from './quantity.ts';
import { sagittaOfChord } from './slot-geometry.ts';
import { drawnLength, strokesOfText, widthOfText, type Stroke } from './strokes.ts';

export interface FacePoint {
  /** A radius, not a diameter. */
  readonly x: number;
  readonly y: number;
}

export interface CylinderPoint {
  /** Place on the work from the start angle, right-handed about +Z. */
  readonly angleDegrees: number;
  readonly z: number;
}

export interface EngravingPlace {
  text: string;
  /** Height of the capitals. */
  height: number;
  surface: 'face' | 'cylinder';
  /** Needed for a cylinder. */
  cylinderDiameter?: number;
  /** C of the point `align` of the baseline. Left out: 0. */
  startAngleDegrees?: number;
  /** Face: distance of the baseline from the axis, a radius. Left out: 0. */
  atRadius?: number;
  /** Cylinder: Z of the baseline. Left out: 0. */
  atZ?: number;
  /** Which end of the text stands at the angle. Left out: its start. */
  align?: 'start' | 'middle';
}

interface CommonPath {
  /** Unrolled length of all strokes. */
  readonly length: number;
  /** How often the tool plunges: once a stroke. */
  readonly plunges: number;
  /** From the left margin of the first letter to the right margin of the last. */
  readonly textWidth: number;
}

/** On a face the work stands at `angleDegrees` and the strokes are X and Y. */
export interface FacePath extends CommonPath {
  readonly surface: 'face';
  readonly angleDegrees: number;
  readonly strokes: readonly (readonly FacePoint[])[];
}

/** On a cylinder the strokes are places on the work and Z; the tool stands at Y 0. */
export interface CylinderPath extends CommonPath {
  readonly surface: 'cylinder';
  readonly diameter: number;
  readonly strokes: readonly (readonly CylinderPoint[])[];
}

export type EngravingPath = FacePath | CylinderPath;

/**
 * The path of a text on the work.
 *
 * @throws OutOfRange on `text` (no such letter, or longer than the cylinder is round), `height`, `cylinderDiameter`, `atRadius`, `atZ`, `startAngleDegrees`
 */
export function engravingPath(place: EngravingPlace): EngravingPath {
  const strokes = strokesOfText(place.text, place.height);
  const textWidth = widthOfText(place.text, place.height);
  const common = { length: drawnLength(strokes), plunges: strokes.length, textWidth };
  const aligned = place.align === 'middle' ? strokes.map((stroke) => shifted(stroke, -textWidth / 2)) : strokes;
  return place.surface === 'cylinder' ? cylinderPath(place, aligned, common) : facePath(place, aligned, common);
}

/** Distance of the farthest point of the strokes from the axis, without the width of the line. Source: derived. */
export function farthestFromAxis({ strokes }: FacePath): number {
  return Math.max(...strokes.flat().map(({ x, y }) => Math.hypot(x, y)));
}

/** Minutes of each step along a stroke on a cylinder, with a feed on its surface in length a minute. Source: derived. */
export function minutesOfSteps(stroke: readonly CylinderPoint[], diameter: number, feed: number): number[] {
  positiveRate('feed', feed);
  return stroke.slice(1).map((point, index) => {
    const before = stroke[index] ?? point;
    const arc = radians(point.angleDegrees - before.angleDegrees) * (diameter / 2);
    return Math.hypot(arc, point.z - before.z) / feed;
  });
}

/** Angle that an arc on a diameter takes. Source: derived. */
export function wrapAngleDegrees(arc: number, diameter: number): number {
  inRange('arc', arc, { atLeast: -1e5, atMost: 1e5 });
  return degrees(arc / (positiveLength('cylinderDiameter', diameter) / 2));
}

/** Degrees a minute that give a feed on the surface of a diameter when C alone moves. Source: derived. */
export function rotaryFeedDegreesPerMinute(feed: number, diameter: number): number {
  return degrees(positiveRate('feed', feed) / (positiveLength('cylinderDiameter', diameter) / 2));
}

/** Depth that is lost at the edges when something flat is cut on a cylinder without turning it. Source: derived. */
export function flatToolDepthLoss(diameter: number, halfWidth: number): number {
  const radius = positiveLength('cylinderDiameter', diameter) / 2;
  return sagittaOfChord(radius, 2 * inRange('halfWidth', halfWidth, { atLeast: 0, under: radius }));
}

function facePath(place: EngravingPlace, strokes: readonly Stroke[], common: CommonPath): FacePath {
  const baseline = inRange('atRadius', place.atRadius ?? 0, { atLeast: -1e5, atMost: 1e5 });
  return {
    surface: 'face',
    angleDegrees: startAngle(place),
    strokes: strokes.map((stroke) => stroke.map(({ along, up }) => ({ x: baseline + up, y: 0 - along }))),
    ...common,
  };
}

function cylinderPath(place: EngravingPlace, strokes: readonly Stroke[], common: CommonPath): CylinderPath {
  const diameter = positiveLength('cylinderDiameter', place.cylinderDiameter ?? NaN);
  const [start, baseline] = [startAngle(place), inRange('atZ', place.atZ ?? 0, { atLeast: -1e5, atMost: 1e5 })];
  if (common.textWidth > Math.PI * diameter) throw longerThanRound(place.text, diameter);
  return {
    surface: 'cylinder',
    diameter,
    strokes: strokes.map((stroke) => stroke.map(({ along, up }) => ({ angleDegrees: start + wrapAngleDegrees(along, diameter), z: baseline + up }))),
    ...common,
  };
}

function longerThanRound(text: string, diameter: number): OutOfRange {
  return new OutOfRange('text', text, `at most ${(Math.PI * diameter).toFixed(3)} long at this height`, 'the end would run into the start');
}

function startAngle({ startAngleDegrees = 0 }: EngravingPlace): number {
  return inRange('startAngleDegrees', startAngleDegrees, { atLeast: -360, atMost: 360 });
}

function shifted(stroke: Stroke, by: number): Stroke {
  return stroke.map(({ along, up }) => ({ along: along + by, up }));
}
