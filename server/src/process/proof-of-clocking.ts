/**
 * How slots lie to the teeth of a gear that was hobbed earlier on the same work
 * with the same zero: the angle from each slot to the nearest tooth gap.
 */
import type { CutFigure, StretchProof } from '../cut/rules.ts';

/** What a hobbing proof leaves for the slots after it. */
export interface CutTeeth {
  teeth: number;
  gapAngleDegrees: number;
}

export function teethOf({ figures }: StretchProof): CutTeeth | undefined {
  const gap = figures.find(({ id }) => id === 'gapAngle');
  const teeth = figures.find(({ id }) => id === 'teeth');
  return gap && teeth ? { teeth: teeth.value, gapAngleDegrees: gap.value } : undefined;
}

/** The slot proof with the clocking of its slots added. `workRotation` is the sense of C: 1 right-handed about +Z. */
export function withClocking(proof: StretchProof, teeth: CutTeeth | undefined, workRotation: 1 | -1): StretchProof {
  const slots = proof.figures.filter(({ id }) => id.startsWith('slotAngle'));
  if (!teeth || slots.length === 0) return proof;
  const clocking = slots.map((slot, index): CutFigure => ({
    id: `slotToGap${index + 1}`,
    name: `angle from slot ${index + 1} to the nearest tooth gap, in the middle of the teeth`,
    value: toNearestGap(-workRotation * slot.value, teeth),
    unit: 'deg',
  }));
  return { ...proof, figures: [...proof.figures, ...clocking], assumptions: [...proof.assumptions, hobStandsReady] };
}

const hobStandsReady = 'When hob and work are coupled, a tooth of the hob points straight at the work: only then does the angle between slot and teeth hold.';

function toNearestGap(slotDegrees: number, { teeth, gapAngleDegrees }: CutTeeth): number {
  const pitch = 360 / teeth;
  const difference = gapAngleDegrees - slotDegrees;
  return difference - pitch * Math.round(difference / pitch);
}
