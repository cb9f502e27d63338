/**
 * What a word means by the templates of the machine card. The open definitions
 * give such a word another meaning, or none.
 */
import type { Dialect, Item, Meaning, PatternEvent, Word } from '../program/index.ts';
import { codeTitle, type CodeName } from './card.ts';
import { openStandardCard } from './open-standard.ts';
import { placeholderTitles, templateWords, type PlaceholderName } from './template.ts';

/**
 * The meaning of an item that belongs to one of the patterns found on its line.
 * Undefined where it belongs to none, and for a code word that the open
 * definitions explain themselves.
 */
export function meaningByCard(item: Item, events: readonly PatternEvent[], dialect: Dialect): Meaning | undefined {
  const event = events.find(({ start, end }) => start <= item.start && item.end <= end);
  const title = event && codeTitle(event.name);
  if (item.kind !== 'word' || !event || title === undefined) return undefined;
  const word = dialect.patterns.find(({ name }) => name === event.name)?.words.find(({ letter, value }) => letter === item.letter && (value === undefined || value === item.value));
  if (!word) return undefined;
  if (word.slot !== undefined) return { title: placeholderTitles[word.slot as PlaceholderName], detail: title, source: 'machine card' };
  return isOpenWord(event.name, item) ? undefined : { title: title.replace(/\.$/, ''), detail: '', source: 'machine card' };
}

/** Whether the open definitions have the very word for what the card's code does. */
function isOpenWord(code: string, { letter, value }: Word): boolean {
  return templateWords(openStandardCard.codes[code as CodeName]).flat().some((word) => word.letter === letter && word.value === value);
}
