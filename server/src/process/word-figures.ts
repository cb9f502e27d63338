import type { MachineCard } from '../machine/card.ts';
import type { Item, Program } from '../program/index.ts';
import type { Quantity } from '../trade/quantity.ts';

export function wordFigures(_program: Program, _line: number, _item: Item, _card: MachineCard): Quantity[] {
  return [];
}
