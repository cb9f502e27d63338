/**
 * How far a swivelled hob, taken as its tip cylinder, reaches along the work
 * axis over a flat disc: the rim of the blank when it comes in, the face of a
 * shoulder or of the chuck when it runs out. Two crossed cylinders, nothing else.
 */
import { maximumOfConcave } from './roots.ts';

export interface HobOverDisc {
  readonly hobTipRadius: number;
  readonly settingAngleRadians: number;
  /** Distance between the hob axis and the work axis. */
  readonly axisDistance: number;
  readonly discRadius: number;
  /**
   * The part of the hob, measured along its axis from the pitch point, that lies
   * on the longer side. Omitted: endless, which can only touch sooner.
   */
  readonly reachAlongHobAxis?: number | undefined;
}

/**
 * The axial distance between hob axis (at Y = 0) and disc at which they touch; 0
 * if the hob passes outside the disc altogether.
 *
 * Across its axis the cylinder stands off by w = sqrt(r_a0^2 - (a - x)^2) at the
 * place x of the disc. It reaches farthest either at the edge of the disc, at
 * y = sqrt(R^2 - x^2), by y tan eta + w / cos eta, or with its own end, by
 * s sin eta + w cos eta. The lesser of the two counts; both are concave in x.
 */
export function hobReachOverDisc(place: HobOverDisc): number {
  const { hobTipRadius, axisDistance, discRadius, reachAlongHobAxis = Infinity } = place;
  const setting = Math.abs(place.settingAngleRadians);
  const [sine, cosine] = [Math.sin(setting), Math.cos(setting)];
  const endReach = reachAlongHobAxis === Infinity ? Infinity : reachAlongHobAxis * sine;
  const innermost = axisDistance - hobTipRadius;
  const outermost = Math.min(discRadius, axisDistance);
  if (innermost >= outermost) return 0;
  const reach = (x: number): number => {
    const width = rootOf(hobTipRadius ** 2 - (axisDistance - x) ** 2);
    return Math.min((rootOf(discRadius ** 2 - x ** 2) * sine + width) / cosine, endReach + width * cosine);
  };
  return maximumOfConcave(reach, Math.max(innermost, -discRadius), outermost);
}

const rootOf = (square: number): number => Math.sqrt(Math.max(0, square));
