/** What a KEYWAY note and the machine card mean for the virtual cut of a slot. */
import type { SlotStretch } from '../cut/slot-stretch.ts';
import { toolUnit } from '../machine/card.ts';
import { inchKeyForBore, metricKeyForBore } from '../trade/key-standards.ts';
import { evenlySpacedAnglesDegrees } from '../trade/clocking.ts';
import type { EvaluatedNote } from './program-notes.ts';
import { assumedRapid, proofValues, type ProofValues } from './proof-values.ts';

export interface SlotProofJob {
  stretch: SlotStretch;
  assumptions: string[];
}

const millimetresPerInch = 25.4;

export function slotJobOf(evaluated: EvaluatedNote): SlotProofJob {
  const values = proofValues(evaluated);
  const bore = values.length('BORE') ?? NaN;
  const faceZ = values.length('FACE-Z') ?? 0;
  const limits = [values.computedLength('widthLower') ?? NaN, values.computedLength('widthUpper') ?? NaN] as const;
  const { card } = evaluated.setting;
  return {
    stretch: {
      bore: { radius: bore / 2, zHigh: faceZ, zLow: faceZ - (values.length('LENGTH') ?? NaN) },
      leastWidth: limits[0],
      greatestWidth: limits[1],
      depth: (values.computedLength('overallDimension') ?? NaN) - bore,
      anglesDegrees: evenlySpacedAnglesDegrees(values.number('COUNT') ?? 1, values.number('ANGLE') ?? 0),
      insertWidth: insertWidth(evaluated, values, limits),
      feedPerStroke: values.length('FEED') ?? NaN,
      workRotation: card.senses.workRotation ?? 1,
      rapidPerMinute: assumedRapid,
      ...(values.word('METHOD') === 'DRIVEN' ? { stroke: strokeOf(evaluated, values) } : {}),
    },
    assumptions: assumptionsOf(evaluated, values),
  };
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
  return setting.units === 'mm' ? metricKeyForBore(bore).width : inchKeyForBore(bore / millimetresPerInch).width * millimetresPerInch;
}

function strokeOf({ note, setting }: EvaluatedNote, values: ProofValues): { alongZ: number; perDriveTurn: number } {
  const isGiven = note.entries.some(({ name }) => name === 'RATIO');
  const unit = toolUnit(setting.card, 'stroke');
  return {
    alongZ: -(values.computedLength('strokeLength') ?? NaN),
    perDriveTurn: (isGiven ? undefined : unit?.ratio) ?? values.number('RATIO') ?? 1,
  };
}

function assumptionsOf({ setting }: EvaluatedNote, values: ProofValues): string[] {
  const said: string[] = [];
  if (values.length('INSERT') === undefined) said.push('The insert is as wide as the middle of the width limits: INSERT is not given.');
  if (values.word('METHOD') === 'DRIVEN') said.push('The unit is set to the stroke that the note comes to.');
  if (setting.card.senses.workRotation === undefined) said.push('Growing C turns the work right-handed about +Z: senses.workRotation of the machine card is not given.');
  return said;
}
