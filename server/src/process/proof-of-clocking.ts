/**
 * How slots lie to the teeth of a gear that was hobbed earlier on the same work
 * with the same zero: the angle from each slot to the nearest tooth gap.
 */
import type { CutFigure, StretchProof } from '../cut/rules.ts';
import type { MachineCard } from '../machine/card.ts';
import { angleOnOther } from './proof-of-handover.ts';
import { senseOf, type Spindle } from './work-side.ts';

/** What a hobbing proof leaves for the slots after it. */
export interface CutTeeth {
  teeth: number;
  gapAngleDegrees: number;
  /** They were cut in the main spindle, and the part has changed hands since. */
  handedOver?: true;
}

export function teethOf({ figures }: StretchProof): CutTeeth | undefined {
  const gap = figures.find(({ id }) => id === 'gapAngle');
  const teeth = figures.find(({ id }) => id === 'teeth');
  return gap && teeth ? { teeth: teeth.value, gapAngleDegrees: gap.value } : undefined;
}

/** The same teeth in the sub-spindle, after a hand-over in a known phase. Senses of C: 1 right-handed about the direction that leaves the face. */
function handedOver(teeth: CutTeeth, phaseDegrees: number, mainRotation: 1 | -1, subRotation: 1 | -1): CutTeeth {
  const onMain = -mainRotation * teeth.gapAngleDegrees;
  const onSub = angleOnOther(onMain, phaseDegrees, (mainRotation * subRotation) as 1 | -1);
  return { teeth: teeth.teeth, gapAngleDegrees: -subRotation * onSub, handedOver: true };
}

/** The teeth that the part has, by the spindle and the work offset in which they were cut. */
export class KnownTeeth {
  private readonly inPlace = new Map<string, CutTeeth | undefined>();
  private onMain: CutTeeth | undefined;
  private onSub: CutTeeth | undefined;

  constructor(private readonly card: MachineCard) {}

  cut(spindle: Spindle, offset: number, teeth: CutTeeth | undefined): void {
    this.inPlace.set(`${spindle} ${offset}`, teeth);
    if (spindle === 'MAIN') this.onMain = teeth;
  }

  /** Without a known phase nothing of the main spindle can be found again. */
  changeHands(phaseDegrees: number | undefined): void {
    const [main, sub] = [senseOf(this.card, 'MAIN', 'workRotation'), senseOf(this.card, 'SUB', 'workRotation')];
    const isKnown = this.onMain !== undefined && phaseDegrees !== undefined && main !== undefined && sub !== undefined;
    if (isKnown) this.onSub = handedOver(this.onMain!, phaseDegrees, main, sub);
  }

  on(spindle: Spindle, offset: number): CutTeeth | undefined {
    return this.inPlace.get(`${spindle} ${offset}`) ?? (spindle === 'SUB' ? this.onSub : undefined);
  }
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
  return { ...proof, figures: [...proof.figures, ...clocking], assumptions: [...proof.assumptions, hobStandsReady, ...(teeth.handedOver ? [phaseIsKept] : [])] };
}

const hobStandsReady = 'When hob and work are coupled, a tooth of the hob points straight at the work: only then does the angle between slot and teeth hold.';

const phaseIsKept = 'The part is gripped in the phase of the coupling word, and C of the sub-spindle counts here from the same zero as in that word.';

function toNearestGap(slotDegrees: number, { teeth, gapAngleDegrees }: CutTeeth): number {
  const pitch = 360 / teeth;
  const difference = gapAngleDegrees - slotDegrees;
  return difference - pitch * Math.round(difference / pitch);
}
