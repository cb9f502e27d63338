import { radians } from '../trade/angles.ts';
import { shown } from '../trade/quantity.ts';
import { wrapped } from './arcs.ts';
import type { CutFigure, CutFinding, StretchProof } from './rules.ts';
import { cutFinding } from './rules.ts';
import type { Bite, EdgeSweep } from './slot-cut.ts';
import { bitesOf } from './slot-cut.ts';
import type { SlotMeasurement } from './slot-measure.ts';
import { measureSlots } from './slot-measure.ts';
import { slotSweeps } from './slot-motion.ts';
import type { SlotStretch } from './slot-stretch.ts';
import type { ToolStep } from './tool-steps.ts';

/**
 * Proves one slotting stretch: the strokes that the program makes are carried
 * out on a virtual bore, the slots are measured, and what differs from what is
 * wanted is named. Lengths in mm.
 */
const DEPTH_ALLOWANCE = 0.01;
const POSITION_ALLOWANCE_DEGREES = 0.02;
const CENTRE_ALLOWANCE = 0.01;
const FLATNESS_ALLOWANCE = 0.005;
/** A first stroke may take a little more than the feed: an insert ground to a wide class touches before one of the nominal width. */
const BITE_ALLOWANCE_SHARE = 1.25;
const BITE_ALLOWANCE = 0.005;

export interface SlotProof extends StretchProof {
  slots: SlotMeasurement[];
}

export function proveSlots(stretch: SlotStretch, steps: readonly ToolStep[]): SlotProof {
  const sweeps = slotSweeps(stretch, steps);
  const slots = measureSlots(sweeps, stretch.bore);
  const line = steps.find((step) => step.kind === 'feed')?.line ?? steps[0]?.line ?? 0;
  const findings = [...unitStands(stretch, steps), ...judgeBites(stretch, bitesOf(sweeps, stretch.bore)), ...judgeSlots(stretch, slots, sweeps, line)];
  return { findings: findings.sort((a, b) => a.line - b.line), figures: slots.flatMap((slot, index) => figuresOf(slot, index, stretch)), assumptions: [], slots };
}

/** A driven unit that stands while the slide feeds outward inside or before the bore. */
function unitStands(stretch: SlotStretch, steps: readonly ToolStep[]): CutFinding[] {
  if (!stretch.stroke) return [];
  const standing = steps.find((step) => step.kind === 'feed' && step.driveRpm === 0 && Math.abs(step.to.x) > Math.abs(step.from.x));
  return standing ? [cutFinding(standing.line, 'slot-not-stroking', 'The slide feeds outward while the stroke unit stands: the driven tool is not started.')] : [];
}

/** The first stroke too deep on each line is enough: what follows is its consequence. */
function judgeBites(stretch: SlotStretch, bites: readonly Bite[]): CutFinding[] {
  const most = BITE_ALLOWANCE_SHARE * stretch.feedPerStroke + BITE_ALLOWANCE;
  const deep = bites.find((bite) => bite.depth > most);
  if (!deep) return [];
  const worst = Math.max(...bites.map((bite) => bite.depth));
  const how = deep.rapid ? 'A rapid move cuts' : 'A stroke cuts';
  return [cutFinding(deep.line, 'slot-bite', `${how} ${shown(worst, 3)} mm at once; the feed is ${shown(stretch.feedPerStroke, 4)} mm a stroke. The infeed starts beyond the first contact of the insert's corners, or the feed is too fast.`)];
}

function judgeSlots(stretch: SlotStretch, slots: readonly SlotMeasurement[], sweeps: readonly EdgeSweep[], line: number): CutFinding[] {
  if (slots.length === 0) return [cutFinding(line, 'slot-nothing', nothingCut(stretch, sweeps))];
  return [
    ...judgeCount(stretch, slots, line),
    ...slots.flatMap((slot) => judgeSlot(stretch, slot, line)),
    ...judgePositions(stretch, slots, sweeps, line),
  ];
}

function nothingCut(stretch: SlotStretch, sweeps: readonly EdgeSweep[]): string {
  const { zLow, zHigh } = stretch.bore;
  const inside = sweeps.filter((sweep) => Math.min(sweep.fromZ, sweep.toZ) < zHigh && Math.max(sweep.fromZ, sweep.toZ) > zLow);
  const furthest = Math.max(0, ...inside.map((sweep) => Math.max(sweep.fromX, sweep.toX)));
  return `No slot is cut: the edge reaches ${shown(furthest, 3)} mm from the work axis inside the bore, whose radius is ${shown(stretch.bore.radius, 3)}.`;
}

function judgeCount({ anglesDegrees }: SlotStretch, slots: readonly SlotMeasurement[], line: number): CutFinding[] {
  if (slots.length === anglesDegrees.length) return [];
  return [cutFinding(line, 'slot-count', `${slots.length} slots are cut, ${anglesDegrees.length} wanted.`)];
}

function judgeSlot(stretch: SlotStretch, slot: SlotMeasurement, line: number): CutFinding[] {
  return [...judgeWidth(stretch, slot, line), ...judgeDepth(stretch, slot, line), ...judgeLength(stretch, slot, line), ...judgeForm(stretch, slot, line)];
}

function judgeWidth(stretch: SlotStretch, slot: SlotMeasurement, line: number): CutFinding[] {
  if (slot.width >= stretch.leastWidth - 1e-3 && slot.width <= stretch.greatestWidth + 1e-3) return [];
  return [cutFinding(line, 'slot-width', `The slot at ${at(slot)} is ${shown(slot.width, 3)} mm wide; ${shown(stretch.leastWidth, 3)} to ${shown(stretch.greatestWidth, 3)} is wanted.`)];
}

function judgeDepth(stretch: SlotStretch, slot: SlotMeasurement, line: number): CutFinding[] {
  const excess = slot.depth - stretch.depth;
  if (Math.abs(excess) <= DEPTH_ALLOWANCE) return [];
  const how = excess > 0 ? 'too deep' : 'not deep enough';
  return [cutFinding(line, 'slot-depth', `The slot at ${at(slot)} is ${how}: ${shown(slot.depth, 3)} mm from the bore on its middle line; ${shown(stretch.depth, 3)} is wanted.`)];
}

function judgeLength({ bore }: SlotStretch, slot: SlotMeasurement, line: number): CutFinding[] {
  const missing = Math.max(bore.zHigh - slot.zHigh, slot.zLow - bore.zLow);
  if (missing <= 0.02) return [];
  return [cutFinding(line, 'slot-length', `The slot at ${at(slot)} has its depth from Z ${shown(slot.zLow, 3)} to ${shown(slot.zHigh, 3)} only; ${shown(bore.zLow, 3)} to ${shown(bore.zHigh, 3)} is wanted. The stroke is too short or misplaced.`)];
}

function judgeForm(stretch: SlotStretch, slot: SlotMeasurement, line: number): CutFinding[] {
  const findings: CutFinding[] = [];
  if (Math.abs(slot.offCentre) > CENTRE_ALLOWANCE) findings.push(cutFinding(line, 'slot-centre', `The slot at ${at(slot)} lies ${shown(Math.abs(slot.offCentre), 3)} mm beside the plane through the work axis.`));
  if (slot.floorFlatness > FLATNESS_ALLOWANCE) findings.push(cutFinding(line, 'slot-floor', `The bottom of the slot at ${at(slot)} is ${shown(slot.floorFlatness, 3)} mm out of flat across: the work was turned where the insert should have moved in Y, or a pass is not at depth.`));
  if (Math.abs(slot.floorSlope) > Math.max(0.25 * stretch.feedPerStroke, 0.002)) findings.push(cutFinding(line, 'slot-floor', `The bottom of the slot at ${at(slot)} rises ${shown(Math.abs(slot.floorSlope), 3)} mm from end to end: no strokes without feed finish it.`));
  return findings;
}

function judgePositions(stretch: SlotStretch, slots: readonly SlotMeasurement[], sweeps: readonly EdgeSweep[], line: number): CutFinding[] {
  const lineOf = (slot: SlotMeasurement): number => sweepOf(slot, sweeps)?.line ?? line;
  return slots.flatMap((slot) => {
    const off = Math.min(...stretch.anglesDegrees.map((angle) => Math.abs(differenceDegrees(programmedAngle(slot, stretch), angle))));
    if (off <= POSITION_ALLOWANCE_DEGREES) return [];
    const wanted = stretch.anglesDegrees.map((angle) => shown(angle, 3)).join(', ');
    const place = shown(wrappedDegrees(programmedAngle(slot, stretch)), 3);
    return [cutFinding(lineOf(slot), 'slot-position', `A slot lies at C ${place}; ${wanted} is wanted: off by ${shown(off, 3)} degrees.`)];
  });
}

function sweepOf(slot: SlotMeasurement, sweeps: readonly EdgeSweep[]): EdgeSweep | undefined {
  return sweeps.find((sweep) => Math.abs(wrapped(-sweep.workRadians - radians(slot.angleDegrees))) < 0.01);
}

/** The C position that turns the slot's direction to the X axis. */
function programmedAngle(slot: SlotMeasurement, { workRotation }: SlotStretch): number {
  return -workRotation * slot.angleDegrees;
}

function differenceDegrees(a: number, b: number): number {
  return wrappedDegrees(a - b);
}

function wrappedDegrees(angle: number): number {
  return angle - 360 * Math.round(angle / 360);
}

function at(slot: SlotMeasurement): string {
  return `${shown(slot.angleDegrees, 2)} deg`;
}

function figuresOf(slot: SlotMeasurement, index: number, stretch: SlotStretch): CutFigure[] {
  const number = index + 1;
  const mm = (id: string, name: string, value: number, wanted?: number): CutFigure => ({ id: `${id}${number}`, name: `${name} of slot ${number}`, value, unit: 'mm', ...(wanted === undefined ? {} : { wanted }) });
  return [
    { id: `slotAngle${number}`, name: `C position of slot ${number}`, value: wrappedDegrees(programmedAngle(slot, stretch)), unit: 'deg' },
    mm('slotWidth', 'width', slot.width, (stretch.leastWidth + stretch.greatestWidth) / 2),
    mm('slotDepth', 'depth', slot.depth, stretch.depth),
    mm('slotLength', 'length', slot.zHigh - slot.zLow, stretch.bore.zHigh - stretch.bore.zLow),
    mm('slotFlatness', 'flatness of the bottom', slot.floorFlatness),
    mm('slotOffCentre', 'distance from the middle plane', slot.offCentre, 0),
  ];
}
