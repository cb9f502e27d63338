/**
 * A rotating pointed tool (a cone with a small flat tip) at a depth. Knows
 * nothing of text. One unit of length throughout, angles are the included angle
 * of the cone in degrees, 0 for a cylindrical tool.
 */
import { radians } from './angles.ts';
import { inRange, lengthOrZero, positiveLength } from './domain.ts';
import { OutOfRange, type Units } from './quantity.ts';
import { cuttingSpeedOf } from './speeds-and-feeds.ts';

export interface PointedTool {
  /** Of the flat at the tip, 0 for a sharp point. */
  tipDiameter: number;
  /** Between opposite sides of the cone, 0 to less than 180 degrees. */
  tipAngleDegrees: number;
}

/** Diameter of the tool where it leaves the surface, which is the width of the line too. */
export function diameterAtDepth(tool: PointedTool, depth: number): number {
  const slope = coneSlope(tool);
  const diameter = tool.tipDiameter + 2 * positiveLength('depth', depth) * slope;
  if (diameter > 0) return diameter;
  throw new OutOfRange('tipDiameter', tool.tipDiameter, 'more than 0', 'a tool with neither tip nor cone has no edge');
}

/** Cutting speed at the middle of the depth, in m/min or ft/min. */
export function meanCuttingSpeed(tool: PointedTool, depth: number, rpm: number, units: Units): number {
  return cuttingSpeedOf(rpm, (tool.tipDiameter + diameterAtDepth(tool, depth)) / 2, units);
}

/**
 * Depth that gives a line of a width.
 *
 * @throws OutOfRange on `lineWidth` not above the tip, on `tipAngleDegrees` 0
 */
export function depthForLineWidth(tool: PointedTool, lineWidth: number): number {
  const slope = coneSlope(tool);
  inRange('tipAngleDegrees', tool.tipAngleDegrees, { over: 0, under: 180, reason: 'a cylindrical tool has one line width' });
  inRange('lineWidth', lineWidth, { over: tool.tipDiameter, atMost: 1e5 });
  return positiveLength('depth', (lineWidth - tool.tipDiameter) / (2 * slope));
}

/** How much wider a line becomes when it is deeper by an error. */
export function lineWidthError(depthError: number, tipAngleDegrees: number): number {
  inRange('depthError', depthError, { atLeast: -1e5, atMost: 1e5 });
  return 2 * depthError * coneSlope({ tipDiameter: 0, tipAngleDegrees });
}

/** Line width that signs and instruments customarily have for a height of letters. Source: one published source. */
export function customaryLineWidth(height: number): number {
  return 0.12 * positiveLength('height', height);
}

/** Half the cone's angle as a slope; near 180 degrees it would grow without bound. */
function coneSlope({ tipDiameter, tipAngleDegrees }: PointedTool): number {
  lengthOrZero('tipDiameter', tipDiameter);
  return Math.tan(radians(inRange('tipAngleDegrees', tipAngleDegrees, { atLeast: 0, atMost: 179 }) / 2));
}
