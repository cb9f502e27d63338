/** What a proof came to, as plain text for a terminal and as plain data for other programs. */
import type { CutFigure, StretchProof } from '../cut/rules.ts';
import type { ProvedStretch } from '../process/proof.ts';
import { processKeywords } from '../process/processes.ts';
import { figure } from './figures.ts';

/** One stretch as the command line prints it with --json. Lines are 1-based, lengths in the program's units, angles in degrees. */
export function proofData({ process, fromLine, toLine, proof, refused }: ProvedStretch): object {
  return {
    process,
    fromLine: fromLine + 1,
    toLine: toLine + 1,
    ...(refused === undefined ? {} : { refused }),
    ...(proof ? { figures: proof.figures, assumptions: proof.assumptions, findings: proof.findings.map((each) => ({ ...each, line: each.line + 1 })) } : {}),
  };
}

const nothingToProve = `Nothing to prove: there is no note of a process (${processKeywords.join(', ')}), and no word that couples hob and work, as far as the machine card tells. A block without a note is not looked at.`;

export function proofText(file: string, stretches: readonly ProvedStretch[]): string {
  if (stretches.length === 0) return nothingToProve;
  return stretches.map((stretch) => stretchText(file, stretch)).join('\n\n');
}

function stretchText(file: string, { process, fromLine, toLine, proof, refused }: ProvedStretch): string {
  const head = `${process}, lines ${fromLine + 1} to ${toLine + 1}`;
  if (!proof) return `${head}: not proved\n${file}:${fromLine + 1} error not-proved ${refused ?? ''}`;
  const findings = proof.findings.map(({ line, severity, rule, message }) => `${file}:${line + 1} ${severity} ${rule} ${message}`);
  return [`${head}: ${verdictOn(process, proof)}`, ...findings, ...figureTable(proof.figures), ...proof.assumptions.map((each) => `  Taken for granted: ${each}`)].join('\n');
}

/** Warnings alone do not make a wrong part. */
function verdictOn(process: string, { findings }: StretchProof): string {
  const what = process === 'HANDOVER' ? 'hands the part over as the note asks' : 'cuts what the note asks for';
  if (findings.length === 0) return what;
  if (findings.some(({ severity }) => severity === 'error')) return process === 'HANDOVER' ? 'does not hand the part over as the note asks' : 'does not cut what the note asks for';
  return `${what}, with ${findings.length === 1 ? 'a warning' : `${findings.length} warnings`}`;
}

/** The measured value comes first, so that it is in sight in a narrow pane. */
function figureTable(figures: readonly CutFigure[]): string[] {
  const values = figures.map(({ value, unit, wanted }) => `${withUnit(value, unit)}${wanted === undefined ? '' : ` (wanted ${figure(wanted)})`}`);
  const width = Math.max(0, ...values.map(({ length }) => length));
  return figures.map(({ name }, index) => `  ${(values[index] ?? '').padEnd(width)}  ${name}`);
}

/** Four decimals of a millimetre, five of an inch: finer than the cut is computed. */
const decimals: Partial<Record<CutFigure['unit'], number>> = { mm: 4, inch: 5, deg: 4 };

function withUnit(value: number, unit: CutFigure['unit']): string {
  const shown = Number(value.toFixed(decimals[unit] ?? 6));
  return unit === '' || unit === 'teeth' ? figure(shown) : `${figure(shown)} ${unit}`;
}
