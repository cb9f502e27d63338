import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { checkProgram } from '../../../server/src/assist/check.ts';
import { explain, type ExplainSetting } from '../../../server/src/assist/explain.ts';
import { explanationMarkdown } from '../../../server/src/assist/markdown.ts';
import { openStandardCard } from '../../../server/src/machine/open-standard.ts';
import { cardOf } from '../../invented-machine.ts';
import { programOf, settingOf } from './programs.ts';

const folder = (path: string) => fileURLToPath(new URL(`../../../${path}/`, import.meta.url));
const filesIn = (path: string, ending: RegExp) => readdirSync(folder(path)).filter((name) => ending.test(name)).map((name) => [name, readFileSync(folder(path) + name, 'utf8')] as const);

const published = filesIn('test/fixtures/nist', /\.ngc$/);
const demo = filesIn('client/demo', /\.nc$/);
const demoCard = filesIn('client/demo', /\.machine\.json$/).map(([, text]) => cardOf(text))[0];

/** Every character that is no white space is part of a word with a title, a source and a hover. Gives the number of words. */
function explainEveryWord(text: string, setting: ExplainSetting): number {
  const program = programOf(text, setting);
  let words = 0;
  for (let line = 0; line < program.lineCount; line += 1) {
    const characters = program.lineText(line);
    for (let at = 0; at < characters.length; at += 1) {
      if (/\s/.test(characters[at] ?? '')) continue;
      const found = explain(program, line, at, setting);
      const place = `line ${line + 1}, ${at + 1}: ${characters}`;
      if (!found) throw new Error(`nothing is said at ${place}`);
      // Right behind a name of a note the name is still meant.
      expect(found.start <= at && at <= found.end, place).toBe(true);
      for (const part of [found.title, found.source, explanationMarkdown(found)]) expect(part, place).toMatch(/\S/);
      expect(found.title).not.toMatch(/undefined|NaN/);
      if (found.start === at) words += 1;
      if (!isComment(characters[found.start])) at = Math.max(at, found.end - 1);
    }
  }
  return words;
}

/** A comment may hold a note, whose names are each explained: it is asked about at every character. */
function isComment(mark: string | undefined): boolean {
  return mark === '(' || mark === ';';
}

describe('every word is explained', () => {
  it.each(published)('of the published program %s', (_name, text) => {
    expect(explainEveryWord(text, settingOf(openStandardCard))).toBeGreaterThan(10);
  });

  it.each(demo)('of the demo program %s, with the demo card', (_name, text) => {
    expect(demoCard).toBeDefined();
    if (demoCard) expect(explainEveryWord(text, settingOf(demoCard))).toBeGreaterThan(100);
  });

  it.each(demo)('of the demo program %s, without a card', (_name, text) => {
    expect(explainEveryWord(text, settingOf(openStandardCard))).toBeGreaterThan(100);
  });

  it('there are six published programs and two of the demo, one of them in inches', () => {
    expect(published).toHaveLength(6);
    expect(demo.length).toBeGreaterThanOrEqual(2);
    expect(demo.filter(([, text]) => /^N?\d*\s*G20\b/m.test(text) || /\bG20\b/.test(text)).length).toBeGreaterThanOrEqual(1);
  });
});

describe('the demo', () => {
  it.each(demo)('%s has no error and no warning with its card', (_name, text) => {
    if (!demoCard) throw new Error('no demo card');
    const setting = settingOf(demoCard);
    const serious = checkProgram(programOf(text, setting), demoCard).filter(({ severity }) => severity !== 'information');
    expect(serious.map(({ line, rule, message }) => `${line + 1} ${rule} ${message}`)).toEqual([]);
  });
});
