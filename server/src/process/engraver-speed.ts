/**
 * Whether a speed of the driven-tool drive is one at which the machine engraves:
 * within the speeds of the card's fast spindle, or, where the card gives it none,
 * near the greatest speed of the driven tools. A card that says neither leaves it open.
 */
import { toolUnit, type MachineCard } from '../machine/card.ts';
import { shown } from '../trade/quantity.ts';

/** Common practice, no source. */
const highShare = 0.8;
/** Composed speeds are rounded to whole revolutions of the drive. */
const roundingShare = 0.01;

/** What makes it one, in words; undefined where it is none. */
export function engraverSpeedInWords(driveRpm: number, card: MachineCard): string | undefined {
  const unit = toolUnit(card, 'highSpeed');
  return unit?.rpm ? inUnit(driveRpm / unit.ratio, unit.rpm, unit.name) : nearLimit(driveRpm, card.limits.drivenToolRpm);
}

function inUnit(rpm: number, [low, high]: readonly [number, number], name: string): string | undefined {
  const isWithin = rpm >= low * (1 - roundingShare) && rpm <= high * (1 + roundingShare);
  return isWithin ? `which is ${shown(rpm, 0)} of the cutter in the card's ${name}` : undefined;
}

function nearLimit(driveRpm: number, most: number | undefined): string | undefined {
  if (most === undefined || driveRpm < highShare * most) return undefined;
  return `near the ${shown(most)} that the driven tools reach`;
}
