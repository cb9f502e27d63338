/** What an ENGRAVING note means for the proof of its block. */
import type { EngravingStretch } from '../cut/prove-engraving.ts';
import type { EvaluatedNote } from './program-notes.ts';
import { provedSense, spindleOf } from './proof-on-side.ts';
import { proofValues } from './proof-values.ts';

export function engravingStretchOf(evaluated: EvaluatedNote): EngravingStretch {
  const values = proofValues(evaluated);
  const isRound = values.word('SURFACE') === 'CYLINDER';
  return {
    surface: isRound ? { kind: 'cylinder', radius: (values.length('DIA') ?? NaN) / 2 } : { kind: 'face', z: values.length('FACE-Z') ?? 0, outward: provedSense(evaluated.setting.card, spindleOf(evaluated.note), 'zSense') },
    depth: values.length('DEPTH') ?? NaN,
  };
}
