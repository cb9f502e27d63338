import type { CutFinding } from './rules.ts';
import { cutFinding } from './rules.ts';
import type { Bore, EdgePlace, EdgeSweep, Strip } from './slot-cut.ts';
import { edgeBeyond, GrowingSections, placesAlongBore, stripsAt } from './slot-cut.ts';
import { edgePlaceAt, isStroking, type SlotMotion } from './slot-motion.ts';
import type { SlotJudgement } from './slot-places.ts';
import type { SlotStretch } from './slot-stretch.ts';
import type { ToolStep } from './tool-steps.ts';

/**
 * Motions of a slotting insert that break it whatever slot they leave: through
 * the material otherwise than by a stroke, and into the wall behind a relief
 * groove.
 */

/** An insert that only touches a wall is not in the material: rounding of words, in mm. */
const TOUCH = 0.003;
const PLACES_ON_A_MOVE = 8;

/**
 * What is no stroke must not cut: an infeed that moves only in X, a turn of the
 * work, a move in Y, a rapid along Z, anything along Z with a unit that stands.
 */
export function movesThroughMaterial({ stretch, told }: SlotJudgement, { steps, sweeps, sweepsBefore }: SlotMotion): CutFinding[] {
  const cut = new CutSoFar(stretch.bore, sweeps);
  for (const [index, step] of steps.entries()) {
    if (isRegular(stretch, step)) continue;
    cut.upTo(sweepsBefore[index]!);
    const depth = depthInMaterial(stretch, step, placesToLookAt(stretch, step), cut);
    if (depth > TOUCH) return [cutFinding(step.line, 'slot-not-a-stroke', `The insert stands up to ${told.size(depth)} in the material while ${whatMoves(stretch, step)}: only a stroke may cut.`)];
    const mayStand = depthInMaterial(stretch, step, placesOfStoppedUnit(stretch, step), cut);
    if (mayStand > TOUCH) return [cutFinding(step.line, 'slot-not-a-stroke', `The insert may stand up to ${told.size(mayStand)} in the material while ${step.from.z === step.to.z ? 'X crosses the wall of the bore' : 'it moves along Z beyond the wall of the bore'}: the unit is stopped, nobody knows where in its stroke of ${told.size(Math.abs(stretch.stroke?.alongZ ?? NaN))}, and Z is nearer to the face than that.`)];
  }
  return [];
}

/** What is open at any place after the first so many sweeps; the usual places are kept up to date, another one is worked out. */
class CutSoFar {
  private count = 0;
  private readonly sections: GrowingSections;
  private readonly places: number[];

  constructor(bore: Bore, private readonly sweeps: readonly EdgeSweep[]) {
    this.sections = new GrowingSections(bore);
    this.places = placesAlongBore(bore);
  }

  upTo(count: number): void {
    for (; this.count < count; this.count += 1) this.sections.add(this.sweeps[this.count]!);
  }

  at(z: number): Strip[] {
    const index = this.places.indexOf(z);
    return index >= 0 ? this.sections.at(index) : stripsAt(z, this.sweeps.slice(0, this.count));
  }
}

/** A stroke of a static tool, or a slide that feeds straight while the unit strokes. */
function isRegular(stretch: SlotStretch, step: ToolStep): boolean {
  const { from, to } = step;
  if (turns(step) || from.y !== to.y) return false;
  if (isStroking(stretch, step)) return from.z === to.z;
  return stretch.stroke === undefined && step.kind === 'feed' && from.z !== to.z;
}

function turns({ from, to }: ToolStep): boolean {
  return from.c !== to.c;
}

function whatMoves(stretch: SlotStretch, step: ToolStep): string {
  const { from, to } = step;
  if (turns(step)) return 'the work turns';
  if (from.y !== to.y) return 'it moves in Y';
  if (from.z === to.z) return 'it moves in X at a standing Z';
  if (step.kind === 'rapid') return 'it moves along Z in rapid';
  return isStroking(stretch, step) ? 'the unit is moved along Z' : 'it is moved along Z by a unit that does not stroke';
}

/** A place along a step, and one along the bore where the insert is then. */
interface LookedAt {
  share: number;
  z: number;
}

function depthInMaterial(stretch: SlotStretch, step: ToolStep, places: readonly LookedAt[], cut: CutSoFar): number {
  let most = -Infinity;
  for (const { share, z } of places) {
    const place = edgePlaceAt(stretch, step, share);
    // Inside the bore's circle there is nothing to cut, and no section need be looked at.
    if (reach(place) > stretch.bore.radius) most = Math.max(most, edgeBeyond(cut.at(z), stretch.bore.radius, place));
  }
  return most;
}

function reach({ x, y, insertWidth }: EdgePlace): number {
  return Math.hypot(x, Math.abs(y) + insertWidth / 2);
}

/** An insert that strokes is all along the bore at once; another one is where the axes take it. */
function placesToLookAt(stretch: SlotStretch, step: ToolStep): LookedAt[] {
  const shares = Array.from({ length: PLACES_ON_A_MOVE }, (_, index) => (index + 1) / PLACES_ON_A_MOVE);
  const places = placesAlongBore(stretch.bore);
  if (isStroking(stretch, step)) return shares.flatMap((share) => places.map((z) => ({ share, z })));
  const { from: { z: from }, to: { z: to } } = step;
  if (from === to) return isInside(from, stretch.bore) ? shares.map((share) => ({ share, z: from })) : [];
  return places.map((z) => ({ share: (z - from) / (to - from), z })).filter(({ share }) => share >= 0 && share <= 1);
}

/**
 * A unit stops anywhere in its stroke, so its insert may be all along it. A way
 * back along Z, out of the work, is left alone, and so is one in X beside the
 * wall: it may be outside of the work, whose size nobody knows.
 */
function placesOfStoppedUnit(stretch: SlotStretch, step: ToolStep): LookedAt[] {
  const { stroke, bore } = stretch;
  if (stroke === undefined || isStroking(stretch, step) || !(crossesWall(bore, step) || comesNearer(stroke.alongZ, step))) return [];
  const { from, to } = step;
  const shares = Array.from({ length: PLACES_ON_A_MOVE + 1 }, (_, index) => index / PLACES_ON_A_MOVE);
  return shares.flatMap((share) => placesWithinStroke(bore, from.z + share * (to.z - from.z), stroke.alongZ).map((z) => ({ share, z })));
}

function crossesWall({ radius }: Bore, { from, to }: ToolStep): boolean {
  return Math.min(Math.abs(from.x), Math.abs(to.x)) <= radius !== Math.max(Math.abs(from.x), Math.abs(to.x)) <= radius;
}

function comesNearer(alongZ: number, { from, to }: ToolStep): boolean {
  return (to.z - from.z) * alongZ > 0;
}

/** Places of the bore between the ends of a stroke that begins at `start`; the outermost ones a hair inside it. */
function placesWithinStroke(bore: Bore, start: number, alongZ: number): number[] {
  const low = Math.max(Math.min(start, start + alongZ), bore.zLow + 2 * TOUCH);
  const high = Math.min(Math.max(start, start + alongZ), bore.zHigh - 2 * TOUCH);
  return low > high ? [] : [low, ...placesAlongBore(bore).filter((z) => z > low && z < high), high];
}

/** At the very face an insert is still, or already, free. */
function isInside(z: number, { zLow, zHigh }: Bore): boolean {
  return z > zLow + TOUCH && z < zHigh - TOUCH;
}

/** A blind slot ends in a relief groove, and behind that the material goes on. */
export function strokesIntoReliefWall({ stretch: { reliefWallZ: wall, bore }, sweeps, told }: SlotJudgement): CutFinding[] {
  if (wall === undefined) return [];
  const behind = Math.sign(wall - (bore.zLow + bore.zHigh) / 2);
  const beyond = ({ fromZ, toZ }: EdgeSweep): number => Math.max(behind * (fromZ - wall), behind * (toZ - wall));
  const into = sweeps.find((sweep) => Math.max(sweep.fromX, sweep.toX) > bore.radius && beyond(sweep) > TOUCH);
  if (!into) return [];
  return [cutFinding(into.line, 'slot-relief', `A stroke goes ${told.size(beyond(into))} beyond the end of the relief groove, Z ${told.place(wall)}: the insert runs into its wall.`)];
}
