/**
 * Marks in sample programs. A mark stands on the line below the characters that
 * it is about, so that the marked line stays exactly as a control would read it:
 *
 *     S279 M03
 *     ^^^^ a label
 *
 * Several marks of one line stand on several lines below it. A caret is no
 * character of the language, so a line that opens with carets is never a block.
 */
export interface Mark {
  line: number;
  start: number;
  /** Exclusive. */
  end: number;
  label: string;
}

const markLine = /^(\s*)(\^+)(?: (.*))?$/;

/** Splits a sample into its program text and its marks. Indentation that all lines share is taken off. */
export function readMarks(sample: string): { text: string; marks: Mark[] } {
  const lines: string[] = [];
  const marks: Mark[] = [];
  for (const line of undented(sample)) {
    const match = markLine.exec(line);
    if (!match) {
      lines.push(line);
      continue;
    }
    const start = (match[1] ?? '').length;
    marks.push({ line: lines.length - 1, start, end: start + (match[2] ?? '').length, label: (match[3] ?? '').trim() });
  }
  return { text: lines.join('\n'), marks };
}

/** The lines between the first line end and the last one, without their common indentation. */
function undented(sample: string): string[] {
  const lines = sample.replace(/^\n/, '').replace(/\n[ \t]*$/, '').split('\n');
  const indents = lines.filter((line) => line.trim() !== '').map((line) => /^ */.exec(line)?.[0].length ?? 0);
  const shared = Math.min(...indents);
  return lines.map((line) => line.slice(shared));
}
