import { createRequire } from 'node:module';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { explain, type Explanation } from '../../../server/src/assist/explain.ts';
import { escaped, explanationMarkdown } from '../../../server/src/assist/markdown.ts';
import { inventedMachine, programOf } from './programs.ts';

interface Token { type: string; content: string; children: Token[] | null }
interface MarkdownLibrary { linkify: { set(options: object): void }; parse(text: string, environment: object): Token[] }

/** A CommonMark library that comes with the packager. Raw HTML and bare links are on, so that what is not escaped shows. */
function markdownLibrary(): MarkdownLibrary {
  const here = createRequire(import.meta.url);
  const make = createRequire(here.resolve('@vscode/vsce/vsce'))('markdown-it') as (options: object) => MarkdownLibrary;
  const made = make({ html: true, linkify: true });
  // Editors make links of addresses with a scheme, of www and of mail, not of every word with a point in it.
  made.linkify.set({ fuzzyLink: false, fuzzyEmail: true });
  return made;
}

const library = markdownLibrary();

/** Every token of a rendered text, with those inside it. */
function tokens(markdown: string): Token[] {
  return library.parse(markdown, {}).flatMap((token) => [token, ...(token.children ?? [])]);
}

/** Types of tokens that plain text never makes. */
function markupIn(markdown: string): string[] {
  return [...new Set(tokens(markdown).map(({ type }) => type))].filter((type) => !['paragraph_open', 'paragraph_close', 'inline', 'text', 'text_special'].includes(type));
}

const nasty = [
  '[click](command:x)', '![x](http://x/y.png)', '<img src=x onerror=alert(1)>', '<!-- x', '**bold**', '_it_', '`code`', '# head', '| a | b |', '$(alert)', '~~x~~',
  'http://example.org', 'www.example.org', 'a@example.org', '&lt;', '&#60;', '\\', '\\[', ']', '](', '\n# x', '\r\n- x', '\t', '\u0000', '\ud800', '\udc00', '{{x}}', '<a href="x">', '1. x', '- x', '> x', '===', '```', '\u2028',
];
const programText = fc.array(fc.oneof(fc.constantFrom(...nasty), fc.string({ unit: 'binary', maxLength: 8 })), { maxLength: 8 }).map((parts) => parts.join(''));

describe('escaped text', () => {
  it.each(nasty)('%j is no markup', (text) => expect(markupIn(`x ${escaped(text)} x`)).toEqual([]));

  it('of any kind is no markup inside a line', () => {
    fc.assert(fc.property(programText, (text) => {
      expect(markupIn(`x ${escaped(text)} x`)).toEqual([]);
    }), { numRuns: 500 });
  });

  it('reads the same after rendering, but for control characters and lone surrogates', () => {
    fc.assert(fc.property(fc.string({ unit: fc.constantFrom(...'ABCxyz 019.-+*_`<>&[](){}#|~$\\!@:/;=%\u00b5\ud83d\ude00') }), (text) => {
      const shown = tokens(`x${escaped(text)}x`).filter(({ type }) => type === 'text' || type === 'text_special').map(({ content }) => content).join('');
      expect(shown).toBe(`x${text.replace(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, '?')}x`);
    }));
  });

  it('never begins an address', () => {
    expect(escaped('WWW.x.org http://x a@b')).toBe('WWW&#46;x.org http&#58;//x a&#64;b'.replace('WWW', 'www'));
  });

  it('keeps figures as they are', () => {
    expect(escaped('-17.37154 deg (0.5 mm)')).toBe('-17.37154 deg (0.5 mm)');
  });
});

const lead = { id: 'syncRatio', name: 'work revolutions per hob revolution', symbol: 'z0/z', value: 1 / 24, unit: '', working: 'z0 / z = 1 / 24', source: 'kinematics (derived)' };
const second = { ...lead, id: 'workRpm', name: 'speed of the work', symbol: 'n_w', value: 11.605, unit: 'rpm' };
const sample: Explanation = {
  word: 'S279', start: 0, end: 4, title: 'Speed', meaning: 'Revolutions.', source: 'NISTIR 6556', process: 'Hobbing', quantities: [lead, second], governed: 2, context: [{ label: 'units', value: 'mm' }], problems: [],
};

describe('a hover', () => {
  it('leads with the governed figure, large, then a table, the working and the source', () => {
    expect(explanationMarkdown(sample)).toBe([
      '### 1/24 (0.0416667)', '**Work revolutions per hob revolution**', '| | |\n|:--|--:|\n| Speed of the work | 11.605 rpm |', 'z0 / z = 1 / 24', '*Source: kinematics (derived)*', '---',
      '**S279** Speed. Revolutions. *NISTIR 6556*', 'units mm',
    ].join('\n\n'));
  });

  it('leads with the word where it governs no figure', () => {
    expect(explanationMarkdown({ ...sample, quantities: [], governed: 0 })).toBe('#### S279: Speed\n\nRevolutions. *NISTIR 6556*\n\nunits mm');
  });

  it('says problems before the figures', () => {
    const markdown = explanationMarkdown({ ...sample, problems: [{ rule: 'bad-value', severity: 'error', message: 'TEETH: 0 is <b>not</b> allowed' }] });
    expect(markdown.split('\n\n')[2]).toBe('**Error:** TEETH: 0 is &lt;b&gt;not&lt;/b&gt; allowed');
  });

  it('stays short, whatever it is about', () => {
    const long = 'x'.repeat(100_000);
    expect(explanationMarkdown({ ...sample, word: long, quantities: Array.from({ length: 50 }, () => second), governed: 50, context: Array.from({ length: 50 }, () => ({ label: 'a', value: 'b' })) }).length).toBeLessThan(2000);
  });

  it('on program text of any kind has no links, images, HTML or code', () => {
    const template = fc.constantFrom('(?)', 'G01 ?', '<?>', '#?=1', ';?', '(HOBBING: ?=1)', '(HOBBING: MODULE=?)', '(HOBBING: TEETH="?")\n(END HOBBING)', '%?', 'O?');
    fc.assert(fc.property(template, programText, fc.nat(40), (around, text, character) => {
      const program = programOf(around.replace('?', () => text));
      for (let line = 0; line < program.lineCount; line += 1) {
        const explanation = explain(program, line, Math.min(character, program.lineText(line).length), inventedMachine);
        if (!explanation) continue;
        expect(markupIn(explanationMarkdown(explanation)).filter((type) => /link|image|html|code|fence|list|blockquote|^hardbreak/.test(type))).toEqual([]);
      }
    }), { numRuns: 500 });
  });
});
