/**
 * Whether the hob can come in and run out: how much room there must be between
 * the ends of the teeth and the next shoulder, or the face of the chuck.
 */
import { inRange } from './domain.ts';
import type { Gear } from './gear.ts';
import { hobReachOverDisc } from './hob-reach.ts';
import type { Hob } from './hob.ts';
import { hobAxisToWorkAxis, type HobbingCut } from './hobbing-travel.ts';
import { settingAngleRadians } from './hobbing-law.ts';

export interface RunoutInput {
  /** Outside diameter of the shoulder or of the chuck with its jaws. */
  readonly obstacleDiameter: number;
  /** Toothed length of the hob on the longer side of the pitch point, with its hub if that is larger; omitted: endless. */
  readonly reachAlongHobAxis?: number | undefined;
}

export interface RunoutRoom {
  /** How far the body of the hob reaches beyond its own axis over the obstacle; 0 if it passes outside. */
  readonly hobReach: number;
  /** From the end of the teeth to an obstacle behind them: end of travel plus reach. */
  readonly neededRoom: number;
  /** From the face of the teeth to an obstacle before them: start of travel plus reach. */
  readonly neededEntryRoom: number;
}

/** The room that the given cut needs on either side of the teeth. An obstacle smaller than the root needs none. */
export function runoutRoom(gear: Gear, hob: Hob, cut: HobbingCut, input: RunoutInput): RunoutRoom {
  inRange('obstacleDiameter', input.obstacleDiameter, { over: 0, atMost: 1e5 });
  if (input.reachAlongHobAxis !== undefined) inRange('reachAlongHobAxis', input.reachAlongHobAxis, { over: 0, atMost: 1e5 });
  const hobReach = hobReachOverDisc({
    hobTipRadius: hob.tipDiameter / 2,
    settingAngleRadians: settingAngleRadians(gear, hob),
    axisDistance: hobAxisToWorkAxis(gear, hob, cut.depth),
    discRadius: input.obstacleDiameter / 2,
    reachAlongHobAxis: input.reachAlongHobAxis,
  });
  const room = (offset: number): number => (hobReach === 0 ? 0 : offset + hobReach);
  return { hobReach, neededRoom: room(cut.endZOffset), neededEntryRoom: room(cut.startZOffset) };
}

/** The largest shoulder that the hob passes without any room behind the teeth: the root of the gear, when cut to full depth. */
export function harmlessShoulderDiameter(gear: Gear, hob: Hob, cut: HobbingCut): number {
  return 2 * (hobAxisToWorkAxis(gear, hob, cut.depth) - hob.tipDiameter / 2);
}
