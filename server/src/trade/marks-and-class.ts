/**
 * What the marks of hobbing leave of a flank class. Marks are deviations of
 * form, so they are held against the form tolerances: the feed mark against the
 * helix form, feed and generating mark together against the profile form. That
 * is an upper bound, because hob and machine need their share too.
 */
import { degrees } from './angles.ts';
import type { Gear } from './gear.ts';
import { feedForMarkDepth, feedMarkDepth, generatingMarkDepth } from './generated-marks.ts';
import type { Hob } from './hob.ts';
import { flankTolerances, type FlankTolerances } from './flank-tolerance.ts';
import { millimetresPerUnit } from './lengths.ts';
import { OutOfRange } from './quantity.ts';

/** Tolerances of the gear's flanks, in micrometres. Throws `OutOfRange` outside the scope of ISO 1328-1:2013. */
export function gearFlankTolerances(gear: Gear, faceWidth: number, flankClass: number): FlankTolerances {
  const toMillimetres = millimetresPerUnit(gear.units);
  return flankTolerances({
    teeth: gear.teeth,
    referenceDiameterMm: gear.referenceDiameter * toMillimetres,
    normalModuleMm: gear.normalModule * toMillimetres,
    faceWidthMm: faceWidth * toMillimetres,
    helixAngleDegrees: degrees(gear.helixAngleRadians),
    flankClass,
  });
}

/** The largest feed per work revolution whose marks alone stay within the class. Throws `OutOfRange` if no feed does. */
export function maxFeedForClass(gear: Gear, hob: Hob, faceWidth: number, flankClass: number): number {
  const allowed = allowedFeedMark(gear, hob, faceWidth, flankClass);
  if (allowed <= 0) {
    throw new OutOfRange('hobGashes', hob.gashes, 'more, for this class', 'the generating marks alone exceed the profile form tolerance');
  }
  return feedForMarkDepth(gear, hob, allowed);
}

/** The finest class whose tolerances the marks of this feed stay within; undefined when even class 11 is too fine. */
export function bestClassForFeed(gear: Gear, hob: Hob, faceWidth: number, feedPerWorkRevolution: number): number | undefined {
  const mark = feedMarkDepth(gear, hob, feedPerWorkRevolution);
  for (let flankClass = 1; flankClass <= 11; flankClass += 1) {
    if (mark <= allowedFeedMark(gear, hob, faceWidth, flankClass)) return flankClass;
  }
  return undefined;
}

/** Depth that the class leaves to the feed mark, in the gear's unit. */
function allowedFeedMark(gear: Gear, hob: Hob, faceWidth: number, flankClass: number): number {
  const tolerances = gearFlankTolerances(gear, faceWidth, flankClass);
  const micrometre = 0.001 / millimetresPerUnit(gear.units);
  const leftByProfile = tolerances.profileForm * micrometre - generatingMarkDepth(gear, hob);
  return Math.min(tolerances.helixForm * micrometre, leftByProfile);
}
