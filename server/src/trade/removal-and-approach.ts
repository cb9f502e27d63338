/**
 * Material removal rates and the extra travel of milling cutters. Units as in
 * speeds-and-feeds.ts; removal in cm^3/min or inch^3/min.
 */
import { inRange, positiveLength, positiveRate } from './domain.ts';
import type { Units } from './quantity.ts';
import { cuttingSpeedValue } from './speeds-and-feeds.ts';

/** Turning and boring: depth of cut x feed x speed. Source: published. */
export function turningRemovalRate(depthOfCut: number, feedPerRevolution: number, cuttingSpeed: number, units: Units): number {
  const product = positiveLength('depthOfCut', depthOfCut) * positiveRate('feedPerRevolution', feedPerRevolution) * cuttingSpeedValue('cuttingSpeed', cuttingSpeed);
  return units === 'mm' ? product : 12 * product;
}

/** Milling: depth x width x table feed. Source: published. */
export function millingRemovalRate(depthOfCut: number, widthOfCut: number, feedPerMinute: number, units: Units): number {
  const product = positiveLength('depthOfCut', depthOfCut) * positiveLength('widthOfCut', widthOfCut) * positiveRate('feedPerMinute', feedPerMinute);
  return units === 'mm' ? product / 1000 : product;
}

/** Travel of a centred face mill before its full width cuts. Source: published. */
export function faceMillApproach(cutterDiameter: number, widthOfCut: number): number {
  positiveLength('cutterDiameter', cutterDiameter);
  inRange('widthOfCut', widthOfCut, { over: 0, atMost: cutterDiameter });
  return (cutterDiameter - Math.sqrt(cutterDiameter ** 2 - widthOfCut ** 2)) / 2;
}

/** Travel of a slab mill or disc cutter from first contact to its middle over the edge. Source: published. */
export function slabMillApproach(cutterDiameter: number, depthOfCut: number): number {
  positiveLength('cutterDiameter', cutterDiameter);
  inRange('depthOfCut', depthOfCut, { over: 0, atMost: cutterDiameter });
  return Math.sqrt(depthOfCut * (cutterDiameter - depthOfCut));
}
