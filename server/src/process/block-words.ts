/**
 * Blocks as lists of words that can be compared: what a process composes on one
 * side, what stands in the program on the other. Numbers compare by value, so
 * that G1 and G01, or X5. and X5.0, are the same word. Sequence numbers and
 * comments do not count.
 */
import { scanLine, type Item, type Program } from '../program/index.ts';
import { readKept, type KeptWords } from './kept.ts';

export interface BlockWord {
  /** As written. */
  text: string;
  /** Letter and plain number, or the text of what is no word. */
  same: string;
  letter: string;
  value: number | undefined;
  start: number;
  end: number;
}

export interface ProgramBlock {
  line: number;
  words: BlockWord[];
  kept: KeptWords;
}

/** The words of one line of text. */
export function wordsOf(items: readonly Item[]): BlockWord[] {
  return items.flatMap((item): BlockWord[] => {
    if (item.kind === 'comment' || item.kind === 'sequence' || item.kind === 'percent') return [];
    if (item.kind !== 'word') return [{ text: item.text, same: item.text.replaceAll(/\s/g, ''), letter: '', value: undefined, start: item.start, end: item.end }];
    const same = item.value === undefined ? item.text.replaceAll(/\s/g, '') : `${item.letter}${item.value}`;
    return [{ text: item.text, same, letter: item.letter, value: item.value, start: item.start, end: item.end }];
  });
}

/** The words of a composed block. */
export function composedWords(words: string): BlockWord[] {
  return wordsOf(scanLine(words));
}

/** The lines of the program that hold words, from a line up to and without another. */
export function programBlocks(program: Program, fromLine: number, toLine: number): ProgramBlock[] {
  const blocks: ProgramBlock[] = [];
  for (let line = fromLine; line < toLine; line += 1) {
    const items = program.items(line);
    const words = wordsOf(items);
    if (words.length > 0) blocks.push({ line, words, kept: readKept(items) });
  }
  return blocks;
}
