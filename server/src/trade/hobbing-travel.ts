/**
 * How far the hob must travel along the work: from where its tips first touch
 * the rim to where the last finishing cut has left the far face. Pure geometry
 * of two crossed cylinders; it knows no speeds and no machine.
 */
import type { Gear } from './gear.ts';
import { generatingLength } from './generating-length.ts';
import type { Hob } from './hob.ts';
import { hobReachOverDisc } from './hob-reach.ts';
import { settingAngleRadians } from './hobbing-law.ts';

/** One pass of the hob along the face, at one depth. */
export interface HobbingCut {
  /** Radial depth below the tip circle that this cut reaches. */
  readonly depth: number;
  /** What this cut takes beyond the one before it. */
  readonly depthIncrement: number;
  readonly hobAxisToWorkAxis: number;
  readonly approach: Approach;
  readonly overrun: Overrun;
  /** From the face of the work out to the place where feed begins: approach and half the clearance. */
  readonly startZOffset: number;
  /** From the far face on to the place where feed ends: overrun and half the clearance. */
  readonly endZOffset: number;
  readonly travel: number;
}

export interface Approach {
  /** What the travel counts with; the overrun where the hob enters radially. */
  readonly value: number;
  /** The printed formula of axial entry. */
  readonly printed: number;
  /** The exact search over the rim, of axial entry. */
  readonly exact: number;
}

export interface Overrun {
  readonly value: number;
  /** How far the last finishing point trails the middle of the hob, along Z. */
  readonly lag: number;
}

/**
 * The cuts with their depths and travels. Cumulative depths go as the square
 * root of the cut's number, so that cuts take like areas out of a V-shaped
 * space: the first of two takes 71 % of the depth (practice: 65 to 75 %).
 */
export function cutTravels(gear: Gear, hob: Hob, { cuts, ...request }: CutsRequest): HobbingCut[] {
  return Array.from({ length: cuts }, (_, index) => {
    const depth = gear.wholeDepth * Math.sqrt((index + 1) / cuts);
    const depthBefore = gear.wholeDepth * Math.sqrt(index / cuts);
    return cutTravel(gear, hob, { ...request, depth, depthIncrement: depth - depthBefore });
  });
}

export interface CutsRequest extends WayAlong {
  readonly cuts: number;
}

/** What decides the way along the work, whatever the depth. */
interface WayAlong {
  readonly faceWidth: number;
  readonly clearance: number;
  /** The hob goes in square to the work axis, so no approach along it is needed. */
  readonly entersRadially: boolean;
}

/** The printed approach: E = sqrt(h (d_a0 - h)) for a spur gear, tan|eta| sqrt(h ((d_a0 - h)/sin^2 eta + d_a)) otherwise. */
export function printedApproach(gear: Gear, hob: Hob, depth: number): number {
  const chord = depth * (hob.tipDiameter - depth);
  if (gear.isSpur) return Math.sqrt(chord);
  const setting = settingAngleRadians(gear, hob);
  // Multiplied through by sin eta, so that a setting angle of zero is no special case.
  return Math.sqrt(chord + depth * gear.tipDiameter * Math.sin(setting) ** 2) / Math.cos(setting);
}

/**
 * The exact approach: the axial distance between hob axis and face at which the
 * swivelled tip cylinder of the hob first touches the rim of the blank. The hob
 * counts as endless, which can only make the approach longer.
 */
export function exactApproach(gear: Gear, hob: Hob, depth: number): number {
  return hobReachOverDisc({
    hobTipRadius: hob.tipDiameter / 2,
    settingAngleRadians: settingAngleRadians(gear, hob),
    axisDistance: hobAxisToWorkAxis(gear, hob, depth),
    discRadius: gear.tipDiameter / 2,
  });
}

/** Centre distance of a cut that reaches `depth` below the tip circle. */
export const hobAxisToWorkAxis = (gear: Gear, hob: Hob, depth: number): number =>
  (gear.tipDiameter + hob.tipDiameter) / 2 - depth;

interface CutRequest extends WayAlong {
  readonly depth: number;
  readonly depthIncrement: number;
}

function cutTravel(gear: Gear, hob: Hob, request: CutRequest): HobbingCut {
  const { depth, depthIncrement, faceWidth, clearance } = request;
  const overrun = overrunOf(gear, hob, clearance / 2);
  const axialApproach = approachOf(gear, hob, depth, clearance / 2);
  const approach = request.entersRadially ? { ...axialApproach, value: overrun.value } : axialApproach;
  const startZOffset = approach.value + clearance / 2;
  const endZOffset = overrun.value + clearance / 2;
  return {
    depth,
    depthIncrement,
    hobAxisToWorkAxis: hobAxisToWorkAxis(gear, hob, depth),
    approach,
    overrun,
    startZOffset,
    endZOffset,
    travel: startZOffset + faceWidth + endZOffset,
  };
}

/**
 * How much of the clearance before the work may make up for what print neglects:
 * the rapid in ends there, so the other half must stay free.
 */
const COVERING_SHARE = 0.5;

/**
 * For a helical gear the larger of print and search. For a spur gear print
 * neglects the small swivel by the lead angle; the little that the search finds
 * on top is left to the clearance as far as half of that covers it.
 */
function approachOf(gear: Gear, hob: Hob, depth: number, clearanceBefore: number): Approach {
  const printed = printedApproach(gear, hob, depth);
  const exact = exactApproach(gear, hob, depth);
  const covered = gear.isSpur ? COVERING_SHARE * clearanceBefore : 0;
  return { value: Math.max(printed, exact - covered), printed, exact };
}

/** The same rule at the far end: print takes no overrun for a spur gear, so its small lag is left to the clearance first. */
function overrunOf(gear: Gear, hob: Hob, clearanceAfter: number): Overrun {
  const lag = (generatingLength(gear, hob).length / 2) * Math.sin(Math.abs(settingAngleRadians(gear, hob)));
  return { value: gear.isSpur ? Math.max(0, lag - clearanceAfter) : lag, lag };
}
