/** What a KEYWAY or SLOTTING note and the machine card mean for the virtual cut of slots. */
import type { SlotStretch } from '../cut/slot-stretch.ts';
import { toolUnit } from '../machine/card.ts';
import { inchKeyForBore, metricKeyForBore } from '../trade/key-standards.ts';
import { evenlySpacedAnglesDegrees } from '../trade/clocking.ts';
import { degrees } from '../trade/angles.ts';
import { MILLIMETRES_PER_INCH } from '../trade/lengths.ts';
import { shown } from '../trade/quantity.ts';
import type { EvaluatedNote } from './program-notes.ts';
import { indexedSlotsOf } from './proof-of-indexed-slots.ts';
import { firstKeywayAngleDegrees } from './keyway.ts';
import { provedSense, spindleOf, workRotationAssumption } from './proof-on-side.ts';
import { assumedRapid, proofValues, type ProofValues } from './proof-values.ts';

export interface SlotProofJob {
  stretch: SlotStretch;
  assumptions: string[];
}

export function slotJobOf(evaluated: EvaluatedNote): SlotProofJob {
  const values = proofValues(evaluated);
  const made = evaluated.note.keyword === 'KEYWAY' ? keywayOf(evaluated, values) : indexedSlotsOf(values);
  return {
    stretch: { ...made, ...cutOf(evaluated, values) },
    assumptions: assumptionsOf(evaluated, values, made),
  };
}

type Made = Pick<SlotStretch, 'form' | 'anglesDegrees' | 'edge'>;

/** What the strokes of all slots have in common. */
function cutOf(evaluated: EvaluatedNote, values: ProofValues): Omit<SlotStretch, keyof Made> {
  const { card, units } = evaluated.setting;
  const spindle = spindleOf(evaluated.note);
  const outward = provedSense(card, spindle, 'zSense');
  const faceZ = values.length('FACE-Z') ?? 0;
  const farZ = faceZ - outward * (values.length('LENGTH') ?? NaN);
  const relief = values.length('RELIEF') ?? 0;
  return {
    units,
    bore: { radius: (values.length('BORE') ?? NaN) / 2, zHigh: Math.max(faceZ, farZ), zLow: Math.min(faceZ, farZ) },
    feedPerStroke: values.length('FEED') ?? NaN,
    workRotation: provedSense(card, spindle, 'workRotation'),
    rapidPerMinute: assumedRapid,
    ...(relief > 0 ? { reliefWallZ: farZ - outward * relief } : {}),
    ...(values.word('METHOD') === 'DRIVEN' ? { stroke: strokeOf(evaluated, values, outward) } : {}),
  };
}

function keywayOf(evaluated: EvaluatedNote, values: ProofValues): Made {
  const flatness = values.length('FLATNESS');
  const limits = [values.computedLength('widthLower') ?? NaN, values.computedLength('widthUpper') ?? NaN] as const;
  return {
    form: { kind: 'slot', leastWidth: limits[0], greatestWidth: limits[1], depth: (values.computedLength('overallDimension') ?? NaN) - (values.length('BORE') ?? NaN), ...(flatness === undefined ? {} : { flatness }) },
    anglesDegrees: evenlySpacedAnglesDegrees(values.number('COUNT') ?? 1, firstAngleDegrees(values)),
    edge: { insertWidth: insertWidth(evaluated, values, limits) },
  };
}

/** As the keyway itself counts it: from the tooth or the space to which it is clocked, where it is. */
function firstAngleDegrees(values: ProofValues): number {
  const target = values.word('CLOCK-TO');
  return firstKeywayAngleDegrees({
    ANGLE: values.number('ANGLE') ?? 0,
    'CLOCK-TO': target === 'TOOTH' || target === 'SPACE' ? target : 'NONE',
    'GEAR-TEETH': values.number('GEAR-TEETH'),
    'TOOTH-ANGLE': values.number('TOOTH-ANGLE'),
    'TOOTH-NO': values.number('TOOTH-NO') ?? 0,
  });
}

/** A full-form insert is ground to the class of the keyway, so it stands in the middle of the limits. */
function insertWidth(evaluated: EvaluatedNote, values: ProofValues, limits: readonly [number, number]): number {
  const given = values.length('INSERT');
  return given === undefined || given === nominalWidth(evaluated, values) ? (limits[0] + limits[1]) / 2 : given;
}

function nominalWidth({ setting }: EvaluatedNote, values: ProofValues): number {
  const bore = values.length('BORE') ?? NaN;
  const given = values.length('WIDTH');
  if (given !== undefined) return given;
  return setting.units === 'mm' ? metricKeyForBore(bore).width : inchKeyForBore(bore / MILLIMETRES_PER_INCH).width * MILLIMETRES_PER_INCH;
}

function strokeOf({ note, setting }: EvaluatedNote, values: ProofValues, outward: 1 | -1): { alongZ: number; perDriveTurn: number } {
  const isGiven = note.entries.some(({ name }) => name === 'RATIO');
  const unit = toolUnit(setting.card, 'stroke');
  return {
    alongZ: -outward * (values.computedLength('strokeLength') ?? NaN),
    perDriveTurn: (isGiven ? undefined : unit?.ratio) ?? values.number('RATIO') ?? 1,
  };
}

function assumptionsOf({ note, setting }: EvaluatedNote, values: ProofValues, { edge }: Made): string[] {
  const said: string[] = [];
  if (values.length('INSERT') === undefined) said.push(note.keyword === 'KEYWAY' ? 'The insert is as wide as the middle of the width limits: INSERT is not given.' : 'The insert is as wide as the slot asks: INSERT is not given.');
  if (edge.point) said.push(`The point of the insert includes ${shown(2 * degrees(Math.atan(1 / edge.point.fall)), 3)} degrees and stands square to X.`);
  if (values.word('METHOD') === 'DRIVEN') said.push('The unit is set to the stroke that the note comes to.');
  said.push(...workRotationAssumption(setting.card, spindleOf(note)));
  return said;
}
