/**
 * Whether the places of a block are within the travel of the machine, where its
 * card gives one. It knows axes and no process: places come as their words say
 * them, in the units of the program.
 */
import { shown } from '../trade/quantity.ts';
import type { Problem, Setting } from './process.ts';
import { cardLength } from './words.ts';

/** Words are rounded from the very limit at times. */
const slack = 1e-9;

/** The first place beyond the travel of an axis, as a problem of the parameter that leads there. */
export function beyondTravel(parameter: string, axis: 'x' | 'y' | 'z', places: readonly number[], { card, units }: Setting): Problem[] {
  const [low = -Infinity, high = Infinity] = card.limits[axis]?.map((each) => cardLength(each, card, units)) ?? [];
  const outside = places.find((each) => each < low - slack || each > high + slack);
  if (outside === undefined) return [];
  const unit = units === 'mm' ? 'mm' : 'inch';
  return [{ parameter, rule: 'machine-limit', severity: 'error', message: `${parameter}: ${axis.toUpperCase()} would go to ${shown(outside, 3)}, which is beyond the machine: it must be from ${shown(low, 3)} to ${shown(high, 3)} ${unit}.` }];
}
