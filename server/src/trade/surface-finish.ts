/**
 * The roughness and the scallops that the shape of a round edge leaves at a feed
 * or a stepover: what geometry alone gives, which no cut is smoother than.
 * One unit of length throughout.
 */
import { inRange, positiveLength } from './domain.ts';
import { sagittaOfChord } from './slot-geometry.ts';

/** Arithmetic mean over peak-to-valley of a row of parabolas: 4 / (9 root 3). Source: derived. */
const MEAN_OVER_PEAK_TO_VALLEY = 4 / (9 * Math.sqrt(3));

/**
 * Peak-to-valley height that a round nose leaves at a feed a revolution:
 * r - sqrt(r^2 - f^2/4), close to f^2 / (8 r). Source: derived.
 *
 * @throws OutOfRange on `feedPerRevolution` of twice the nose radius and more, which leaves ridges of full depth
 */
export function peakToValley(feedPerRevolution: number, noseRadius: number): number {
  return sagittaOfStep(noseRadius, 'noseRadius', feedPerRevolution, 'feedPerRevolution');
}

/** Arithmetic mean roughness of the same ridges, taken as parabolas. Source: derived. */
export function meanRoughness(feedPerRevolution: number, noseRadius: number): number {
  return MEAN_OVER_PEAK_TO_VALLEY * peakToValley(feedPerRevolution, noseRadius);
}

/** The feed a revolution that leaves a peak-to-valley height. Inverse of `peakToValley`. */
export function feedForPeakToValley(height: number, noseRadius: number): number {
  return stepForSagitta(height, noseRadius, 'noseRadius');
}

/** Height of the scallops that a ball end leaves on a flat at a stepover. Source: derived. */
export function scallopHeight(stepover: number, ballRadius: number): number {
  return sagittaOfStep(ballRadius, 'ballRadius', stepover, 'stepover');
}

/** The stepover that leaves scallops of a height. Inverse of `scallopHeight`. */
export function stepoverForScallop(height: number, ballRadius: number): number {
  return stepForSagitta(height, ballRadius, 'ballRadius');
}

function sagittaOfStep(radius: number, radiusName: string, step: number, stepName: string): number {
  positiveLength(radiusName, radius);
  inRange(stepName, step, { over: 0, under: 2 * radius, reason: 'less than twice the radius of the edge' });
  return sagittaOfChord(radius, positiveLength(stepName, step));
}

function stepForSagitta(height: number, radius: number, radiusName: string): number {
  positiveLength(radiusName, radius);
  inRange('height', height, { over: 0, under: radius });
  return 2 * Math.sqrt(height * (2 * radius - height));
}
