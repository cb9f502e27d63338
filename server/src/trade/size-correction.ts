/**
 * From a measured size to a new infeed: how far the hob must go deeper so that
 * the next cut has the wanted span or size over pins. Positive corrections go
 * toward the work axis; all are radial.
 */
import type { Gear } from './gear.ts';
import { inRange } from './domain.ts';
import { overPins } from './pins.ts';

/** Radial correction for a span that is too large by `excess` (negative: too small): excess / (2 sin alpha_n). */
export function correctionFromSpan(gear: Gear, excess: number): number {
  inRange('excess', excess, sizeErrorRange(gear));
  return excess / (2 * Math.sin(gear.normalPressureAngleRadians));
}

/**
 * Radial correction for a size over pins that is too large by `excess`, from the
 * slope of that size at the wanted one: dM = 2 dX sin alpha_t / sin alpha_Kt, times
 * cos(90/z) for an odd number of teeth.
 */
export function correctionFromPins(gear: Gear, pinDiameter: number, excess: number): number {
  inRange('excess', excess, sizeErrorRange(gear));
  const { centreAngleRadians } = overPins(gear, pinDiameter);
  const odd = gear.teeth % 2 === 0 ? 1 : Math.cos(Math.PI / (2 * gear.teeth));
  return (excess * Math.sin(centreAngleRadians)) / (2 * odd * Math.sin(gear.transversePressureAngleRadians));
}

/** The X word after the correction; `diameterProgramming` doubles the step. */
export function correctedX(x: number, radialCorrection: number, diameterProgramming: boolean): number {
  inRange('x', x, { atLeast: -1e6, atMost: 1e6 });
  return x - radialCorrection * (diameterProgramming ? 2 : 1);
}

/** Beyond one module the figure is a misreading, not a deviation. */
const sizeErrorRange = (gear: Gear): { atLeast: number; atMost: number } => ({
  atLeast: -gear.normalModule,
  atMost: gear.normalModule,
});
