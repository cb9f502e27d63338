/**
 * Programs for the proofs: blocks that the processes compose, for an invented
 * machine whose codes mean nothing anywhere else, read back and cut virtually.
 */
import type { MachineCard } from '../../../server/src/machine/card.ts';
import { machineCardSchema } from '../../../server/src/machine/card.ts';
import { dialectOf } from '../../../server/src/machine/dialect.ts';
import { composeText } from '../../../server/src/process/layout.ts';
import { processNamed } from '../../../server/src/process/processes.ts';
import type { ProvedStretch } from '../../../server/src/process/proof.ts';
import { proveProgram } from '../../../server/src/process/proof.ts';
import { readProgram } from '../../../server/src/program/index.ts';
import { finish } from './hobbing-jobs.ts';

export interface Machine {
  workRotation: 1 | -1;
  toolRotation: 1 | -1;
  hobSide: '+X' | '-X';
  units?: 'mm' | 'inch';
  diameterProgramming?: boolean;
  /** What the synchronising word says of the helix. */
  differential?: 'helix' | 'lead';
  /** A sub-spindle, with words of its own for its axis and for the coupling of hob and work. */
  sub?: NonNullable<MachineCard['subSpindle']>;
}

export const usualMachine: Machine = { workRotation: 1, toolRotation: 1, hobSide: '+X' };

export function inventedCard(machine: Machine = usualMachine, change: object = {}): MachineCard {
  return machineCardSchema.parse({
    name: 'Invented for tests',
    units: machine.units ?? 'mm',
    diameterProgramming: machine.diameterProgramming ?? true,
    decimals: 4,
    angleDecimals: 5,
    senses: { workRotation: machine.workRotation, toolRotation: machine.toolRotation, hobSide: machine.hobSide },
    rapids: { x: 15000, y: 10000, z: 20000, c: 30000 },
    codes: {
      feedPerMinute: 'G94',
      feedPerRevolution: 'G95',
      absolute: 'G90',
      syncOn: `G137 P{starts} Q{sense}{teeth} R{${machine.differential ?? 'helix'}}`,
      syncOff: 'G138',
      workAxisOn: 'M191',
      workAxisOff: 'M192',
      workClamp: 'M193',
      workUnclamp: 'M194',
      drivenStart: 'M123 S{rpm}',
      drivenReverse: 'M124 S{rpm}',
      drivenStop: 'M125',
      dwell: 'G04 P{seconds}',
      ...(machine.sub ? { subAxisOn: 'M291', subAxisOff: 'M292', subClamp: 'M293', subUnclamp: 'M294', subSyncOn: `G237 K{starts} L{sense}{teeth} R{${machine.differential ?? 'helix'}}`, subSyncOff: 'G238' } : {}),
    },
    ...(machine.sub ? { subSpindle: machine.sub } : {}),
    toolUnits: [
      { kind: 'hobbing', name: 'invented hob unit', ratio: 1 },
      { kind: 'stroke', name: 'invented stroke unit', leadIn: 2, leadOut: 2, ratio: 1 },
    ],
    ...change,
  });
}

/** The composed block between a safe start and the end of the program. */
export function composedProgram(process: string, raw: Record<string, string>, card: MachineCard): string {
  const setting = { units: card.units, card };
  const { lines, problems } = composeText(processNamed(process)!, raw, setting, { comment: card.comment, maxLineLength: card.maxLineLength });
  const wrong = problems.filter(({ severity }) => severity === 'error');
  if (wrong.length > 0) throw new Error(wrong.map(({ message }) => message).join(' '));
  const away = clearPlace(raw['SPINDLE'], card);
  return [card.units === 'mm' ? 'G21 G90 G94' : 'G20 G90 G94', 'T0101', away, ...lines, away, 'M30', ''].join('\n');
}

/** In front of the work, on the spindle that holds it. */
function clearPlace(spindle: string | undefined, { units, subSpindle }: MachineCard): string {
  const sign = spindle === 'SUB' && subSpindle?.zSense === -1 ? '-' : '';
  return units === 'mm' ? `G00 X400.0 Z${sign}200.0` : `G00 X16.0 Z${sign}8.0`;
}

export function prove(text: string, card: MachineCard): ProvedStretch[] {
  return finish(proveProgram(readProgram(text, dialectOf(card)), card));
}

/** The only stretch of a program, which must have been proved. */
export function provedStretch(text: string, card: MachineCard): ProvedStretch {
  const [stretch, ...others] = prove(text, card);
  if (!stretch || others.length > 0) throw new Error('The program must hold one stretch.');
  return stretch;
}

export function rulesOf(stretch: ProvedStretch): string[] {
  return (stretch.proof?.findings ?? []).map(({ rule }) => rule);
}

export function figure(stretch: ProvedStretch, id: string): { value: number; wanted?: number } {
  const found = stretch.proof?.figures.find((each) => each.id === id);
  if (!found) throw new Error(`${stretch.refused ?? ''} no figure ${id}: ${JSON.stringify(stretch.proof)}`);
  return found;
}
