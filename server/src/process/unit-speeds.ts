/**
 * How fast the units of a machine may turn, by its card: checks hold a speed
 * against it, and blocks stay within it when they round the speed of a word.
 */
import { toolUnit, type MachineCard } from '../machine/card.ts';

/** Speeds in rev/min; Infinity where the card says nothing. */
export interface SpeedRange {
  readonly least: number;
  readonly most: number;
}

/** Of the hob in step with the work. */
export function hobSpeeds(card: MachineCard): SpeedRange {
  const unit = toolUnit(card, 'hobbing');
  return { least: 0, most: Math.min(unit?.maxRpm ?? Infinity, card.limits.syncHobRpm ?? Infinity, driveRpm(card) / (unit?.ratio ?? 1)) };
}

/** Of the drive of a stroke unit that makes so many strokes a revolution. */
export function strokeDriveSpeeds(card: MachineCard, strokesPerRevolution: number): SpeedRange {
  const rate = toolUnit(card, 'stroke')?.maxStrokesPerMinute ?? Infinity;
  return { least: 0, most: Math.min(rate / strokesPerRevolution, driveRpm(card)) };
}

/** Of the engraving cutter. */
export function cutterSpeeds(card: MachineCard): SpeedRange {
  const unit = toolUnit(card, 'highSpeed');
  const [least, most] = unit?.rpm ?? [0, Infinity];
  return { least, most: Math.min(most, driveRpm(card) / (unit?.ratio ?? 1)) };
}

/** Of both spindles while they are coupled. */
export function coupledSpeeds({ limits, subSpindle }: MachineCard): SpeedRange {
  return { least: 0, most: Math.min(limits.mainSpindleRpm ?? Infinity, subSpindle?.maxRpm ?? Infinity) };
}

/** The speeds of the drive for those of what it drives by a ratio. */
export function ofDrive({ least, most }: SpeedRange, ratio: number): SpeedRange {
  return { least: least * ratio, most: most * ratio };
}

function driveRpm({ limits }: MachineCard): number {
  return limits.drivenToolRpm ?? Infinity;
}
