import { radians } from '../trade/angles.ts';
import type { Hand } from '../trade/hands.ts';
import type { HobbingInstant, HobbingSpan } from './motion.ts';
import type { ToolStep } from './tool-steps.ts';
import { signedRatio } from './tool-steps.ts';

/**
 * Turns the steps of a program into the joint motion of hob and work, with what
 * the machine's senses say. Nothing is taken from the wanted gear: a ratio, a
 * helix or a sense that the program does not carry is handed in and declared as
 * taken for granted by whoever calls.
 */
export interface HobbingMachine {
  /** 1: the drive's forward direction turns the hob right-handed about +Y. */
  toolRotation: Hand;
  /** 1: growing C turns the work right-handed about +Z. */
  workRotation: Hand;
  /** Revolutions of the drive for one of the hob. */
  driveTurnsPerHobTurn: number;
  /** The sign of the coupling where the synchronising words carry none. */
  senseWhenUnsigned?: Hand;
  /** Lead of the work's helix (signed, mm; Infinity for straight teeth) that the synchronising words mean, from their numbers. */
  leadOfSync(slots: Readonly<Record<string, number>>): number;
  /** Speed of rapid moves in mm/min where the program engine does not know it. */
  rapidPerMinute: number;
}

export interface HobbingMotion {
  spans: HobbingSpan[];
  /** For every span, the step that caused it. */
  steps: ToolStep[];
}

export function hobbingMotion(steps: readonly ToolStep[], machine: HobbingMachine): HobbingMotion {
  const motion: HobbingMotion = { spans: [], steps: [] };
  let hobRadians = 0;
  let workRadians = radians(machine.workRotation * (steps[0]?.from.c ?? 0));
  for (const step of steps) {
    const span = spanOf(step, hobRadians, workRadians, machine);
    hobRadians = span.end.hobRadians;
    workRadians = span.end.workRadians;
    motion.spans.push(span);
    motion.steps.push(step);
  }
  return motion;
}

function spanOf(step: ToolStep, hobRadians: number, workRadians: number, machine: HobbingMachine): HobbingSpan {
  const driveTurns = (step.driveRpm * secondsOf(step, machine)) / 60;
  return {
    line: step.line,
    rapid: step.kind === 'rapid',
    start: instant(step.from, hobRadians, workRadians),
    end: instant(step.to, hobRadians + hobTurn(step, driveTurns, machine), workRadians + workTurn(step, driveTurns, machine)),
  };
}

function instant(place: { x: number; y: number; z: number }, hobRadians: number, workRadians: number): HobbingInstant {
  return { x: place.x, y: place.y, z: place.z, hobRadians, workRadians };
}

function secondsOf(step: ToolStep, machine: HobbingMachine): number {
  if (step.seconds !== undefined) return step.seconds;
  if (step.kind !== 'rapid') return 0;
  const distance = Math.hypot(step.to.x - step.from.x, step.to.y - step.from.y, step.to.z - step.from.z);
  return (60 * distance) / machine.rapidPerMinute;
}

/** A hob on the -X side shows its other face: there the same rotation moves the teeth the other way along Z. */
function hobTurn(step: ToolStep, driveTurns: number, machine: HobbingMachine): number {
  const side = step.from.x + step.to.x >= 0 ? 1 : -1;
  return (side * machine.toolRotation * driveTurns * 2 * Math.PI) / machine.driveTurnsPerHobTurn;
}

function workTurn(step: ToolStep, driveTurns: number, machine: HobbingMachine): number {
  const programmed = machine.workRotation * radians(step.to.c - step.from.c);
  if (!step.sync) return programmed + machine.workRotation * spindleTurn(step, machine);
  const coupled = machine.workRotation * couplingRatio(step, machine) * driveTurns * 2 * Math.PI;
  return programmed + coupled + differential(step, machine);
}

function spindleTurn(step: ToolStep, machine: HobbingMachine): number {
  return (step.spindleRpm * secondsOf(step, machine) * 2 * Math.PI) / 60;
}

function couplingRatio(step: ToolStep, machine: HobbingMachine): number {
  const ratio = signedRatio(step.sync?.slots ?? {});
  if (!Number.isFinite(ratio)) return 0;
  return machine.senseWhenUnsigned === undefined ? ratio : machine.senseWhenUnsigned * Math.abs(ratio);
}

/** The control turns the work so that a point that follows the helix stays under the hob while the hob travels along Z. */
function differential(step: ToolStep, machine: HobbingMachine): number {
  const lead = machine.leadOfSync(step.sync?.slots ?? {});
  return Number.isFinite(lead) && lead !== 0 ? (-2 * Math.PI * (step.to.z - step.from.z)) / lead : 0;
}
