/**
 * What is wrong with the subprogram that a block calls, where the program does
 * not hold it as a whole: nobody can say then what the call runs.
 */
import type { Program } from '../program/index.ts';
import type { Composition, Problem } from './process.ts';
import { subprogramLines } from './subprogram-lines.ts';

export function calledProblems(program: Program, { subprogram }: Pick<Composition, 'subprogram'>): Problem[] {
  if (!subprogram) return [];
  const { number } = subprogram;
  const lines = subprogramLines(program, number);
  if (!lines) return [problem('subprogram-missing', `PROGRAM: subprogram ${number}, which the block calls, is not in this file. Make the block anew to put it in.`)];
  if (lines.isTwice) return [problem('subprogram-missing', `PROGRAM: ${number} is the number of more than one program of this file: it is not known which one the control runs.`)];
  return lines.returns ? [] : [problem('subprogram-open', `PROGRAM: subprogram ${number} of line ${lines.fromLine + 1} has no return: the control would go on with what stands behind it.`)];
}

function problem(rule: Problem['rule'], message: string): Problem {
  return { parameter: 'PROGRAM', rule, severity: 'error', message };
}
