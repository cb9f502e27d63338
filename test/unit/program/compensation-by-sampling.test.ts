/**
 * The path of the tool's centre, checked against the contour by brute force: the
 * distance of a point from straight lines and arcs, taken at many places. This
 * uses nothing of the way in which the engine makes the path.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Move, readProgram } from '../../../server/src/program/index.ts';
import { standingAt } from './helpers.ts';

type Point = readonly [x: number, y: number];

interface Edge {
  from: Point;
  to: Point;
  /** Of an arc: how far its middle bulges off the chord as a share of the chord, positive to the left. */
  bulge: number;
}

const length = ([x, y]: Point): number => Math.hypot(x, y);
const minus = (p: Point, q: Point): Point => [p[0] - q[0], p[1] - q[1]];

function centreOf({ from, to, bulge }: Edge): Point {
  const [x, y] = minus(to, from);
  const chord = Math.hypot(x, y);
  const height = bulge * chord;
  const radius = (chord * chord) / (8 * height) + height / 2;
  const toCentre = radius - height;
  return [(from[0] + to[0]) / 2 + (y / chord) * toCentre, (from[1] + to[1]) / 2 - (x / chord) * toCentre];
}

/** An arc that bulges to the left of its chord goes clockwise. */
function distanceTo(edge: Edge, point: Point): number {
  if (edge.bulge === 0) {
    const along = minus(edge.to, edge.from);
    const gap = minus(point, edge.from);
    const share = Math.min(1, Math.max(0, (gap[0] * along[0] + gap[1] * along[1]) / length(along) ** 2));
    return length(minus(gap, [along[0] * share, along[1] * share]));
  }
  const centre = centreOf(edge);
  const turn = (p: Point, q: Point): number => {
    const angle = Math.atan2(q[1] - centre[1], q[0] - centre[0]) - Math.atan2(p[1] - centre[1], p[0] - centre[0]);
    const forward = edge.bulge > 0 ? -angle : angle;
    return ((forward % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
  };
  const atEnds = Math.min(length(minus(point, edge.from)), length(minus(point, edge.to)));
  if (turn(edge.from, point) > turn(edge.from, edge.to)) return atEnds;
  return Math.min(atEnds, Math.abs(length(minus(point, centre)) - length(minus(edge.from, centre))));
}

const number = (value: number): string => value.toFixed(10);

function block({ from, to, bulge }: Edge): string {
  if (bulge === 0) return `G1 X${number(to[0])} Y${number(to[1])}`;
  const [i, j] = minus(centreOf({ from, to, bulge }), from);
  return `${bulge > 0 ? 'G2' : 'G3'} X${number(to[0])} Y${number(to[1])} I${number(i)} J${number(j)}`;
}

/** Points of a move in the plane, both ends among them. */
function samples(move: Move): Point[] {
  const shares = Array.from({ length: 21 }, (_, index) => index / 20);
  const from: Point = [move.start.X!, move.start.Y!];
  const to: Point = [move.end.X!, move.end.Y!];
  if (move.arc === undefined) return shares.map((share) => [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share]);
  const centre: Point = [move.arc.centre.X!, move.arc.centre.Y!];
  const radius = length(minus(from, centre));
  const angle = Math.atan2(from[1] - centre[1], from[0] - centre[0]);
  return [from, to, ...shares.map((share): Point => {
    const at = angle + (share * move.arc!.sweepDegrees * Math.PI) / 180;
    return [centre[0] + radius * Math.cos(at), centre[1] + radius * Math.sin(at)];
  })];
}

/** A closed contour that every ray from the origin meets once, counter-clockwise; some of its edges are flat arcs. */
const contour = fc.array(fc.record({ radius: fc.integer({ min: 30, max: 50 }), bulge: fc.constantFrom(0, 0, 0.08, -0.08, 0.05) }), { minLength: 5, maxLength: 9 }).map((corners): Edge[] => {
  const points = corners.map(({ radius }, index): Point => [radius * Math.cos((2 * Math.PI * index) / corners.length), radius * Math.sin((2 * Math.PI * index) / corners.length)]);
  return points.map((from, index) => ({ from, to: points[(index + 1) % points.length]!, bulge: corners[index]!.bulge }));
});

const half = (edge: Edge): Edge => ({ ...edge, bulge: 0, from: [(edge.from[0] + edge.to[0]) / 2, (edge.from[1] + edge.to[1]) / 2] });

/** Begins in the middle of the first edge, which is made straight, comes from a place off it, and goes around once. */
function programOf(edges: readonly Edge[], side: 'left' | 'right', radius: number, leadRadians: number): { text: string; edges: Edge[]; firstLine: number } {
  const first = half(edges[0]!);
  const last: Edge = { ...edges[0]!, bulge: 0, to: first.from };
  const way = [first, ...edges.slice(1), last];
  const [x, y] = minus(first.to, first.from);
  const off = side === 'left' ? leadRadians : -leadRadians;
  const back = Math.atan2(y, x) + Math.PI - off;
  const start: Point = [first.from[0] + 3 * radius * Math.cos(back), first.from[1] + 3 * radius * Math.sin(back)];
  const head = ['G17 G90 F100', `G0 X${number(start[0])} Y${number(start[1])}`, `${side === 'left' ? 'G41' : 'G42'} D1`, `G1 X${number(first.from[0])} Y${number(first.from[1])}`];
  return { text: [...head, ...way.map(block), 'G40', `G0 X0 Y0`, 'M30'].join('\n'), edges: way, firstLine: head.length };
}

describe('the centre of the tool', () => {
  const cases = fc.record({ edges: contour, side: fc.constantFrom('left' as const, 'right' as const), radius: fc.integer({ min: 1, max: 20 }).map((tenths) => tenths / 10), lead: fc.integer({ min: 0, max: 150 }).map((degrees) => (degrees * Math.PI) / 180) });

  test('is off the contour by the radius everywhere, and nowhere nearer', () => {
    let points = 0;
    let inside = 0;
    let around = 0;
    fc.assert(fc.property(cases, ({ edges, side, radius, lead }) => {
      const { text, edges: way, firstLine } = programOf(edges, side, radius, lead);
      const program = readProgram(text, standingAt({ X: 0, Y: 0, Z: 0 }, { toolDiameters: new Map([[1, 2 * radius]]) }));
      const problems = program.problems();
      if (problems.some(({ severity }) => severity === 'error')) return;
      const moves = [...program.moves()];
      // The corner after the way in is about a point in the middle of a straight edge, whose other half comes last.
      const onContour = moves.filter(({ line, corner }) => line >= firstLine && line < firstLine + way.length && !(line === firstLine && corner === true));
      expect(onContour.every(({ toolRadius, compensation }) => toolRadius === radius && compensation === side)).toBe(true);
      for (const point of onContour.flatMap(samples)) {
        points++;
        expect(Math.abs(Math.min(...way.map((edge) => distanceTo(edge, point))) - radius), `at ${point.join()}`).toBeLessThan(1e-6);
      }
      inside += problems.filter(({ rule }) => rule === 'compensation-corner').length;
      around += moves.filter(({ corner }) => corner === true).length;
      // No gap anywhere, from the first rapid to the last.
      moves.slice(1).forEach((move, index) => expect(Math.hypot(move.start.X! - moves[index]!.end.X!, move.start.Y! - moves[index]!.end.Y!)).toBeLessThan(1e-6));
    }), { numRuns: 200 });
    expect(points).toBeGreaterThan(10_000);
    expect(inside).toBeGreaterThan(50);
    expect(around).toBeGreaterThan(50);
  });

  test('is the same on a lathe, in Z and X with X as a diameter', () => {
    fc.assert(fc.property(cases, ({ edges, side, radius, lead }) => {
      const { text } = programOf(edges, side, radius, lead);
      const toolDiameters = new Map([[1, 2 * radius]]);
      const milled = [...readProgram(text, standingAt({ X: 0, Y: 0, Z: 0 }, { toolDiameters })).moves()];
      const turned = [...readProgram(onLathe(text), standingAt({ X: 0, Y: 0, Z: 0 }, { toolDiameters, diameterProgramming: true })).moves()];
      expect(turned.length).toBe(milled.length);
      turned.forEach((move, index) => {
        const other = milled[index]!;
        expect([move.kind, move.line, move.corner, move.toolRadius]).toEqual([other.kind, other.line, other.corner, other.toolRadius]);
        expect([move.end.Z, move.end.X! / 2, move.length, move.seconds ?? 0].map((value) => value!.toFixed(6))).toEqual([other.end.X, other.end.Y, other.length, other.seconds ?? 0].map((value) => value!.toFixed(6)));
      });
    }), { numRuns: 40 });
  });
});

const onLathe = (text: string): string => text.replace('G17', 'G18').replace(/ J/g, ' _').replace(/ I/g, ' K').replace(/ _/g, ' I')
  .replace(/X(\S+) Y(\S+)/g, (_, x: string, y: string) => `Z${x} X${number(2 * Number(y))}`);
