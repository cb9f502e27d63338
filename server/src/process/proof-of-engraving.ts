/** What an ENGRAVING note and the machine card mean for the proof of its block. */
import type { EngravingStretch } from '../cut/engraving-stretch.ts';
import type { EvaluatedNote } from './program-notes.ts';
import { provedSense, spindleOf } from './proof-on-side.ts';
import { proofValues } from './proof-values.ts';

/** Places count from the face of the work, so the steps must be turned into such axes too. */
export function engravingStretchOf(evaluated: EvaluatedNote): EngravingStretch {
  const values = proofValues(evaluated);
  const { card, units } = evaluated.setting;
  const spindle = spindleOf(evaluated.note);
  const z = (name: string): number => provedSense(card, spindle, 'zSense') * (values.length(name) ?? 0);
  const isRound = values.word('SURFACE') === 'CYLINDER';
  return {
    units,
    surface: isRound
      ? { kind: 'cylinder', radius: (values.length('DIA') ?? NaN) / 2, baselineZ: z('AT-Z') }
      : { kind: 'face', z: z('FACE-Z'), baselineRadius: (values.length('AT-X') ?? 0) / (card.diameterProgramming ? 2 : 1) },
    text: values.word('TEXT') ?? '',
    height: values.length('HEIGHT') ?? NaN,
    depth: values.length('DEPTH') ?? NaN,
    angleDegrees: values.number('ANGLE') ?? 0,
    workRotation: provedSense(card, spindle, 'workRotation'),
    tipDiameter: values.length('TIP-DIA') ?? NaN,
    tipAngleDegrees: values.number('TIP-ANGLE') ?? NaN,
  };
}
