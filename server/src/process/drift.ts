/**
 * Drift: where the block in the program no longer says what its note says, word
 * by word. Either may be right; this module only finds the differences and what
 * was marked as intended (kept.ts).
 */
import { diffArrays } from 'diff';
import type { Program } from '../program/index.ts';
import { composedWords, programBlocks, type BlockWord, type ProgramBlock } from './block-words.ts';
import { isKeptMark } from './kept.ts';
import { comment } from './layout.ts';
import type { ProcessNote } from './note.ts';
import { allLines, type BlockLine, type Composition } from './process.ts';
import { subprogramLines } from './subprogram-lines.ts';

export interface DriftWord {
  kind: 'changed' | 'added' | 'omitted';
  line: number;
  /** Where it stands; for an omitted word the end of the line before. */
  start: number;
  end: number;
  /** As written in the program; empty for an omitted word. */
  actual: string;
  /** What the note gives; empty for an added word. */
  wanted: string;
  /** Which word of the composed block it is, for those who solve for a parameter. */
  wantedAt?: { block: number; word: number };
}

export function blocksOf(lines: readonly BlockLine[]): BlockWord[][] {
  return lines.flatMap((line) => (line.kind === 'block' ? [composedWords(line.words)] : []));
}

/** What a note gives: its block, and the subprogram that the block calls. */
export type Given = Pick<Composition, 'lines' | 'subprogram'>;

/** Lines of the program beside the lines that the note gives for them. */
interface Piece {
  fromLine: number;
  toLine: number;
  lines: readonly BlockLine[];
  /** How many blocks the note gives before these. */
  blocksBefore: number;
}

/**
 * The differences between the block in the program, with the subprogram that it
 * calls, and what its note gives: `drift`, and what is marked as intended. None
 * where the note is not closed, since nobody can say where its block ends, and
 * none where it gives no block. A subprogram that is missing as a whole is the
 * matter of others.
 */
export function driftOf(program: Program, note: ProcessNote, given: Given): { drift: DriftWord[]; kept: DriftWord[] } {
  const both = piecesOf(program, note, given).map((piece) => driftOfPiece(program, piece));
  return { drift: both.flatMap(({ drift }) => drift), kept: both.flatMap(({ kept }) => kept) };
}

function driftOfPiece(program: Program, { fromLine, toLine, lines, blocksBefore }: Piece): { drift: DriftWord[]; kept: DriftWord[] } {
  const actual = programBlocks(program, fromLine, toLine);
  const all = differences(blocksOf(lines), actual, fromLine - 1).map((word) => placedFurther(word, blocksBefore));
  return { drift: all.filter((word) => !isKept(word, actual)), kept: all.filter((word) => isKept(word, actual)) };
}

function placedFurther(word: DriftWord, blocks: number): DriftWord {
  return word.wantedAt ? { ...word, wantedAt: { ...word.wantedAt, block: word.wantedAt.block + blocks } } : word;
}

function piecesOf(program: Program, note: ProcessNote, { lines, subprogram }: Given): Piece[] {
  if (note.endLine === undefined || lines.length === 0) return [];
  const block: Piece = { fromLine: note.headEndLine + 1, toLine: note.endLine, lines, blocksBefore: 0 };
  const called = subprogram && subprogramLines(program, subprogram.number);
  if (!subprogram || !called) return [block];
  return [block, { fromLine: called.fromLine, toLine: called.toLine, lines: subprogram.lines, blocksBefore: blocksOf(lines).length }];
}

/** Comments for the operator that the note gives and the block does not hold, such as a swivel that has changed since. */
export function staleComments(program: Program, note: ProcessNote, given: Given): string[] {
  return piecesOf(program, note, given).flatMap(({ fromLine, toLine, lines }) => {
    const held = commentText(program, fromLine, toLine);
    return commentsOf(lines).filter((text) => !held.includes(text));
  });
}

/** Comments in the block that the note does not give and that keep no words: the user's own. */
export function ownComments(program: Program, note: ProcessNote, given: Given): DriftWord[] {
  const all = commentsOf(allLines(given)).join(' ');
  return piecesOf(program, note, given).flatMap(({ fromLine, toLine }) => commentsBeside(all, program, fromLine, toLine));
}

function commentsBeside(all: string, program: Program, fromLine: number, toLine: number): DriftWord[] {
  const found: DriftWord[] = [];
  for (let line = fromLine; line < toLine; line += 1) {
    for (const item of program.items(line)) {
      if (item.kind !== 'comment' || isKeptMark(item.text) || all.includes(item.text.trim())) continue;
      found.push({ kind: 'added', line, start: item.start, end: item.end, actual: program.lineText(line).slice(item.start, item.end), wanted: '' });
    }
  }
  return found;
}

/** The operator's comments as the program holds them: without the characters that a comment cannot hold. */
function commentsOf(lines: readonly BlockLine[]): string[] {
  return lines.flatMap((line) => (line.kind === 'comment' ? [comment(line.text, 'parentheses').slice(1, -1)] : []));
}

/** All comment text in one run, since a long comment is wrapped over lines. */
function commentText(program: Program, fromLine: number, toLine: number): string {
  const texts: string[] = [];
  for (let line = fromLine; line < toLine; line += 1) {
    for (const item of program.items(line)) if (item.kind === 'comment') texts.push(item.text.trim());
  }
  return texts.join(' ');
}

/**
 * Lines of the same shape hold the two sides together, so that other figures
 * everywhere do not tear a block apart; what lies between is paired in order.
 */
function differences(wanted: readonly BlockWord[][], actual: readonly ProgramBlock[], lineBefore: number): DriftWord[] {
  const parts = diffArrays(wanted.map(shapeOf), actual.map(({ words }) => shapeOf(words)));
  const found: DriftWord[] = [];
  let [block, row] = [0, 0];
  let missing: number[] = [];
  const pair = (blocks: readonly number[], rows: readonly ProgramBlock[]) => {
    for (let index = 0; index < Math.max(blocks.length, rows.length); index += 1) {
      const before = rows[Math.min(index, rows.length - 1)] ?? actual[row - 1];
      found.push(...pairDifferences(wanted, blocks[index], rows[index], before, lineBefore));
    }
  };
  const blocksFrom = (count: number) => Array.from({ length: count }, (_, index) => block + index);
  for (const { value, added, removed } of parts) {
    if (removed) missing = blocksFrom(value.length);
    else {
      if (!added) pair(missing, []);
      pair(added ? missing : blocksFrom(value.length), actual.slice(row, row + value.length));
      missing = [];
      row += value.length;
    }
    if (!added) block += value.length;
  }
  pair(missing, []);
  return found;
}

/** Codes count with their number, other words by their letter. */
function shapeOf(words: readonly BlockWord[]): string {
  return words.map(({ letter, same }) => (letter === '' || letter === 'G' || letter === 'M' ? same : letter)).join(' ');
}

function pairDifferences(wanted: readonly BlockWord[][], block: number | undefined, present: ProgramBlock | undefined, before: ProgramBlock | undefined, lineBefore: number): DriftWord[] {
  const wantedWords = block === undefined ? [] : (wanted[block] ?? []);
  const own = present?.words ?? [];
  const end = (present ?? before)?.words.at(-1)?.end ?? 0;
  const line = (present ?? before)?.line ?? lineBefore;
  const left = own.filter((word) => !wantedWords.some(({ same }) => same === word.same));
  const open = wantedWords.map((word, index) => ({ word, index })).filter(({ word }) => !own.some(({ same }) => same === word.same));
  const changed = open.flatMap(({ word, index }) => {
    const partner = left.find((each) => each.letter === word.letter && each.letter !== '');
    if (partner) left.splice(left.indexOf(partner), 1);
    const at = { block: block ?? 0, word: index };
    return [partner ? driftWord('changed', line, partner, word.text, at) : { kind: 'omitted' as const, line, start: end, end, actual: '', wanted: word.text, wantedAt: at }];
  });
  return [...changed, ...left.map((word) => driftWord('added', line, word, ''))];
}

function driftWord(kind: DriftWord['kind'], line: number, word: BlockWord, wanted: string, wantedAt?: DriftWord['wantedAt']): DriftWord {
  return { kind, line, start: word.start, end: word.end, actual: word.text, wanted, ...(wantedAt ? { wantedAt } : {}) };
}

function isKept({ kind, line, actual, wanted }: DriftWord, blocks: readonly ProgramBlock[]): boolean {
  const kept = blocks.find((block) => block.line === line)?.kept;
  if (!kept) return false;
  return kind === 'changed' ? kept.changed.has(bare(wanted)) : kind === 'added' ? kept.added.has(bare(actual)) : kept.omitted.has(bare(wanted));
}

/** A word without inner white space, as a mark holds it. */
export function bare(text: string): string {
  return text.replaceAll(/\s/g, '').toUpperCase();
}

/** One sentence on a difference. */
export function driftMessage({ kind, actual, wanted }: DriftWord, keyword: string): string {
  if (kind === 'changed') return `${actual}: the ${keyword} note gives ${wanted}.`;
  if (kind === 'added') return `${actual} is not in the block that the ${keyword} note gives.`;
  return `${wanted} of the block that the ${keyword} note gives is missing here.`;
}

/** What goes when the block is made anew: the user's word and its line. */
export function driftInWords({ kind, actual, wanted, line }: DriftWord): string {
  const place = `line ${line + 1}`;
  if (kind === 'omitted') return `${wanted} left out (${place})`;
  return kind === 'changed' ? `${actual} instead of ${wanted} (${place})` : `${actual} (${place})`;
}
