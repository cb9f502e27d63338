/** The invented machine of the tests, as a file, as text and as a card. Its codes exist on no control. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { MachineCard } from '../server/src/machine/card.ts';
import { readCard } from '../server/src/machine/read-card.ts';

export const inventedCardFile = fileURLToPath(new URL('fixtures/machine/invented-lathe.machine.json', import.meta.url));
export const inventedCardText = readFileSync(inventedCardFile, 'utf8');
export const inventedCard = cardOf(inventedCardText);

/** Reads a card that has to be right. */
export function cardOf(text: string): MachineCard {
  const { card, problems } = readCard(text);
  if (!card) throw new Error(problems.map(({ path, message }) => `${path}: ${message}`).join('\n'));
  return card;
}

/** The invented card with other codes; an undefined one is left out. */
export function withCodes(codes: Partial<Record<keyof MachineCard['codes'], string | string[] | undefined>>): MachineCard {
  return { ...inventedCard, codes: { ...inventedCard.codes, ...codes } };
}
