/** The invented machine of the tests with a sub-spindle. Its codes exist on no control. */
import type { MachineCard } from '../../../server/src/machine/card.ts';
import { composeText } from '../../../server/src/process/layout.ts';
import type { Process, Setting } from '../../../server/src/process/process.ts';
import { inventedCard } from '../../invented-machine.ts';
import { values } from './figures.ts';

export const subCodes = {
  subAxisOn: 'M981', subAxisOff: 'M980', subClamp: 'M910', subUnclamp: 'M911',
  mainChuckOpen: 'M920', mainChuckClose: 'M921', subChuckOpen: 'M930', subChuckClose: 'M931',
  spindleSyncOn: 'M940 S{rpm} C{angle}', spindleSyncOff: 'M941', subRapid: 'M950 W{z}', subFeed: 'M951 W{z} F{feed}',
} as const satisfies MachineCard['codes'];

/** Words are plain machine axes, right-handed: the face in the sub-spindle looks to -Z, so -Z leaves it, and +Y is on the other side of somebody who looks at it. */
export const plainAxes = { zSense: -1, ySense: -1, workRotation: 1, maxRpm: 4000 } as const satisfies MachineCard['subSpindle'];

export const subCard: MachineCard = { ...inventedCard, codes: { ...inventedCard.codes, ...subCodes }, subSpindle: plainAxes };

export interface Composed {
  lines: string[];
  /** Lines that are no comments. */
  blocks: string[];
  comments: string[];
  problems: { parameter?: string; cardKey?: string; rule: string; severity: string; message: string }[];
}

export function composed(process: Process, text: string, card: MachineCard = inventedCard, units: Setting['units'] = 'mm'): Composed {
  const { lines, problems } = composeText(process, values(text), { units, card }, { comment: card.comment, maxLineLength: card.maxLineLength });
  return { lines, blocks: lines.filter((line) => !line.startsWith('(')), comments: lines.filter((line) => line.startsWith('(')), problems };
}

/** The number of a word of a block; NaN, which agrees with nothing, when it has none. */
export function numberIn(block: string, letter: string): number {
  return Number(new RegExp(`(?<![A-Z<])${letter}(-?[\\d.]+)`).exec(block)?.[1] ?? NaN);
}
