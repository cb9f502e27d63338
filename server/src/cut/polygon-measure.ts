import { degrees, radians } from '../trade/angles.ts';
import { middleOf, wrapped, type Arc } from './arcs.ts';
import type { Bore, EdgeSweep, Strip } from './slot-cut.ts';
import { extremesOf, openingsBeyond, radiusAt } from './slot-openings.ts';
import { deepestSection, depthAlongBore, sectionPlaces, type DepthAlongBore } from './slot-sections.ts';

/**
 * Measuring an inside polygon from the cut shape, however it was cut: its corners
 * are where the wall stands farthest from the axis, its flats are what lies
 * between two neighbouring corners. Nothing is taken from what is wanted.
 * Lengths in mm, angles in degrees about the work axis from its X axis.
 */
export interface PolygonMeasurement {
  corners: CornerMeasurement[];
  flats: FlatMeasurement[];
}

export interface CornerMeasurement extends DepthAlongBore {
  angleDegrees: number;
  /** From the axis to the corner. */
  radius: number;
}

export interface FlatMeasurement {
  /** Direction of the line from the axis square to the flat. */
  angleDegrees: number;
  /** From the axis to the flat. */
  distance: number;
  /** Highest less lowest place of the flat, with what was left standing on it. */
  flatness: number;
}

/** Corners are looked for so far up from the least toward the greatest radius of the wall. */
const CORNER_LEVEL = 0.25;
const POINTS_ON_A_FLAT = 240;
/** Less than these points of a flat are no flat. */
const LEAST_POINTS = 8;

/** What the strokes leave, in the section that they open most. Nothing is found in an untouched bore. */
export function measurePolygon(sweeps: readonly EdgeSweep[], bore: Bore): PolygonMeasurement {
  const places = sectionPlaces(sweeps, bore);
  const strips = deepestSection(sweeps, places, bore);
  const { least, greatest } = extremesOf(strips, bore.radius);
  if (greatest - least < 1e-4) return { corners: [], flats: [] };
  const openings = openingsBeyond(strips, bore.radius, least + CORNER_LEVEL * (greatest - least));
  return {
    corners: openings.map((opening) => measureCorner(middleOf(opening), least, strips, sweeps, places, bore)),
    flats: flatsBetween(openings, strips, bore.radius),
  };
}

function measureCorner(angle: number, least: number, strips: readonly Strip[], sweeps: readonly EdgeSweep[], places: readonly number[], bore: Bore): CornerMeasurement {
  return { angleDegrees: degrees(wrapped(angle)), radius: radiusAt(strips, bore.radius, angle), ...depthAlongBore(angle, least, sweeps, places, bore) };
}

function flatsBetween(openings: readonly Arc[], strips: readonly Strip[], boreRadius: number): FlatMeasurement[] {
  return openings.flatMap((opening, index) => {
    const next = openings[(index + 1) % openings.length]!;
    const from = middleOf(opening);
    const turn = positiveTurn(middleOf(next) - from);
    return turn < Math.PI ? flatFrom(from, turn, strips, boreRadius) : [];
  });
}

interface Point {
  x: number;
  y: number;
  /** The bore itself, not the insert, made the wall here. */
  isBore: boolean;
}

function flatFrom(from: number, turn: number, strips: readonly Strip[], boreRadius: number): FlatMeasurement[] {
  const points = Array.from({ length: POINTS_ON_A_FLAT }, (_, index) => wallPoint(from + (turn * (index + 0.5)) / POINTS_ON_A_FLAT, strips, boreRadius));
  const cut = points.filter(({ isBore }) => !isBore);
  if (cut.length < LEAST_POINTS) return [];
  const normal = normalOf(cut, from + turn / 2);
  const heights = cut.map((point) => heightOf(point, normal));
  const distance = mean(heights);
  // A bore that is wider than the flats has its own right to be; one that stands inward of them was left uncut.
  const left = points.filter((point) => point.isBore && heightOf(point, normal) < distance).map((point) => heightOf(point, normal));
  return [{ angleDegrees: degrees(wrapped(normal)), distance, flatness: Math.max(...heights) - Math.min(...heights, ...left) }];
}

function wallPoint(angle: number, strips: readonly Strip[], boreRadius: number): Point {
  const radius = radiusAt(strips, boreRadius, angle);
  return { x: radius * Math.cos(angle), y: radius * Math.sin(angle), isBore: radius <= boreRadius * (1 + 1e-9) };
}

/** The direction square to the line that fits the points best, on the side of `outward`. */
function normalOf(points: readonly Point[], outward: number): number {
  const [x, y] = [mean(points.map((point) => point.x)), mean(points.map((point) => point.y))];
  const sum = (of: (point: Point) => number): number => points.reduce((total, point) => total + of(point), 0);
  const [xx, yy, xy] = [sum((point) => (point.x - x) ** 2), sum((point) => (point.y - y) ** 2), sum((point) => (point.x - x) * (point.y - y))];
  const along = Math.atan2(2 * xy, xx - yy) / 2;
  const normal = along + radians(90);
  return Math.cos(normal - outward) >= 0 ? normal : normal + Math.PI;
}

function heightOf({ x, y }: Point, normal: number): number {
  return x * Math.cos(normal) + y * Math.sin(normal);
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function positiveTurn(turn: number): number {
  return turn - 2 * Math.PI * Math.floor(turn / (2 * Math.PI));
}
