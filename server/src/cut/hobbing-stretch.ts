import type { Units } from '../trade/quantity.ts';
import type { HobTool } from './hob-tool.ts';
import type { WantedGear } from './wanted-gear.ts';

/**
 * What a hobbing stretch of a program is meant to make and with which tool: the
 * things that stand in a note, on a drawing or on the hob, and in no word of the
 * program itself.
 */
export interface HobbingStretch {
  /** Of the program; findings speak in them. */
  units?: Units;
  gear: WantedGear;
  /** The end faces of the teeth along Z, in mm. */
  zLow: number;
  zHigh: number;
  tool: HobTool;
  settingRadians: number;
  /** Axial feed for one work revolution that was asked for, in mm; undefined when nobody asked. */
  feedPerWorkTurn?: number;
  /** Radial feed for one work revolution that was asked for, in mm; undefined where the hob is to come in along the work. */
  radialFeedPerWorkTurn?: number;
  climb?: boolean;
  /** What else stands near the teeth, as cylinders about the work axis. */
  obstacles?: readonly Obstacle[];
}

/** An end along Z that is not known is infinite. */
export interface Obstacle {
  name: string;
  radius: number;
  zLow: number;
  zHigh: number;
}
