import { radians } from '../trade/angles.ts';
import type { Hand } from '../trade/hands.ts';
import { involute } from '../trade/involute.ts';
import { OutOfRange } from '../trade/quantity.ts';

/**
 * The hob as a set of cutting edges: what one tooth looks like in its gash, and
 * where the teeth of every gash sit along the axis.
 *
 * The edges lie on the involute helicoid of the hob's thread, cut by gashes
 * that run along the axis with a radial face. That is the thread which
 * generates a true involute; what a real hob departs from it is the tolerance
 * of the hob and not of the program. The module knows no motion and no work.
 */

/** Lengths in mm. Addendum, dedendum and tip radius are those of the hob's own basic rack, not factors. */
export interface HobTool {
  normalModule: number;
  normalPressureAngleDegrees: number;
  starts: number;
  hand: Hand;
  tipDiameter: number;
  gashes: number;
  /** From the reference line to the tip of the hob tooth: 1.25 modules for the rack of ISO 53. */
  addendum: number;
  /** From the reference line to the bottom between the hob teeth. */
  dedendum: number;
  tipRadius: number;
  /** Length that carries teeth, half of it on each side of the hob's centre. */
  length: number;
}

/** One tooth outline in the plane of its gash, from the left bottom over the tip to the right bottom. */
export interface ToothOutline {
  /** Distance of every point from the hob axis, in mm. */
  radius: Float64Array;
  /** Position along the hob axis from the middle of the tooth, in mm. */
  axial: Float64Array;
  /** The point in the middle of the tip. */
  middle: number;
}

export interface HobEdges {
  tool: HobTool;
  referenceRadius: number;
  tipRadialReach: number;
  rootRadius: number;
  leadAngleRadians: number;
  axialPitch: number;
  /** Thread advance along the axis per radian, with the sign of the hand. */
  advancePerRadian: number;
  outline: ToothOutline;
}

/** Straight part of the flank above the reference line, in mm; above it the tip radius begins. */
export function formHeight(tool: HobTool): number {
  return tool.addendum - tool.tipRadius * (1 - Math.sin(pressureAngle(tool)));
}

/** The tip radius that makes the tip of the hob tooth one full round, in mm; 0 or less when the flanks meet before the tip. */
export function largestTipRadius(tool: Omit<HobTool, 'tipRadius'>): number {
  const alpha = radians(tool.normalPressureAngleDegrees);
  const halfTip = (Math.PI * tool.normalModule) / 4 - tool.addendum * Math.tan(alpha);
  return halfTip / (1 / Math.cos(alpha) - Math.tan(alpha));
}

/** Points on each flank and on each tip radius: how finely the outline is followed. */
export interface OutlineFineness {
  flankPoints: number;
  tipPoints: number;
}

/** Computes the edges. Throws `OutOfRange` for a tool that is no hob. */
export function hobEdges(tool: HobTool, fineness: OutlineFineness): HobEdges {
  const referenceRadius = tool.tipDiameter / 2 - tool.addendum;
  const leadAngleRadians = Math.asin(leadSine(tool, referenceRadius));
  const axialPitch = (Math.PI * tool.normalModule) / Math.cos(leadAngleRadians);
  const thread = { tool, referenceRadius, leadAngleRadians, axialPitch };
  return {
    ...thread,
    tipRadialReach: tool.tipDiameter / 2,
    rootRadius: referenceRadius - tool.dedendum,
    advancePerRadian: (tool.hand * tool.starts * axialPitch) / (2 * Math.PI),
    outline: toothOutline(thread, fineness),
  };
}

interface Thread {
  tool: HobTool;
  referenceRadius: number;
  leadAngleRadians: number;
  axialPitch: number;
}

function pressureAngle(tool: HobTool): number {
  return radians(tool.normalPressureAngleDegrees);
}

function leadSine(tool: HobTool, referenceRadius: number): number {
  const sine = (tool.starts * tool.normalModule) / (2 * referenceRadius);
  if (!(sine > 0 && sine < 0.7)) {
    throw new OutOfRange('tipDiameter', tool.tipDiameter, 'so large that the thread leads by less than 45 degrees');
  }
  return sine;
}

function toothOutline(thread: Thread, { flankPoints, tipPoints }: OutlineFineness): ToothOutline {
  const half = [...flankHeights(thread.tool, flankPoints), ...tipAngles(tipPoints)].map((step) => halfPoint(thread, step));
  const tip = { radius: thread.referenceRadius + thread.tool.addendum, axial: 0 };
  const points = [...half.map((point) => ({ ...point, axial: -point.axial })), tip, ...half.slice().reverse()];
  return {
    radius: Float64Array.from(points, (point) => point.radius),
    axial: Float64Array.from(points, (point) => point.axial),
    middle: half.length,
  };
}

/** A place on half an outline: a height on the straight flank, or an angle on the tip radius. */
type OutlineStep = { height: number } | { tipAngleFraction: number };

function flankHeights(tool: HobTool, count: number): OutlineStep[] {
  const top = formHeight(tool);
  return Array.from({ length: count }, (_, index) => ({
    height: -tool.dedendum + ((top + tool.dedendum) * index) / (count - 1),
  }));
}

function tipAngles(count: number): OutlineStep[] {
  return Array.from({ length: count }, (_, index) => ({ tipAngleFraction: (index + 1) / count }));
}

function halfPoint(thread: Thread, step: OutlineStep): { radius: number; axial: number } {
  if ('height' in step) return flankPoint(thread, step.height);
  return tipRadiusPoint(thread, step.tipAngleFraction);
}

function flankPoint(thread: Thread, height: number): { radius: number; axial: number } {
  const radius = thread.referenceRadius + height;
  return { radius, axial: halfThicknessAlongAxis(thread, radius) };
}

/**
 * The tip radius joins flank and tip line. It is drawn in the normal section of
 * the rack; along the hob axis its distance from the prolonged flank appears
 * longer by the cosine of the lead angle.
 */
function tipRadiusPoint(thread: Thread, fraction: number): { radius: number; axial: number } {
  const { tool } = thread;
  const alpha = pressureAngle(tool);
  const turn = alpha + (Math.PI / 2 - alpha) * fraction;
  const height = tool.addendum - tool.tipRadius * (1 - Math.sin(turn));
  const offset = tipCentreOffset(tool) + tool.tipRadius * Math.cos(turn);
  const straight = (Math.PI * tool.normalModule) / 4 - height * Math.tan(alpha);
  const flank = flankPoint(thread, height);
  return { radius: flank.radius, axial: flank.axial - (straight - offset) / Math.cos(thread.leadAngleRadians) };
}

function tipCentreOffset(tool: HobTool): number {
  const alpha = pressureAngle(tool);
  const centreHeight = tool.addendum - tool.tipRadius;
  const flank = (Math.PI * tool.normalModule) / 4 - centreHeight * Math.tan(alpha);
  const offset = flank - tool.tipRadius / Math.cos(alpha);
  if (offset < -1e-9) throw new OutOfRange('tipRadius', tool.tipRadius, 'small enough to fit on the tip of the hob tooth');
  return offset;
}

/** Half the thickness of an involute helicoid thread along its axis, at a radius (ISO 21771 geometry of a helical tooth). */
function halfThicknessAlongAxis(thread: Thread, radius: number): number {
  const transverse = Math.atan(Math.tan(pressureAngle(thread.tool)) / Math.sin(thread.leadAngleRadians));
  const baseRadius = thread.referenceRadius * Math.cos(transverse);
  if (radius <= baseRadius) {
    throw new OutOfRange('tipDiameter', thread.tool.tipDiameter, 'so large that the hob tooth stays above its base circle');
  }
  const advance = (thread.tool.starts * thread.axialPitch) / (2 * Math.PI);
  const atReference = Math.PI / (2 * thread.tool.starts);
  return advance * (atReference + involute(transverse) - involute(Math.acos(baseRadius / radius)));
}
