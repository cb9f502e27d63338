/** Programs of the assist tests, and the setting in which they are read. */
import type { ExplainSetting } from '../../../server/src/assist/explain.ts';
import type { MachineCard } from '../../../server/src/machine/card.ts';
import { dialectOf } from '../../../server/src/machine/dialect.ts';
import { readProgram, type Program } from '../../../server/src/program/index.ts';
import { inventedCard } from '../../invented-machine.ts';

export const inventedMachine = settingOf(inventedCard);

export function settingOf(card: MachineCard): ExplainSetting {
  return { card, dialect: dialectOf(card) };
}

export function programOf(text: string, setting: ExplainSetting = inventedMachine): Program {
  return readProgram(text, setting.dialect);
}
