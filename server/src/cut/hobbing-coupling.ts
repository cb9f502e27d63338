import { millimetresPerUnit } from '../trade/lengths.ts';
import { shown, type Units } from '../trade/quantity.ts';
import type { HobbingMachine } from './hobbing-motion.ts';
import type { HobbingStretch } from './hobbing-stretch.ts';
import type { CutFinding } from './rules.ts';
import { cutFinding } from './rules.ts';
import type { ToolStep } from './tool-steps.ts';
import { signedRatio } from './tool-steps.ts';

/**
 * Why teeth came out wrong: looks at how hob and work are coupled while the hob
 * cuts. The right coupling is derived here from the geometry of the thread, so
 * that it can be set against what a block says.
 */
export function explainCoupling(stretch: HobbingStretch, machine: HobbingMachine, cutting: readonly ToolStep[]): CutFinding[] {
  const step = cutting[0];
  if (!step || uncoupledCuts(cutting).length > 0) return [];
  return [...ratioFindings(stretch, machine, step), ...differentialFindings(stretch, machine, cutting)];
}

/** A cut without coupling is wrong whatever the teeth look like in the middle: it may have spoiled one end only. */
export function uncoupledCuts(cutting: readonly ToolStep[]): CutFinding[] {
  return cutting
    .filter((step) => !step.sync)
    .slice(0, 1)
    .map(({ line }) => cutFinding(line, 'cut-unsynchronised', 'The hob cuts while hob and work are not coupled: no synchronising word is in force.'));
}

function ratioFindings(stretch: HobbingStretch, machine: HobbingMachine, step: ToolStep): CutFinding[] {
  const line = step.sync!.line;
  const ratio = signedRatio(step.sync!.slots);
  const { starts } = stretch.tool;
  const { teeth } = stretch.gear;
  const wanted = starts / teeth / machine.driveTurnsPerHobTurn;
  if (!Number.isFinite(ratio)) return [cutFinding(line, 'cut-ratio', 'The synchronising words carry no ratio of hob and work.')];
  if (Math.abs(Math.abs(ratio) / wanted - 1) > 1e-7) return [cutFinding(line, 'cut-ratio', ratioMessage(ratio, starts, teeth, wanted))];
  if (machine.senseWhenUnsigned !== undefined || Math.sign(ratio) === wantedSense(stretch, machine, step)) return [];
  return [cutFinding(line, 'cut-direction', `The work turns the wrong way for a ${stretch.tool.hand > 0 ? 'right' : 'left'}-hand hob: the sign of the ratio is wrong, and the teeth are milled away.`)];
}

function ratioMessage(ratio: number, starts: number, teeth: number, wanted: number): string {
  const isSwapped = Math.abs(Math.abs(ratio) * wanted - 1) < 1e-6;
  const why = isSwapped ? ': starts and teeth are interchanged' : '';
  return `Hob and work are coupled ${shown(Math.abs(ratio), 7)} to 1; ${starts} starts and ${teeth} teeth need ${shown(wanted, 7)}${why}.`;
}

/**
 * A right-hand thread seen from the work moves toward -Y while the hob turns
 * right-handed about +Y, whichever side it stands on; the flank of a work on the
 * -X side of the hob is carried along clockwise about Z, on the other side
 * counter-clockwise.
 */
function wantedSense(stretch: HobbingStretch, machine: HobbingMachine, step: ToolStep): number {
  const side = step.from.x + step.to.x >= 0 ? 1 : -1;
  return -stretch.tool.hand * side * machine.toolRotation * machine.workRotation;
}

function differentialFindings(stretch: HobbingStretch, machine: HobbingMachine, cutting: readonly ToolStep[]): CutFinding[] {
  const along = cutting.find((step) => step.kind === 'feed' && step.from.z !== step.to.z);
  if (!along) return [];
  const wanted = wantedTurnPerLength(stretch);
  const actual = extraTurnPerLength(along, machine);
  if (Math.abs(actual - wanted) <= 1e-4 * Math.abs(wanted) + 1e-7) return [];
  return [cutFinding(along.sync!.line, 'cut-differential', differentialMessage(actual, wanted, stretch.units))];
}

/** Turn of the helix, radians per mm along Z. */
function wantedTurnPerLength({ gear }: HobbingStretch): number {
  const beta = (gear.helixAngleDegrees * Math.PI) / 180;
  return (2 * Math.sin(beta)) / (gear.normalModule * gear.teeth);
}

/** What the synchronising words and the C word of the step add to the plain ratio, as turn of a helix per mm. */
function extraTurnPerLength(step: ToolStep, machine: HobbingMachine): number {
  const lead = machine.leadOfSync(step.sync!.slots);
  const ofSync = Number.isFinite(lead) && lead !== 0 ? (2 * Math.PI) / lead : 0;
  const ofC = (-machine.workRotation * (step.to.c - step.from.c) * Math.PI) / 180 / (step.to.z - step.from.z);
  return ofSync + ofC;
}

function differentialMessage(actual: number, wanted: number, units: Units = 'mm'): string {
  const perLength = (turn: number): string => shown(((turn * 180) / Math.PI) * millimetresPerUnit(units), 5);
  if (actual === 0) return `The extra turn of the work for the helix is missing: ${perLength(Math.abs(wanted))} degrees for one ${units} along Z.`;
  if (wanted === 0) return `The work is given an extra turn of ${perLength(Math.abs(actual))} degrees for one ${units} along Z, but the teeth are straight.`;
  const how = Math.sign(actual) === Math.sign(wanted) ? '' : ' The sign is wrong.';
  return `The extra turn of the work for the helix is ${perLength(actual)} degrees for one ${units} along Z; ${perLength(wanted)} is needed.${how}`;
}
