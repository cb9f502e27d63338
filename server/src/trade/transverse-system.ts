/**
 * Old drawings state a helical gear in the transverse section (the "radial"
 * system). This turns such a statement into the normal section, which is the one
 * that the rest of the library speaks.
 */
import { degrees, radians } from './angles.ts';
import { inRange } from './domain.ts';

export interface TransverseSystem {
  readonly transverseModule: number;
  readonly transversePressureAngleDegrees: number;
  /** 0 to 60, the amount. */
  readonly helixAngleDegrees: number;
  readonly transverseProfileShift: number;
}

export interface NormalSystem {
  readonly normalModule: number;
  readonly normalPressureAngleDegrees: number;
  readonly helixAngleDegrees: number;
  readonly profileShift: number;
}

/** m_n = m_t cos beta, tan alpha_n = tan alpha_t cos beta, x_n = x_t / cos beta. */
export function normalFromTransverse(system: TransverseSystem): NormalSystem {
  inRange('transverseModule', system.transverseModule, { over: 0, atMost: 1000 });
  inRange('transversePressureAngleDegrees', system.transversePressureAngleDegrees, { atLeast: 5, atMost: 45 });
  inRange('helixAngleDegrees', system.helixAngleDegrees, { atLeast: 0, atMost: 60 });
  inRange('transverseProfileShift', system.transverseProfileShift, { atLeast: -2, atMost: 2 });
  const cosine = Math.cos(radians(system.helixAngleDegrees));
  const tangent = Math.tan(radians(system.transversePressureAngleDegrees));
  return {
    normalModule: system.transverseModule * cosine,
    normalPressureAngleDegrees: degrees(Math.atan(tangent * cosine)),
    helixAngleDegrees: system.helixAngleDegrees,
    profileShift: system.transverseProfileShift / cosine,
  };
}
