/** What a proof came to, as plain text for a terminal and as plain data for other programs. */
import type { CutFigure } from '../cut/rules.ts';
import type { ProvedStretch } from '../process/proof.ts';
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

export function proofText(file: string, stretches: readonly ProvedStretch[]): string {
  if (stretches.length === 0) return 'No block with a note of a process that can be proved.';
  return stretches.map((stretch) => stretchText(file, stretch)).join('\n\n');
}

function stretchText(file: string, { process, fromLine, toLine, proof, refused }: ProvedStretch): string {
  const head = `${process}, lines ${fromLine + 1} to ${toLine + 1}`;
  if (!proof) return `${head}: not proved\n${file}:${fromLine + 1} error not-proved ${refused ?? ''}`;
  const verdict = proof.findings.length === 0 ? 'cuts what the note asks for' : 'does not cut what the note asks for';
  const findings = proof.findings.map(({ line, severity, rule, message }) => `${file}:${line + 1} ${severity} ${rule} ${message}`);
  return [`${head}: ${verdict}`, ...findings, ...figureTable(proof.figures), ...proof.assumptions.map((each) => `  Taken for granted: ${each}`)].join('\n');
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
