import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CodeName } from '../../../server/src/machine/card.ts';
import { dialectOf } from '../../../server/src/machine/dialect.ts';
import { placeholderNames, placeholdersOf, templateFault, templateWords, writeTemplate, type Figures, type PlaceholderName } from '../../../server/src/machine/template.ts';
import { readProgram } from '../../../server/src/program/index.ts';
import { inventedCard } from '../../invented-machine.ts';

describe('writing a template', () => {
  it.each<[string, string | string[] | undefined, Figures, string[]]>([
    ['fills in the figures', 'G881 P{starts} Q{sense}{teeth}', { starts: '1', teeth: '24', sense: '-' }, ['G881 P1 Q-24']],
    ['writes one block for each entry', ['M05', 'M881'], {}, ['M05', 'M881']],
    ['leaves out empty blocks', ['', ' M881 '], {}, ['M881']],
    ['calls a subprogram as often as it shall run', 'M898 P{program} L{repeats}', { program: '8000', repeats: '76' }, ['M898 P8000 L76']],
    ['writes a time in milliseconds where the control wants it so', 'G04 P{milliseconds}', { seconds: '0.25' }, ['G04 P250']],
    ['leaves a hole where no time is given', 'G04 P{milliseconds}', {}, ['G04 P<milliseconds>']],
    ['leaves a hole where a figure is not given', 'G881 P{starts} R{lead}', { starts: '1' }, ['G881 P1 R<lead>']],
    ['leaves a hole of its own name where it is empty', '', { starts: '1' }, ['<syncOn>']],
    ['leaves a hole of its own name where there is none', undefined, {}, ['<syncOn>']],
  ])('%s', (_name, template, figures, expected) => {
    expect(writeTemplate('syncOn', template, figures)).toEqual(expected);
  });

  it('gives whole figures a point where the control implies one, so that they read as they are meant', () => {
    const words = (template: string, figures: Figures) => writeTemplate('x', template, figures, 'PQRX')[0];
    expect(words('G881 P{starts} Q{sense}{teeth} R{helix} L{repeats}', { starts: '1', teeth: '24', sense: '-', helix: '15.5', repeats: '3' })).toBe('G881 P1. Q-24. R15.5 L3');
    expect(words('G04 P {milliseconds}', { seconds: '1.0' })).toBe('G04 P 1000.');
    expect(words('G04 P{seconds} P5', {})).toBe('G04 P<seconds> P5');
    expect(words('{starts}', { starts: '1' })).toBe('1');
    const own = { ...dialectOf({ ...inventedCard, codes: { dwell: 'G04 P{milliseconds}' } }), fixedFormat: { letters: 'P', integerDigits: 4, fractionDigits: 3, suppressedZeros: 'leading' } as const };
    expect(['G04 P1000.', 'G04 P1000'].map((line) => [...readProgram(line, own).moves()][0]!.seconds)).toEqual([1, 0.001]);
  });

  it('never leaves a brace, whatever is given', () => {
    fc.assert(fc.property(anyTemplate(), fc.dictionary(fc.constantFrom(...placeholderNames), fc.constant('7')), ({ template }, figures) => {
      expect(writeTemplate('x', template, figures).join('')).not.toMatch(/[{}]/);
    }));
  });
});

describe('faults of a template', () => {
  it.each<[string, string, RegExp | undefined]>([
    ['', 'G1 P{starts} Q{sense}{teeth}', undefined],
    ['', '', undefined],
    ['an unknown name', 'P{start}', /^\{start\} is not known; allowed are \{rpm\}/],
    ['a name without a brace', 'P{teeth', /brace stands alone/],
    ['a brace without a name', 'P}', /brace stands alone/],
    ['a sign of its own', 'Q-{teeth}', /fixed sign before a placeholder/],
    ['{sense} alone', 'Q{sense}', /must stand directly before another placeholder/],
    ['{sense} before a number', 'Q{sense}1', /must stand directly before another placeholder/],
    ['a hole', 'G1 <x>', /< and >/],
    ['a line end', 'G1\nG2', /line ends/],
  ])('%s: %s', (_name, template, expected) => {
    if (expected === undefined) expect(templateFault(template)).toBeUndefined();
    else expect(templateFault(template)).toMatch(expected);
  });

  it('is found in any block of an array', () => {
    expect(templateFault(['M05', 'P{x}'])).toMatch(/\{x\} is not known/);
  });
});

describe('the words of a template', () => {
  it('are numbers to be equal and slots to be read', () => {
    expect(templateWords('g881 P{starts} Q{sense}{teeth} R-1.5')).toEqual([[
      { letter: 'G', value: 881 }, { letter: 'P', slot: 'starts' }, { letter: 'Q', slot: 'teeth' }, { letter: 'R', value: -1.5 },
    ]]);
  });

  it('are none where a block holds text that is no word', () => {
    expect(templateWords(['SYNC({teeth})', 'M881'])).toEqual([[{ letter: 'M', value: 881 }]]);
  });

  it('name the placeholders that are used', () => {
    expect([...placeholdersOf(['P{starts}', 'Q{sense}{teeth}'])]).toEqual(['starts', 'sense', 'teeth']);
  });
});

/** A template of one G or M code and slots on letters that a block may hold beside it, with a figure for each slot. */
function anyTemplate(): fc.Arbitrary<{ template: string; figures: Figures; slots: Record<string, number> }> {
  const names = fc.uniqueArray(fc.constantFrom<PlaceholderName[]>('rpm', 'starts', 'teeth', 'helix', 'hand', 'lead', 'ratio', 'angle', 'tool', 'offset'), { maxLength: 6 });
  const letters = fc.shuffledSubarray(['P', 'Q', 'R', 'D', 'H', 'L', 'E', 'S'], { minLength: 6, maxLength: 6 });
  const number = fc.tuple(fc.boolean(), fc.integer({ min: 0, max: 99_999_999 }), fc.integer({ min: 0, max: 4 })).map(([negative, digits, decimals]) => {
    const text = (digits / 10 ** decimals).toFixed(decimals);
    return { sense: negative ? '-' : '', text };
  });
  const code = fc.constantFrom('G881', 'M881', 'G81.3');
  return fc.record({ code, names, letters, numbers: fc.array(number, { minLength: 6, maxLength: 6 }), signed: fc.boolean() }).map(({ code: word, names: used, letters: on, numbers, signed }) => {
    const sense = numbers[0]?.sense ?? '';
    const words = used.map((name, index) => `${on[index]}${signed && index === 0 ? '{sense}' : ''}{${name}}`);
    const figures = Object.fromEntries(used.map((name, index) => [name, numbers[index]?.text ?? '0']));
    const slots = used.map((name, index) => [name, Number(`${signed && index === 0 ? sense : ''}${numbers[index]?.text}`)] as const);
    return { template: [word, ...words].join(' '), figures: { ...figures, sense }, slots: Object.fromEntries(slots) };
  });
}

describe('both ways', () => {
  it('a block that a template wrote is recognised, and gives its figures back', () => {
    fc.assert(fc.property(anyTemplate(), ({ template, figures, slots }) => {
      expect(templateFault(template)).toBeUndefined();
      const card = { ...inventedCard, codes: { syncOn: template } };
      const [block] = writeTemplate('syncOn', template, figures);
      const program = readProgram(`N10 ${block}`, dialectOf(card));
      expect(program.events(0)).toEqual([{ name: 'syncOn', start: 4, end: 4 + (block?.length ?? 0), slots }]);
    }));
  });

  it('the words are recognised in any order, without spaces, in lower case and with leading zeros left out', () => {
    const dialect = dialectOf(inventedCard);
    for (const line of ['G881 P1 Q-24 R15.0', 'R15 Q-24. P1 G881', 'N5G881P1Q-24R15', 'g881 p01 q-24.0 r+15']) {
      expect(readProgram(line, dialect).events(0), line).toMatchObject([{ name: 'syncOn', slots: { starts: 1, teeth: -24, helix: 15 } }]);
    }
  });

  it('another code, or one word less, is not taken for it', () => {
    const dialect = dialectOf(inventedCard);
    for (const line of ['G882 P1 Q-24 R15.0', 'G881 P1 Q-24', '(G881 P1 Q-24 R15.0)']) {
      expect(readProgram(line, dialect).events(0), line).toEqual([]);
    }
  });

  it('every code of the invented card is recognised under its own name', () => {
    const dialect = dialectOf(inventedCard);
    const figures: Figures = { rpm: '303', starts: '1', teeth: '24', sense: '-', helix: '15.0' };
    for (const { name } of dialect.patterns) {
      const template = inventedCard.codes[name as CodeName];
      const [block] = writeTemplate(name, template, figures);
      expect(readProgram(block ?? '', dialect).events(0).map((event) => event.name), block).toEqual([name]);
    }
  });
});
