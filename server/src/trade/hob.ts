/**
 * The hob as a tool: reference diameter, lead angle and axial pitch from what is
 * engraved on it. It knows the gear only through the module and the depth of
 * tooth that the hob has to cut.
 */
import { inRange } from './domain.ts';
import type { Gear } from './gear.ts';
import { requireHand, type Hand } from './hands.ts';

export interface HobInput {
  /** Outside diameter. */
  readonly hobTipDiameter: number;
  /** 1 to 20. */
  readonly hobStarts: number;
  readonly hobHand: Hand;
  /** Gashes round the hob, 2 to 200. */
  readonly hobGashes: number;
  /** Usable toothed length along the axis, if known. */
  readonly hobLength?: number | undefined;
}

export interface Hob {
  readonly tipDiameter: number;
  readonly starts: number;
  readonly hand: Hand;
  readonly gashes: number;
  readonly addendum: number;
  readonly referenceDiameter: number;
  /** The amount, 0 or more. */
  readonly leadAngleRadians: number;
  /** Positive for a right-hand hob. */
  readonly signedLeadAngleRadians: number;
  /** Distance along the hob axis from one tooth of the rack to the next. */
  readonly axialPitch: number;
}

/** Beyond this lead angle a worm no longer cuts as a hob; common practice, no source. */
const LARGEST_LEAD_ANGLE_RADIANS = (20 * Math.PI) / 180;

/** Throws `OutOfRange` for a hob that is no hob for this gear, above all one too small for its teeth. */
export function hobGeometry(input: HobInput, gear: Gear): Hob {
  checkHobInput(input, gear);
  const referenceDiameter = input.hobTipDiameter - 2 * gear.toolAddendum;
  const leadAngle = Math.asin((input.hobStarts * gear.normalModule) / referenceDiameter);
  return {
    tipDiameter: input.hobTipDiameter,
    starts: input.hobStarts,
    hand: input.hobHand,
    gashes: input.hobGashes,
    addendum: gear.toolAddendum,
    referenceDiameter,
    leadAngleRadians: leadAngle,
    signedLeadAngleRadians: input.hobHand * leadAngle,
    axialPitch: (Math.PI * gear.normalModule) / Math.cos(leadAngle),
  };
}

function checkHobInput(input: HobInput, gear: Gear): void {
  inRange('hobStarts', input.hobStarts, { atLeast: 1, atMost: 20, whole: true });
  requireHand('hobHand', input.hobHand);
  inRange('hobGashes', input.hobGashes, { atLeast: 2, atMost: 200, whole: true });
  if (input.hobLength !== undefined) inRange('hobLength', input.hobLength, { over: 0, atMost: 1e5 });
  checkToolTooth(gear);
  inRange('hobTipDiameter', input.hobTipDiameter, {
    over: smallestTipDiameter(input.hobStarts, gear),
    atMost: 1e5,
    reason: 'a smaller hob has no body inside its teeth, or a lead angle over 20 degrees',
  });
  inRange('depth', gear.wholeDepth, { over: 0, under: input.hobTipDiameter / 2, reason: 'it must stay under the radius of the hob' });
}

/** The reference diameter must hold the starts at the largest lead angle and lie outside the gear's tooth depth. */
function smallestTipDiameter(starts: number, gear: Gear): number {
  const forLead = (starts * gear.normalModule) / Math.sin(LARGEST_LEAD_ANGLE_RADIANS);
  return 2 * gear.toolAddendum + Math.max(forLead, 0);
}

/** The straight flanks of the hob tooth must not meet before its tip, and it must have an addendum. */
function checkToolTooth(gear: Gear): void {
  const pointed = (Math.PI / 4) * (gear.normalModule / Math.tan(gear.normalPressureAngleRadians));
  const excess = gear.toolAddendum - pointed;
  inRange('depth', gear.wholeDepth, {
    over: Math.max(0, gear.wholeDepth - gear.toolAddendum),
    under: gear.wholeDepth - excess,
    reason: 'the tooth of the hob would otherwise have no addendum or end in a point; give tip diameter and depth for a stub tooth',
  });
}
