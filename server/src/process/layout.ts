/**
 * Turns a composed block into program text: the note around it, comments in the
 * card's style, sequence numbers that continue the program's, no line over the
 * limit. It knows nothing of any process.
 */
import type { MachineCard } from '../machine/card.ts';
import type { RawValues } from './fields.ts';
import { noteValues, readNotes, writeNoteEnd, writeNoteHead } from './note.ts';
import { isError, type BlockLine, type Composition, type Problem, type Process, type Setting, type Subprogram } from './process.ts';

export type CommentStyle = MachineCard['comment'];

/** How numbers go on: the first number for the block, the step, and the number after the block if there is one. */
export interface Numbering {
  first: number;
  step: number;
  before?: number;
}

export interface Layout {
  comment: CommentStyle;
  /** Longest line, characters; undefined where the machine card does not say it. */
  maxLineLength?: number | undefined;
  numbering?: Numbering;
}

/** The greatest sequence number of the open definition (RS274/NGC): five digits. */
const mostSequenceNumber = 99_999;

/** Where the machine card does not say how long a line may be. Common practice, no source. */
const usualLineLength = 80;

/** The lines of a whole block: note, blocks, closing note. Problems are of the layout alone. */
export function layOut(process: Process, raw: RawValues, lines: readonly BlockLine[], layout: Layout): { lines: string[]; problems: Problem[] } {
  const most = layout.maxLineLength ?? usualLineLength;
  const numbers = sequenceNumbers(lines.filter((line) => line.kind === 'block').length, layout.numbering);
  const head = writeNoteHead(process.keyword, raw, most - 2).map((text) => comment(text, layout.comment));
  const all = [...head, ...bodyOf(lines, layout, numbers), comment(writeNoteEnd(process.keyword), layout.comment)];
  return { lines: all, problems: [...unkeptValues(process.keyword, raw, head), ...all.flatMap((line) => lengthProblem(line, most))] };
}

/** The lines of a subprogram. They have no sequence numbers: its own number must come first, and the others are never needed. */
export function layOutSubprogram({ lines }: Subprogram, layout: Layout): { lines: string[]; problems: Problem[] } {
  const all = bodyOf(lines, layout, []);
  return { lines: all, problems: all.flatMap((line) => lengthProblem(line, layout.maxLineLength ?? usualLineLength)) };
}

/** Every line in the style of the program. `numbers` are used up block by block. */
function bodyOf(lines: readonly BlockLine[], layout: Layout, numbers: number[]): string[] {
  const room = (layout.maxLineLength ?? usualLineLength) - 2;
  return lines.flatMap((line) => (line.kind === 'comment'
    ? wrap(line.text, room).map((text) => comment(text, layout.comment))
    : [numbered(line.remark === undefined ? line.words : `${line.words} ${comment(line.remark, layout.comment)}`, numbers)]));
}

/** The note is read back as it will stand in the program: a value that a comment cannot hold must not change unseen. */
function unkeptValues(keyword: string, raw: RawValues, head: readonly string[]): Problem[] {
  const comments = head.map((text, line) => ({ line, start: 1, text: text.slice(1, text.startsWith('(') ? -1 : undefined) }));
  const [note] = readNotes(comments, [keyword], head.length);
  const kept = note === undefined ? {} : noteValues(note);
  return Object.entries(raw).filter(([name, value]) => kept[name] !== value).map(([name, value]) => ({
    parameter: name, rule: 'bad-value', severity: 'error', message: `${name}: ${value} cannot be kept in a comment of the program: it must be plain characters without parentheses and double quotes.`,
  }));
}

function lengthProblem(line: string, most: number): Problem[] {
  if (line.length <= most) return [];
  return [{ rule: 'line-too-long', severity: 'error', cardKey: 'maxLineLength', message: `"${line.slice(0, 30)}…" has ${line.length} characters; the machine card allows ${most}.` }];
}

/** Comment text cannot hold the marks that would end it, and nothing outside plain printable characters. */
export function comment(text: string, style: CommentStyle): string {
  const plain = text.replace(/[^\x20-\x7e]/g, '?');
  return style === 'semicolon' ? `;${plain}` : `(${plain.replaceAll('(', '[').replaceAll(')', ']')})`;
}

function wrap(text: string, room: number): string[] {
  const lines: string[] = [];
  let current = '';
  for (const word of text.split(' ')) {
    if (current !== '' && current.length + 1 + word.length > room) {
      lines.push(current);
      current = word;
    } else {
      current = current === '' ? word : `${current} ${word}`;
    }
  }
  return [...lines, current];
}

/** The numbers for so many blocks. Where they do not fit before the next number of the program there are none: a number is never needed. */
function sequenceNumbers(count: number, numbering: Numbering | undefined): number[] {
  if (!numbering) return [];
  const { first, step, before } = numbering;
  const end = before ?? mostSequenceNumber + 1;
  const startWith = (used: number) => first - step + used;
  const lastWith = (used: number) => startWith(used) + used * (count - 1);
  const fits = (used: number) => startWith(used) >= 0 && lastWith(used) < end && lastWith(used) <= mostSequenceNumber;
  const used = [step, 5, 2, 1].filter((each) => each <= step).find(fits);
  return used === undefined ? [] : Array.from({ length: count }, (_, index) => startWith(used) + index * used);
}

function numbered(words: string, numbers: number[]): string {
  const number = numbers.shift();
  return number === undefined ? words : `N${number} ${words}`;
}

/** A composed process as program text. */
export interface ComposedText {
  /** The block with its note; none where there is an error other than a hole. */
  lines: string[];
  /** The subprogram that the block calls; none where it calls none. */
  subprogram: string[];
  problems: Problem[];
}

/** Composes a process and lays it out. */
export function composeText(process: Process, raw: RawValues, setting: Setting, layout: Layout): ComposedText {
  return layOutAll(process, raw, process.compose(raw, setting), layout);
}

/** Lays out a composition with its subprogram, if it has one. */
export function layOutAll(process: Process, raw: RawValues, composition: Composition, layout: Layout): ComposedText {
  if (composition.lines.length === 0) return { lines: [], subprogram: [], problems: composition.problems };
  const block = layOut(process, raw, composition.lines, layout);
  const called = composition.subprogram ? layOutSubprogram(composition.subprogram, layout) : { lines: [], problems: [] };
  const problems = [...composition.problems, ...block.problems, ...called.problems];
  const refused = problems.some((problem) => isError(problem) && problem.rule !== 'hole');
  return refused ? { lines: [], subprogram: [], problems } : { lines: block.lines, subprogram: called.lines, problems };
}
