/**
 * Which G and M numbers the open definitions know and which of them exclude
 * each other on one line: modal groups of NISTIR 6556 §3.4 (table 4), widened by
 * the ISO 6983 codes that a lathe needs. What a code does is in the interpreter;
 * what it is called is in `words.ts`.
 */

/** Groups of G codes. The numbers are ours; the names say which NIST or ISO group is meant. */
export const NO_GROUP = 0;
export const ONE_SHOT = 1;
export const MOTION_GROUP = 2;
export const PLANE_GROUP = 3;
export const DISTANCE_GROUP = 4;
export const FEED_MODE_GROUP = 5;
export const UNITS_GROUP = 6;
export const RADIUS_GROUP = 7;
export const LENGTH_GROUP = 8;
export const RETURN_GROUP = 9;
export const OFFSET_GROUP = 10;
export const PATH_GROUP = 11;
export const SPEED_MODE_GROUP = 12;
/** Known, but free to stand beside anything. */
export const ALONE = 13;

/** Groups of M codes. */
export const STOP_GROUP = 1;
export const TOOL_GROUP = 2;
export const SPINDLE_GROUP = 3;
export const COOLANT_GROUP = 4;
export const OVERRIDE_GROUP = 5;
/** Known, but free to stand beside anything. */
export const M_ALONE = 6;

const G_GROUPS = groupTable(1000, [
  [ONE_SHOT, [40, 100, 280, 300, 530, 920, 921, 922, 923]],
  [MOTION_GROUP, [0, 10, 20, 30, 60, 330, 340, 350, 382, 800, 810, 820, 830, 840, 850, 860, 870, 880, 890]],
  [PLANE_GROUP, [170, 180, 190]],
  [DISTANCE_GROUP, [900, 910]],
  [FEED_MODE_GROUP, [930, 940, 950]],
  [RADIUS_GROUP, [400, 410, 420]],
  [LENGTH_GROUP, [430, 440, 490]],
  [RETURN_GROUP, [980, 990]],
  [OFFSET_GROUP, [540, 550, 560, 570, 580, 590, 591, 592, 593]],
  [PATH_GROUP, [600, 610, 611, 620, 640]],
  [SPEED_MODE_GROUP, [960, 970]],
  [ALONE, [80, 90, 630]],
]);

const M_GROUPS = groupTable(100, [
  [STOP_GROUP, [0, 1, 2, 30, 60]],
  [TOOL_GROUP, [6]],
  [SPINDLE_GROUP, [3, 4, 5, 13, 14, 19]],
  [COOLANT_GROUP, [7, 8, 9, 50, 51]],
  [OVERRIDE_GROUP, [48, 49]],
  [M_ALONE, [10, 11, 15, 16, 31, 36, 37, 38, 39, 40, 41, 42, 43, 44, 45, 55, 56, 61, 62, 71, 72]],
]);

/** The group of ten times a G number, NO_GROUP if the open definitions do not know it. */
export const groupOfG = (tenfold: number): number => G_GROUPS[tenfold] ?? NO_GROUP;

export const groupOfM = (number: number): number => M_GROUPS[number] ?? NO_GROUP;

/** Whether the engine carries a word out as the open definitions say, such as M05; some are known to it and change nothing, such as M10. */
export function isCarriedOut(letter: string, value: number): boolean {
  const group = letter === 'M' ? groupOfM(value) : letter === 'G' ? groupOfG(Math.round(value * 10)) : NO_GROUP;
  return group !== NO_GROUP && group !== (letter === 'M' ? M_ALONE : ALONE);
}

/** M codes that start the main spindle. */
export const startsSpindle = (code: number): boolean => code === 3 || code === 4 || code === 13 || code === 14;

/** G codes that use axis words for something else than a motion (NISTIR 6556 §3.4). */
export const usesAxisWords = (tenfold: number): boolean => tenfold === 100 || tenfold === 280 || tenfold === 300 || tenfold === 920;

export const isCycle = (motion: number): boolean => motion >= 81 && motion <= 89;

function groupTable(size: number, groups: ReadonlyArray<[number, readonly number[]]>): Uint8Array {
  const table = new Uint8Array(size);
  for (const [group, numbers] of groups) {
    for (const number of numbers) table[number] = group;
  }
  return table;
}
