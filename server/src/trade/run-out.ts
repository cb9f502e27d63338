/**
 * What an eccentric tool does to its teeth, and how run-out grows along a tool.
 * Run-out here is TIR: the largest less the smallest reading of a dial over one
 * turn, twice the eccentricity. One unit of length throughout.
 */
import { degrees } from './angles.ts';
import { count, inRange, lengthOrZero, positiveLength } from './domain.ts';
import { leanOver } from './small-angles.ts';

export interface ChipLoadWithRunOut {
  readonly largest: number;
  /** 0 where a tooth no longer cuts. */
  readonly smallest: number;
  /** Change of chip load as a share of it; 1 or more means that a tooth no longer cuts. */
  readonly share: number;
}

/** By how much run-out changes the chip load of single teeth: TIR sin(pi/z), none for one tooth. Source: derived. */
export function chipLoadChange(runOut: number, teeth: number): number {
  lengthOrZero('runOut', runOut);
  return teeth === 1 ? 0 : runOut * Math.sin(Math.PI / count('flutes', teeth));
}

/** Largest and smallest chip load of a tool's teeth. Source: derived. */
export function chipLoadWithRunOut(chipLoad: number, runOut: number, teeth: number): ChipLoadWithRunOut {
  positiveLength('chipLoad', chipLoad);
  const change = chipLoadChange(runOut, teeth);
  return { largest: chipLoad + change, smallest: Math.max(0, chipLoad - change), share: change / chipLoad };
}

/**
 * Run-out at a distance from where it was measured, offset and tilt in one
 * plane: the worst case. The gauge length belongs beside every run-out that is stated.
 * Source: derived.
 */
export function runOutAtGaugeLength(runOutAtNose: number, gaugeLength: number, tiltDegrees: number): number {
  lengthOrZero('runOutAtNose', runOutAtNose);
  lengthOrZero('gaugeLength', gaugeLength);
  inRange('tiltDegrees', tiltDegrees, { atLeast: 0, atMost: 45 });
  return runOutAtNose + 2 * leanOver(gaugeLength, tiltDegrees);
}

/** The tilt of a tool whose run-out was read at its nose and at a gauge length, in degrees. Inverse of `runOutAtGaugeLength`. */
export function tiltFromRunOut(runOutAtNose: number, runOutFarther: number, gaugeLength: number): number {
  lengthOrZero('runOutAtNose', runOutAtNose);
  inRange('runOutFarther', runOutFarther, { atLeast: runOutAtNose, atMost: 1e5 });
  return degrees(Math.atan((runOutFarther - runOutAtNose) / (2 * positiveLength('gaugeLength', gaugeLength))));
}

/** Diameter that a rotating tool of two teeth sweeps, and so the slot that it cuts. Source: derived. */
export function sweptDiameter(toolDiameter: number, runOut: number): number {
  return positiveLength('toolDiameter', toolDiameter) + lengthOrZero('runOut', runOut);
}
