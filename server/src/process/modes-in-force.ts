/**
 * What a block cannot run under, of the modes that the program has set before
 * it: cutter compensation, a turning work spindle, constant surface speed. None
 * of it is put right in the block, since only the programmer knows what the
 * program wants behind it.
 *
 * Without a program, as on the command line, there are no modes and no problems.
 */
import type { MachineCard } from '../machine/card.ts';
import { codeWord } from '../machine/template.ts';
import type { ModesInForce, ModeWord, Problem, Setting } from './process.ts';

/** Which spindle a block turns as an axis, or that it couples both. */
export type SpindleUse = 'MAIN' | 'SUB' | 'COUPLED';

export function modeProblems({ modes, card }: Setting, use: SpindleUse): Problem[] {
  if (!modes) return [];
  return [...compensationProblems(modes), ...spindleProblems(modes, use, card), ...surfaceSpeedProblems(modes)];
}

function compensationProblems({ compensation }: ModesInForce): Problem[] {
  if (!compensation) return [];
  return [{ rule: 'compensation-in-force', severity: 'error', message: `${saidWhere(compensation)} is in force: cutter compensation would move the tool off the places of this block. G40 must stand before it.` }];
}

/**
 * Where the card has no word that starts the sub-spindle, nothing settles which
 * spindle M03 turns, so that it is objected to before blocks on either.
 */
function spindleProblems({ spindle, subSpindle, coupled, leftTurning }: ModesInForce, use: SpindleUse, { codes }: MachineCard): Problem[] {
  if (use === 'COUPLED') return [];
  if (coupled) return [coupledProblem(coupled, codes)];
  return [...startedProblems({ spindle, subSpindle }, use, codes), ...leftTurningProblems(leftTurning, use, codes)].slice(0, 1);
}

function startedProblems({ spindle, subSpindle }: Pick<ModesInForce, 'spindle' | 'subSpindle'>, use: SpindleUse, codes: MachineCard['codes']): Problem[] {
  const ofSub = use === 'SUB' && codeWord(codes.subStart) !== undefined;
  const turning = ofSub ? subSpindle : spindle;
  if (!turning) return [];
  const stop = ofSub ? (codeWord(codes.subStop) ?? 'Its stop word') : 'M05';
  return [{ rule: 'spindle-turning', severity: 'error', message: `${saidWhere(turning)} is in force: the block would take a turning spindle as the work axis. ${stop} must stand before it.` }];
}

/** Coupled spindles turn the work whatever was stopped before they were coupled. */
function coupledProblem(coupled: ModeWord, { spindleSyncOff }: MachineCard['codes']): Problem {
  return { rule: 'spindle-turning', severity: 'error', message: `${saidWhere(coupled)} is in force: both spindles are coupled and turn, and the block would take one of them as the work axis. ${codeWord(spindleSyncOff) ?? 'The end of the coupling'} must stand before it.` };
}

/**
 * Uncoupling stops nothing. Where the card has no word that stops the
 * sub-spindle, M05 is the only stop word that the program can hold.
 */
function leftTurningProblems(left: ModesInForce['leftTurning'], use: SpindleUse, { subStop }: MachineCard['codes']): Problem[] {
  if (!left) return [];
  const stopOfSub = use === 'SUB' ? codeWord(subStop) : undefined;
  const turns = use === 'MAIN' ? left.main : left.sub && (stopOfSub !== undefined || left.main);
  if (!turns) return [];
  const which = use === 'MAIN' ? 'main spindle' : 'sub-spindle';
  return [{ rule: 'spindle-turning', severity: 'error', message: `${saidWhere(left)} ended the coupling and stopped nothing: the ${which} turned until then, and the block would take it as the work axis. ${stopOfSub ?? 'M05'} must stand before it.` }];
}

/** Whether the S word of a driven tool follows G96 is settled by no standard, so this is said and not refused. */
function surfaceSpeedProblems({ surfaceSpeed }: ModesInForce): Problem[] {
  if (!surfaceSpeed) return [];
  return [{ rule: 'surface-speed-in-force', severity: 'warning', message: `${saidWhere(surfaceSpeed)} is in force: a control may take the S words of this block, which are rev/min, for a surface speed. Better G97 before it.` }];
}

function saidWhere({ word, line }: ModeWord): string {
  return line === undefined ? word : `${word} of line ${line + 1}`;
}
