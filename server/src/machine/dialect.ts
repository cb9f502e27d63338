/**
 * Translates a machine card into the dialect that the program engine reads:
 * pure data, no card and no gear on the other side.
 */
import { openStandardDialect, type Dialect, type WordPattern } from '../program/index.ts';
import type { CodeName, MachineCard } from './card.ts';
import { openStandardCard } from './open-standard.ts';
import { templateWords, type Template } from './template.ts';

export function dialectOf(card: MachineCard): Dialect {
  return {
    ...openStandardDialect,
    units: card.units,
    diameterProgramming: card.diameterProgramming,
    xFeedOnDiameter: card.xFeedOnDiameter,
    incrementalAxes: card.incrementalAxes,
    meanings: card.meanings,
    patterns: Object.entries(card.codes).flatMap(([name, template]) => (isAsDefined(name, template) ? [] : patternsOf(name, template))),
    toolChange: 'T',
    ...(card.plane === undefined ? {} : { start: { plane: card.plane } }),
    ...(card.rapids ? { rapid: rapidsOf(card.rapids) } : {}),
  };
}

/**
 * Codes that the engine carries out by the open definitions. A pattern would take
 * their words away from it, so there is none where the card only repeats them.
 */
const definedCodes: readonly string[] = ['absolute', 'incremental', 'inverseTime', 'dwell', 'coolantOn', 'coolantOff'] satisfies CodeName[];

function isAsDefined(name: string, template: Template | undefined): boolean {
  if (!definedCodes.includes(name)) return false;
  return JSON.stringify(templateWords(template)) === JSON.stringify(templateWords(openStandardCard.codes[name as CodeName]));
}

/**
 * One pattern stands for the whole template: the block with the most slots, since
 * its numbers are what is read; the other blocks of an array only go with it.
 */
function patternsOf(name: string, template: Template | undefined): WordPattern[] {
  const blocks = templateWords(template);
  const slots = (words: (typeof blocks)[number]) => words.filter((word) => word.slot !== undefined).length;
  const [best] = [...blocks].sort((first, second) => slots(second) - slots(first));
  return best ? [{ name, words: best }] : [];
}

function rapidsOf(rapids: NonNullable<MachineCard['rapids']>): NonNullable<Dialect['rapid']> {
  return Object.fromEntries(Object.entries(rapids).filter(([, speed]) => speed !== undefined));
}
