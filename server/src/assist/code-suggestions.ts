/**
 * The G and M words that a control knows, as a list to look a word up in: what
 * the machine card says comes before what the open definitions say. Nothing
 * else of a block is suggested, because a wrong word that slips in by the Enter
 * key moves a machine.
 */
import { codeTitle } from '../machine/card.ts';
import { codesWithMeaning, meaningOf, type Dialect, type Meaning, type ModalState, type Program } from '../program/index.ts';
import type { Suggestion, SuggestionSetting } from './suggestion.ts';

const codeBeforeCursor = /(?<![A-Za-z#<])([GgMm])[\d.]*$/;

export function codeSuggestions(program: Program, line: number, character: number, { dialect }: SuggestionSetting): Suggestion[] {
  const text = line < program.lineCount ? program.lineText(line) : '';
  const match = codeBeforeCursor.exec(text.slice(0, character));
  const typed = match?.[1];
  if (!match || typed === undefined) return [];
  const letter = typed.toUpperCase() as 'G' | 'M';
  const end = character + (/^[\d.]*/.exec(text.slice(character))?.[0].length ?? 0);
  const state = program.stateBefore(line);
  return numbersOf(letter, dialect).map((number) => {
    const { title, detail, source } = meaningOfCode(letter, number, state, dialect);
    return { kind: 'code', text: typed + padded(number), start: match.index, end, title, about: [detail, `Source: ${source}.`].filter((part) => part !== '').join(' ') };
  });
}

function numbersOf(letter: 'G' | 'M', dialect: Dialect): number[] {
  const ofTemplates = dialect.patterns.flatMap(({ words }) => words.flatMap((word) => (word.letter === letter && word.value !== undefined ? [word.value] : [])));
  return [...new Set([...codesWithMeaning(letter, dialect), ...ofTemplates])].sort((first, second) => first - second);
}

function meaningOfCode(letter: 'G' | 'M', value: number, state: ModalState, dialect: Dialect): Meaning {
  const text = letter + padded(value);
  const open = meaningOf({ kind: 'word', letter, value, text, start: 0, end: text.length, valueStart: 1, pointed: false }, state, dialect);
  return open.source === 'machine card' ? open : (meaningByTemplate(letter, value, dialect) ?? open);
}

function meaningByTemplate(letter: string, value: number, dialect: Dialect): Meaning | undefined {
  const pattern = dialect.patterns.find(({ words }) => words.some((word) => word.letter === letter && word.value === value));
  const title = pattern && codeTitle(pattern.name);
  return title === undefined ? undefined : { title: title.replace(/\.$/, ''), detail: '', source: 'machine card' };
}

/** Two digits before a point, as most programs write them. */
function padded(value: number): string {
  const [whole = '', part] = String(value).split('.');
  return whole.padStart(2, '0') + (part === undefined ? '' : `.${part}`);
}
