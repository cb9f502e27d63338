import { degrees } from '../trade/angles.ts';
import { shown } from '../trade/quantity.ts';
import type { CutFigure, CutFinding } from './rules.ts';
import { cutFinding } from './rules.ts';
import type { SlotMeasurement } from './slot-measure.ts';
import { judgeCount, judgeFloorSlope, judgeLength, judgePositions, programmedAngle, type SlotJudgement } from './slot-places.ts';
import type { PointedGroove, StraightSlot } from './slot-stretch.ts';

/** What differs between cut slots or grooves and the wanted ones, and their figures. Lengths in mm. */
const DEPTH_ALLOWANCE = 0.01;
const CENTRE_ALLOWANCE = 0.01;
/** Where nobody states a flatness: what rounding of the words explains. */
const USUAL_FLATNESS = 0.005;
const WIDTH_ALLOWANCE = 0.001;
/** The flanks of a groove are those of its insert; what is left is the numeric error and the rounding of words. */
const GROOVE_WIDTH_ALLOWANCE = 0.01;
const GROOVE_ANGLE_ALLOWANCE_DEGREES = 0.1;
/** More slots than these are told by their extremes. */
const MOST_TOLD_SLOTS = 8;

type AnySlot = StraightSlot | PointedGroove;

export function slotFindings(context: SlotJudgement, form: AnySlot, slots: readonly SlotMeasurement[]): CutFinding[] {
  return [
    ...judgeCount(context, 'slots', slots.length),
    ...slots.flatMap((slot) => judgeSlot(context, form, slot)),
    ...judgePositions(context, 'slot', slots),
  ];
}

function judgeSlot(context: SlotJudgement, form: AnySlot, slot: SlotMeasurement): CutFinding[] {
  const name = `slot at C ${shown(programmedAngle(slot, context.stretch), 2)}`;
  return [
    ...(form.kind === 'slot' ? judgeWidth(context, form, slot, name) : judgeGroove(context, form, slot, name)),
    ...judgeDepth(context, form, slot, name),
    ...judgeLength(context, slot, name),
    ...judgeCentre(context, slot, name),
    ...(form.kind === 'slot' ? judgeFloor(context, form, slot, name) : []),
    ...judgeFloorSlope(context, slot, name),
  ];
}

function judgeWidth({ line, told }: SlotJudgement, { leastWidth, greatestWidth }: StraightSlot, slot: SlotMeasurement, name: string): CutFinding[] {
  if (slot.width >= leastWidth - WIDTH_ALLOWANCE && slot.width <= greatestWidth + WIDTH_ALLOWANCE) return [];
  return [cutFinding(line, 'slot-width', `The ${name} is ${told.size(slot.width)} wide; ${told.place(leastWidth)} to ${told.place(greatestWidth)} is wanted.`)];
}

function judgeGroove({ line, told }: SlotJudgement, form: PointedGroove, slot: SlotMeasurement, name: string): CutFinding[] {
  const findings: CutFinding[] = [];
  const angle = includedAngleDegrees(slot);
  if (Math.abs(slot.width - form.width) > GROOVE_WIDTH_ALLOWANCE) findings.push(cutFinding(line, 'slot-width', `The ${name} is ${told.size(slot.width)} wide half way down; ${told.place(form.width)} is wanted.`));
  if (Math.abs(angle - form.includedAngleDegrees) > GROOVE_ANGLE_ALLOWANCE_DEGREES) findings.push(cutFinding(line, 'slot-flanks', `The flanks of the ${name} include ${shown(angle, 2)} degrees; ${shown(form.includedAngleDegrees, 2)} is wanted.`));
  return findings;
}

/** From the widths near the mouth and near the bottom, which are four fifths of the depth apart. */
function includedAngleDegrees({ taper, depth }: SlotMeasurement): number {
  return degrees(2 * Math.atan2(-taper / 2, 0.8 * depth));
}

function judgeDepth({ line, told }: SlotJudgement, form: AnySlot, slot: SlotMeasurement, name: string): CutFinding[] {
  const excess = slot.depth - form.depth;
  if (Math.abs(excess) <= DEPTH_ALLOWANCE) return [];
  const how = excess > 0 ? 'too deep' : 'not deep enough';
  return [cutFinding(line, 'slot-depth', `The ${name} is ${how}: ${told.size(slot.depth)} from the bore on its middle line; ${told.place(form.depth)} is wanted.`)];
}

function judgeCentre({ line, told }: SlotJudgement, slot: SlotMeasurement, name: string): CutFinding[] {
  if (Math.abs(slot.offCentre) <= CENTRE_ALLOWANCE) return [];
  return [cutFinding(line, 'slot-centre', `The ${name} lies ${told.size(Math.abs(slot.offCentre))} beside the plane through the work axis.`)];
}

/** A flatness that is stated is a size of the part; without one a floor out of flat only points to a slip. */
function judgeFloor({ line, told }: SlotJudgement, { flatness: stated }: StraightSlot, slot: SlotMeasurement, name: string): CutFinding[] {
  const flatness = stated ?? USUAL_FLATNESS;
  if (slot.floorFlatness <= flatness + 1e-6) return [];
  return [cutFinding(line, stated === undefined ? 'slot-floor' : 'slot-flatness', `The bottom of the ${name} is ${told.size(slot.floorFlatness)} out of flat across; ${told.place(flatness)} is allowed. The work was turned where the insert should have moved in Y, or a pass is not at depth.`)];
}

export function slotFigures(context: SlotJudgement, form: AnySlot, slots: readonly SlotMeasurement[]): CutFigure[] {
  const count: CutFigure = { id: 'slotCount', name: 'slots', value: slots.length, unit: '', wanted: context.stretch.anglesDegrees.length };
  const each = slots.map((slot, index) => figuresOf(slot, index + 1, context, form));
  return [count, ...(slots.length <= MOST_TOLD_SLOTS ? each.flat() : extremesOf(each))];
}

function figuresOf(slot: SlotMeasurement, number: number, { stretch }: SlotJudgement, form: AnySlot): CutFigure[] {
  const of = (id: string, name: string, unit: CutFigure['unit'], value: number, wanted?: number): CutFigure => ({ id: `${id}${number}`, name: `${name} of slot ${number}`, value, unit, ...(wanted === undefined ? {} : { wanted }) });
  const length = stretch.bore.zHigh - stretch.bore.zLow;
  return [
    of('slotAngle', 'C position', 'deg', programmedAngle(slot, stretch)),
    ...(form.kind === 'slot'
      ? [of('slotWidth', 'width', 'mm', slot.width, (form.leastWidth + form.greatestWidth) / 2)]
      : [of('slotWidth', 'width half way down', 'mm', slot.width, form.width), of('slotFlanks', 'included angle', 'deg', includedAngleDegrees(slot), form.includedAngleDegrees)]),
    of('slotDepth', 'depth', 'mm', slot.depth, form.depth),
    of('slotLength', 'length', 'mm', slot.zHigh - slot.zLow, length),
    ...(form.kind === 'slot' ? [of('slotFlatness', 'flatness of the bottom', 'mm', slot.floorFlatness)] : []),
    of('slotOffCentre', 'distance from the middle plane', 'mm', slot.offCentre, 0),
  ];
}

/** Of many slots, the least and the greatest of every figure but their places. */
function extremesOf(slots: readonly CutFigure[][]): CutFigure[] {
  const kinds = slots[0]?.slice(1) ?? [];
  return kinds.flatMap((_, kind) => {
    const column = slots.map((figures) => figures[kind + 1]!).sort((one, other) => one.value - other.value);
    return [...column.slice(0, 1).map((figure) => extreme(figure, 'Least', 'least')), ...column.slice(-1).map((figure) => extreme(figure, 'Greatest', 'greatest'))];
  });
}

function extreme(figure: CutFigure, id: string, which: string): CutFigure {
  return { ...figure, id: figure.id.replace(/\d+$/, id), name: `${which} ${figure.name}` };
}

/** What the insert reached where it cut nothing. */
export function nothingCut({ stretch, sweeps, told }: SlotJudgement): string {
  const { zLow, zHigh } = stretch.bore;
  const inside = sweeps.filter((sweep) => Math.min(sweep.fromZ, sweep.toZ) < zHigh && Math.max(sweep.fromZ, sweep.toZ) > zLow);
  const furthest = inside.reduce((most, sweep) => Math.max(most, sweep.fromX, sweep.toX), 0);
  return `No slot is cut: the edge reaches ${told.size(furthest)} from the work axis inside the bore, whose radius is ${told.place(stretch.bore.radius)}.`;
}
