import type { Hand } from '../trade/hands.ts';
import type { Units } from '../trade/quantity.ts';

/**
 * What an engraving stretch of a program is meant to write, and with which
 * cutter. Lengths in mm, angles in degrees. Places count from the face of the
 * work: Z leaves it, Y goes to the left of somebody who looks at it with X up.
 */
export interface EngravingStretch {
  /** Of the program; findings speak in them. */
  units?: Units;
  surface: FaceSurface | CylinderSurface;
  text: string;
  /** Of the capitals. */
  height: number;
  depth: number;
  /** Where the text starts on the work, counter-clockwise to somebody who looks at the face. */
  angleDegrees: number;
  /** 1: to that person growing C turns the work counter-clockwise. */
  workRotation: Hand;
  tipDiameter: number;
  tipAngleDegrees: number;
}

export interface FaceSurface {
  kind: 'face';
  z: number;
  /** Distance of the baseline from the work axis. */
  baselineRadius: number;
}

export interface CylinderSurface {
  kind: 'cylinder';
  radius: number;
  baselineZ: number;
}
