/** Invented cards that say how subprograms are called, and programs whose slots go through one. */
import type { MachineCard } from '../../../server/src/machine/card.ts';
import { composeText } from '../../../server/src/process/layout.ts';
import type { Process } from '../../../server/src/process/process.ts';
import { inventedCard } from '../../invented-machine.ts';

/** Words that exist on no control. */
export const callingCard: MachineCard = {
  ...inventedCard,
  incrementalAxes: { U: 'X', W: 'Z' },
  codes: { ...inventedCard.codes, subprogramStart: 'O{program}', subprogramCall: 'M898 P{program} L{repeats}', subprogramReturn: 'M899' },
  subprograms: { place: 'behindEnd', numbers: [8000, 8099], incrementalXOnDiameter: true },
};

/** A whole program with the block in it, and the subprogram behind its end where there is one. */
export function programOf(process: Process, raw: Readonly<Record<string, string>>, card: MachineCard): string {
  const setting = { units: card.units, card };
  const { lines, subprogram, problems } = composeText(process, raw, setting, { comment: card.comment, maxLineLength: card.maxLineLength });
  const wrong = problems.filter(({ severity }) => severity === 'error');
  if (wrong.length > 0) throw new Error(wrong.map(({ message }) => message).join(' '));
  const [units, away] = card.units === 'mm' ? ['G21', 'G00 X400.0 Z200.0'] : ['G20', 'G00 X16.0 Z8.0'];
  return ['%', 'O100', `${units} G90 G94 G18`, 'T0101', away, ...lines, away, 'M30', ...subprogram, '%', ''].join('\n');
}
