/**
 * What a gear tooth caliper reads: the chord of the tooth at the reference circle
 * and its height below the tip, in the normal section of the virtual gear.
 */
import { degrees } from './angles.ts';
import type { Gear } from './gear.ts';
import { virtualTeeth } from './tooth-limits.ts';

export interface ChordalThickness {
  /** Half the angle that the tooth subtends at the virtual gear's centre. */
  readonly halfAngleDegrees: number;
  readonly thickness: number;
  /** From the tip down to the chord. */
  readonly height: number;
}

/** s = z_v m_n sin theta, h = h_a + z_v m_n (1 - cos theta) / 2, with theta = s_n / (z_v m_n). */
export function chordalThickness(gear: Gear): ChordalThickness {
  const virtualDiameter = virtualTeeth(gear) * gear.normalModule;
  const halfAngle = gear.normalToothThickness / virtualDiameter;
  const addendum = (gear.tipDiameter - gear.referenceDiameter) / 2;
  return {
    halfAngleDegrees: degrees(halfAngle),
    thickness: virtualDiameter * Math.sin(halfAngle),
    height: addendum + (virtualDiameter * (1 - Math.cos(halfAngle))) / 2,
  };
}
