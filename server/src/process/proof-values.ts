/** The values of an evaluated note as the proofs need them: numbers in mm, words in upper case. */
import { MILLIMETRES_PER_INCH } from '../trade/lengths.ts';
import { noteValues } from './note.ts';
import type { EvaluatedNote } from './program-notes.ts';

export interface ProofValues {
  /** A length in mm; undefined when the note leaves it out and it has no default. */
  length(name: string): number | undefined;
  number(name: string): number | undefined;
  word(name: string): string | undefined;
  /** A computed length in mm; undefined when the process has none of that id. */
  computedLength(id: string): number | undefined;
}

/** The note must be free of errors. */
export function proofValues({ note, process, setting, evaluation }: EvaluatedNote): ProofValues {
  const values: Readonly<Record<string, unknown>> = process.valuesOf(noteValues(note), setting) ?? {};
  const factor = setting.units === 'inch' ? MILLIMETRES_PER_INCH : 1;
  const number = (name: string): number | undefined => (typeof values[name] === 'number' ? values[name] : undefined);
  const scaled = (value: number | undefined): number | undefined => (value === undefined ? undefined : value * factor);
  return {
    number,
    length: (name) => scaled(number(name)),
    word: (name) => (typeof values[name] === 'string' ? values[name] : undefined),
    computedLength: (id) => scaled(evaluation.quantities.find((quantity) => quantity.id === id)?.value),
  };
}

/** Speed of rapid moves where the card does not say it, in mm/min. It only decides how far the spindles turn meanwhile. */
export const assumedRapid = 10_000;
