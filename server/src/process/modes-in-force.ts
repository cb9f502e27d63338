/**
 * What a block cannot run under, of the modes that the program has set before
 * it: cutter compensation, a turning work spindle, constant surface speed. None
 * of it is put right in the block, since only the programmer knows what the
 * program wants behind it.
 *
 * Without a program, as on the command line, there are no modes and no problems.
 */
import type { ModesInForce, ModeWord, Problem, Setting } from './process.ts';

/** What a block does with the spindle of the work: turns it as an axis, or couples it to the other one. */
export type SpindleUse = 'workAxis' | 'coupled';

export function modeProblems({ modes }: Setting, use: SpindleUse): Problem[] {
  if (!modes) return [];
  return [...compensationProblems(modes), ...(use === 'workAxis' ? spindleProblems(modes) : []), ...surfaceSpeedProblems(modes)];
}

function compensationProblems({ compensation }: ModesInForce): Problem[] {
  if (!compensation) return [];
  return [{ rule: 'compensation-in-force', severity: 'error', message: `${saidWhere(compensation)} is in force: cutter compensation would move the tool off the places of this block. G40 must stand before it.` }];
}

function spindleProblems({ spindle }: ModesInForce): Problem[] {
  if (!spindle) return [];
  return [{ rule: 'spindle-turning', severity: 'error', message: `${saidWhere(spindle)} is in force: the block would take a turning spindle as the work axis. M05 must stand before it.` }];
}

/** Whether the S word of a driven tool follows G96 is settled by no standard, so this is said and not refused. */
function surfaceSpeedProblems({ surfaceSpeed }: ModesInForce): Problem[] {
  if (!surfaceSpeed) return [];
  return [{ rule: 'surface-speed-in-force', severity: 'warning', message: `${saidWhere(surfaceSpeed)} is in force: a control may take the S words of this block, which are rev/min, for a surface speed. Better G97 before it.` }];
}

function saidWhere({ word, line }: ModeWord): string {
  return line === undefined ? word : `${word} of line ${line + 1}`;
}
