import { radians } from '../trade/angles.ts';
import type { EdgePlace, EdgeSweep } from './slot-cut.ts';
import type { SlotStretch } from './slot-stretch.ts';
import type { SlideLeg } from './strokes.ts';
import { strokesOf } from './strokes.ts';
import type { ToolStep } from './tool-steps.ts';

/**
 * Turns the steps of a program into sweeps of the slotting insert. While the
 * drive of a stroke unit turns, the insert strokes wherever the slide takes it;
 * otherwise the axes themselves carry the edge.
 */
export interface SlotMotion {
  steps: readonly ToolStep[];
  sweeps: EdgeSweep[];
  /** For every step, how many of the sweeps were made before it began. */
  sweepsBefore: number[];
}

export function slotMotion(stretch: SlotStretch, steps: readonly ToolStep[]): SlotMotion {
  const motion: SlotMotion = { steps, sweeps: [], sweepsBefore: [] };
  for (const group of inGroups(stretch, steps)) {
    const before = motion.sweeps.length;
    motion.sweepsBefore.push(...group.map(() => before));
    const sweeps = isStroking(stretch, group[0]!) ? strokingSweeps(stretch, group) : group.map((step) => plainSweep(stretch, step));
    for (const sweep of sweeps) motion.sweeps.push(sweep);
  }
  return motion;
}

export function isStroking({ stroke }: SlotStretch, step: ToolStep): boolean {
  return stroke !== undefined && step.driveRpm !== 0;
}

/** Where the edge stands at a share of a step, without what the unit strokes. */
export function edgePlaceAt(stretch: SlotStretch, step: ToolStep, share: number): EdgePlace {
  const { from, to } = step;
  const between = (start: number, end: number): number => start + share * (end - start);
  const [x, side] = [between(from.x, to.x), sideOf(step)];
  return { ...stretch.edge, x: side * x, y: side * between(from.y, to.y), workRadians: workRadians(stretch, side, between(from.c, to.c)) };
}

/** Consecutive steps during which a unit goes on stroking at the same place along Z, Y and C. */
function inGroups(stretch: SlotStretch, steps: readonly ToolStep[]): ToolStep[][] {
  const groups: ToolStep[][] = [];
  for (const step of steps) {
    const last = groups.at(-1)?.at(-1);
    if (last && isStroking(stretch, last) && isStroking(stretch, step) && goesOn(last, step)) groups.at(-1)!.push(step);
    else groups.push([step]);
  }
  return groups;
}

function goesOn(last: ToolStep, step: ToolStep): boolean {
  const { to } = last;
  return step.driveRpm === last.driveRpm && [step.from, step.to].every((place) => place.z === to.z && place.y === to.y && place.c === to.c);
}

function strokingSweeps(stretch: SlotStretch, group: readonly ToolStep[]): EdgeSweep[] {
  const first = group[0]!;
  const side = sideOf(first);
  return strokesOf({
    ...stretch.edge,
    workRadians: workRadians(stretch, side, first.to.c),
    y: side * first.to.y,
    strokeStartZ: first.to.z,
    strokeAlongZ: stretch.stroke!.alongZ,
    strokesPerMinute: Math.abs(first.driveRpm) * stretch.stroke!.perDriveTurn,
    startX: side * first.from.x,
    legs: group.map((step) => legOf(stretch, side, step)),
  });
}

function legOf(stretch: SlotStretch, side: 1 | -1, step: ToolStep): SlideLeg {
  return { toX: side * step.to.x, seconds: step.seconds ?? rapidSeconds(stretch, step), line: step.line, rapid: step.kind === 'rapid' };
}

function rapidSeconds({ rapidPerMinute }: SlotStretch, step: ToolStep): number {
  return (60 * Math.abs(step.to.x - step.from.x)) / rapidPerMinute;
}

function plainSweep(stretch: SlotStretch, step: ToolStep): EdgeSweep {
  const side = sideOf(step);
  return {
    ...stretch.edge,
    workRadians: workRadians(stretch, side, step.to.c),
    y: side * step.to.y,
    fromX: side * step.from.x,
    fromZ: step.from.z,
    toX: side * step.to.x,
    toZ: step.to.z,
    line: step.line,
    rapid: step.kind === 'rapid',
  };
}

function sideOf(step: ToolStep): 1 | -1 {
  return step.from.x + step.to.x >= 0 ? 1 : -1;
}

/** An insert on the -X side meets the work half a turn further. */
function workRadians(stretch: SlotStretch, side: 1 | -1, degrees: number): number {
  return stretch.workRotation * radians(degrees) + (side < 0 ? Math.PI : 0);
}
