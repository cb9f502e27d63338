/** What goes beyond the single hobbing operation, as quantities: the life of the hob along its length and its room behind the teeth. */
import { gearFigure } from './catalogue-gear.ts';
import { feedForChipThickness } from './chip-thickness.ts';
import { inRange } from './domain.ts';
import { generatingLength } from './generating-length.ts';
import type { Hand } from './hands.ts';
import { FINE_SHIFT_RANGE_MM, gashStep, hobUse, shiftPositions, usableShift, type ShiftPosition } from './hob-use.ts';
import { usualHobDiameter } from './hob-sizes.ts';
import { hobRevolutionsPerWorkRevolution } from './hobbing-law.ts';
import { hobbingPlan, type HobbingInput, type HobbingPlan } from './hobbing-plan.ts';
import { millimetresPerUnit, unitsPerMillimetre } from './lengths.ts';
import { bestClassForFeed } from './marks-and-class.ts';
import { OutOfRange, shown, type Quantity } from './quantity.ts';
import { harmlessShoulderDiameter, runoutRoom, type RunoutInput } from './runout-room.ts';

export type HobUseId =
  | 'hobAxialPitch'
  | 'hobRevolutionsPerWorkRevolution'
  | 'printedApproach'
  | 'exactApproach'
  | 'entryLength'
  | 'cutsPerFlank'
  | 'shortestHob'
  | 'gashStep';

/** `usableShift` is there when the hob's length is given; a hob too short throws `OutOfRange`. */
export function hobUseData(input: HobbingInput): Record<HobUseId, Quantity> & { usableShift?: Quantity } {
  const plan = hobbingPlan(input);
  return { ...pitchFigures(plan), ...approachFigures(plan), ...lengthFigures(plan), ...usableShiftFigure(plan) };
}

/** Every position from first to last use, `increment` apart along the hob, fed toward `feedDirectionZ`. */
export function hobShiftPositions(input: HobbingInput, increment: number, feedDirectionZ: Hand = -1): ShiftPosition[] {
  const { gear, hob } = hobbingPlan(input);
  if (input.hobLength === undefined) throw new OutOfRange('hobLength', undefined, 'given, to find the positions of the hob');
  const use = hobUse(gear, hob, input.climb, feedDirectionZ, input);
  return shiftPositions(gear, hob, input, use, { hobLength: input.hobLength, increment });
}

/** The room that the final cut needs between the teeth and a shoulder or the chuck, behind or before them. */
export function runoutData(input: HobbingInput, obstacle: RunoutInput): Record<'hobReach' | 'neededRoom' | 'neededEntryRoom' | 'harmlessShoulder', Quantity> {
  const { gear, hob, finalCut } = hobbingPlan(input);
  const room = runoutRoom(gear, hob, finalCut, obstacle);
  const harmless = harmlessShoulderDiameter(gear, hob, finalCut);
  const { units } = gear;
  return {
    hobReach: gearFigure('hobReach', room.hobReach, units, () =>
      `hob of radius ${shown(hob.tipDiameter / 2)} at ${shown(finalCut.hobAxisToWorkAxis)} from the work axis over a disc of diameter ${shown(obstacle.obstacleDiameter)} = ${shown(room.hobReach)}`),
    neededRoom: gearFigure('neededRoom', room.neededRoom, units, () => roomWorking('A', finalCut.endZOffset, room.hobReach)),
    neededEntryRoom: gearFigure('neededEntryRoom', room.neededEntryRoom, units, () => roomWorking('E', finalCut.startZOffset, room.hobReach)),
    harmlessShoulder: gearFigure('harmlessShoulder', harmless, units, () =>
      `2 a - d_a0 = 2 x ${shown(finalCut.hobAxisToWorkAxis)} - ${shown(hob.tipDiameter)} = ${shown(harmless)}`),
  };
}

const roomWorking = (symbol: string, offset: number, hobReach: number): string =>
  hobReach === 0 ? 'the hob passes outside the obstacle: 0' : `${symbol} + clearance/2 + E_s = ${shown(offset)} + ${shown(hobReach)} = ${shown(offset + hobReach)}`;

/** The finest class that the marks leave room for. Throws `OutOfRange` when not even class 11 holds, or outside the standard. */
export function bestClassData(input: HobbingInput): Record<'bestClassForFeed', Quantity> {
  const { gear, hob } = hobbingPlan(input);
  const best = bestClassForFeed(gear, hob, input.faceWidth, input.feedPerWorkRevolution);
  if (best === undefined) throw new OutOfRange('feedPerWorkRevolution', input.feedPerWorkRevolution, 'less', 'its marks exceed class 11');
  return {
    bestClassForFeed: gearFigure('bestClassForFeed', best, gear.units, () =>
      `first class whose form tolerances hold the marks of f_a ${shown(input.feedPerWorkRevolution)}: ${best}; hob and machine need a share of it`),
  };
}

/** The feed at which the estimated chip of the heaviest cut is `limit` thick (in the input's unit). */
export function chipLimitedFeedData(input: HobbingInput, limit: number): Record<'chipLimitedFeed', Quantity> {
  inRange('limit', limit, { over: 0, atMost: 10 * unitsPerMillimetre(input.units) });
  const { gear, hob, cuts } = hobbingPlan(input);
  const depth = Math.max(...cuts.map((cut) => cut.depthIncrement));
  const feed = feedForChipThickness(gear, hob, limit, depth);
  return {
    chipLimitedFeed: gearFigure('chipLimitedFeed', feed, gear.units, () =>
      `m_n (h_lim / h_1max(f_a = m_n))^(1/0.511) with h_lim ${shown(limit)} and radial depth ${shown(depth)} = ${shown(feed)}`),
  };
}

/** A first guess for a hob not yet chosen. `normalModule` in the given unit. */
export function usualHobDiameterData(normalModule: number, units: 'mm' | 'inch'): Record<'usualHobDiameter', Quantity> {
  const millimetres = usualHobDiameter(normalModule * millimetresPerUnit(units));
  return {
    usualHobDiameter: gearFigure('usualHobDiameter', millimetres * unitsPerMillimetre(units), units, () =>
      `table by module: ${shown(millimetres)} mm; turret hobs are often smaller`),
  };
}

function pitchFigures(plan: HobbingPlan): Record<'hobAxialPitch' | 'hobRevolutionsPerWorkRevolution' | 'gashStep', Quantity> {
  const { gear, hob, input } = plan;
  const turns = hobRevolutionsPerWorkRevolution(gear, hob, input.climb, input.feedPerWorkRevolution);
  return {
    hobAxialPitch: gearFigure('hobAxialPitch', hob.axialPitch, gear.units, () => `pi m_n / cos gamma_0 = pi x ${shown(gear.normalModule)} / cos gamma_0 = ${shown(hob.axialPitch, 6)}`),
    hobRevolutionsPerWorkRevolution: gearFigure('hobRevolutionsPerWorkRevolution', turns, gear.units, () =>
      `(z/z0)(1 +- f_a/p_z) with z/z0 ${gear.teeth}/${hob.starts}, f_a ${shown(input.feedPerWorkRevolution)}, p_z ${gear.lead === undefined ? 'endless' : shown(gear.lead)} = ${shown(turns, 7)}`),
    gashStep: gearFigure('gashStep', gashStep(hob), gear.units, () => `z0 p_x0 / i = ${hob.starts} x ${shown(hob.axialPitch)} / ${hob.gashes} = ${shown(gashStep(hob))}`),
  };
}

function approachFigures({ gear, finalCut }: HobbingPlan): Record<'printedApproach' | 'exactApproach', Quantity> {
  const { printed, exact } = finalCut.approach;
  return {
    printedApproach: gearFigure('printedApproach', printed, gear.units, () => `for depth ${shown(finalCut.depth)}: ${shown(printed)}`),
    exactApproach: gearFigure('exactApproach', exact, gear.units, () => `for depth ${shown(finalCut.depth)}, searched over the rim: ${shown(exact)}`),
  };
}

function lengthFigures({ gear, hob, input }: HobbingPlan): Record<'entryLength' | 'cutsPerFlank' | 'shortestHob', Quantity> {
  const zone = generatingLength(gear, hob);
  const shortest = hobUse(gear, hob, input.climb, -1, input).shortestLength;
  return {
    entryLength: gearFigure('entryLength', zone.entrySide, gear.units, () =>
      `sqrt(h (d_a - h)) cos beta / cos gamma_0 with h ${shown(gear.wholeDepth)}, d_a ${shown(gear.tipDiameter)} = ${shown(zone.entrySide, 4)}`),
    cutsPerFlank: gearFigure('cutsPerFlank', zone.cutsPerFlank, gear.units, () =>
      `l_P0 i / (z0 p_x0) = ${shown(zone.length, 4)} x ${hob.gashes} / (${hob.starts} x ${shown(hob.axialPitch)}) = ${shown(zone.cutsPerFlank, 3)}`),
    shortestHob: gearFigure('shortestHob', shortest, gear.units, () => `l_e + l_P0 / 2 = ${shown(zone.entrySide, 4)} + ${shown(zone.length, 4)} / 2 = ${shown(shortest, 4)}`),
  };
}

function usableShiftFigure({ gear, hob, input }: HobbingPlan): { usableShift?: Quantity } {
  const { hobLength } = input;
  if (hobLength === undefined) return {};
  const use = hobUse(gear, hob, input.climb, -1, input);
  const usable = usableShift(use, hobLength);
  return {
    usableShift: gearFigure('usableShift', usable, gear.units, () =>
      `l_3 - l_e - l_P0/2 - 3 m_n = ${shown(hobLength)} - ${shown(use.shortestLength, 4)} - 3 x ${shown(gear.normalModule)} = ${shown(usable, 4)}; begin ${shown(use.startFromLeadingEnd, 3)} from the ${use.leadingEnd > 0 ? '+Y' : '-Y'} end; fine shifts are ${FINE_SHIFT_RANGE_MM.least} to ${FINE_SHIFT_RANGE_MM.most} mm a part (from memory)`),
  };
}
