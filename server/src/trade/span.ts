/**
 * The span measurement (base tangent length over k teeth) of external gears:
 * how many teeth, what length, where the anvils touch, and whether they can.
 */
import type { Gear } from './gear.ts';
import { involute } from './involute.ts';
import { inRange } from './domain.ts';
import { OutOfRange } from './quantity.ts';
import { innermostFlankDiameter } from './tooth-limits.ts';

export interface Span {
  readonly teeth: number;
  /** The number of teeth before rounding, k'. */
  readonly idealTeeth: number;
  readonly length: number;
  /** Diameter of the circle on which the anvils touch the flanks. */
  readonly contactDiameter: number;
  /** The least face width on which both anvils find a flank; 0 for a spur gear. */
  readonly neededFaceWidth: number;
}

/** The span over the number of teeth that brings the anvils nearest to the middle of the flank. */
export function recommendedSpan(gear: Gear): Span {
  return spanOver(gear, Math.max(2, Math.round(idealSpanTeeth(gear))));
}

/** The span over a given number of teeth. Throws `OutOfRange` where the anvils would touch outside the flank. */
export function spanOver(gear: Gear, teeth: number): Span {
  inRange('spanTeeth', teeth, { atLeast: 1, atMost: gear.teeth, whole: true });
  const length = spanLength(gear, teeth);
  const contactDiameter = Math.hypot(gear.baseDiameter, length * Math.cos(gear.baseHelixAngleRadians));
  if (contactDiameter >= gear.tipDiameter) {
    throw new OutOfRange('spanTeeth', teeth, 'less', 'the anvils would touch outside the tip circle');
  }
  if (contactDiameter < innermostFlankDiameter(gear)) {
    throw new OutOfRange('spanTeeth', teeth, 'more', 'the anvils would touch below the flank');
  }
  return { teeth, idealTeeth: idealSpanTeeth(gear), length, contactDiameter, neededFaceWidth: neededFaceWidth(gear, length) };
}

/** W_k = m_n cos alpha_n (pi (k - 1/2) + z inv alpha_t) + 2 x m_n sin alpha_n. */
export function spanLength(gear: Gear, teeth: number): number {
  const base = gear.normalModule * Math.cos(gear.normalPressureAngleRadians);
  const shift = 2 * gear.profileShift * gear.normalModule * Math.sin(gear.normalPressureAngleRadians);
  return base * (Math.PI * (teeth - 0.5) + gear.teeth * involute(gear.transversePressureAngleRadians)) + shift;
}

/** The number of teeth, as a fraction, at which the anvils touch on the V-circle d + 2 x m. */
export function idealSpanTeeth(gear: Gear): number {
  const tangent = Math.tan(gear.normalPressureAngleRadians);
  const cosine = Math.cos(gear.helixAngleRadians);
  const sum = cosine ** 2 + tangent ** 2;
  const shift = (2 * gear.profileShift) / gear.teeth;
  const square = sum * (1 / cosine + shift) ** 2 - 1;
  if (square < 0) throw new OutOfRange('profileShift', gear.profileShift, 'such that the V-circle lies outside the base circle');
  const tangentPart = (1 + Math.sin(gear.helixAngleRadians) ** 2 / sum) * Math.sqrt(square);
  const factor = (tangentPart - involute(gear.transversePressureAngleRadians) - shift * tangent) / Math.PI;
  return gear.teeth * factor + 0.5;
}

/** W sin beta_b is exact; some 2 mm on top are an allowance from memory, which the caller adds. */
function neededFaceWidth(gear: Gear, length: number): number {
  return length * Math.sin(gear.baseHelixAngleRadians);
}
