import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { insertionAt, judgePlace, type Insertion, type Place } from '../../../server/src/assist/insert.ts';
import { hobbing } from '../../../server/src/process/hobbing.ts';
import { keyway } from '../../../server/src/process/keyway.ts';
import { processes } from '../../../server/src/process/processes.ts';
import { defineProcess, type Process } from '../../../server/src/process/process.ts';
import type { MachineCard } from '../../../server/src/machine/card.ts';
import { dialectOf } from '../../../server/src/machine/dialect.ts';
import { readProgram } from '../../../server/src/program/index.ts';
import { inventedCard, withCodes } from '../../invented-machine.ts';
import { values } from '../process/figures.ts';

/** Two blocks and a comment are enough to see where a block goes and how it looks. */
const trial: Process = defineProcess({
  id: 'trial', keyword: 'TRIAL', title: 'Trial', summary: '', keyQuantities: [], governs: {}, parameterOf: {},
  fields: { A: { kind: 'number', label: 'A', help: 'A.', dimension: 'length', above: 0, most: 900 } },
  rules: () => [], compute: () => [], checks: () => [],
  compose: (_values, { units }) => ({ lines: [{ kind: 'comment', text: units.toUpperCase() }, { kind: 'block', words: 'G00 X1.' }, { kind: 'block', words: 'G01 X2.' }], problems: [] }),
});
const plainCard: MachineCard = { ...inventedCard, sequenceNumbers: undefined };

function applied(text: string, { line, character, text: newText }: Insertion): string {
  const document = TextDocument.create('file:///a.nc', 'nc-program', 1, text);
  const position = { line, character };
  return TextDocument.applyEdits(document, [{ range: { start: position, end: position }, newText }]);
}

function insertedInto(text: string, place: Place, card: MachineCard): string {
  return applied(text, insertionAt(readProgram(text, dialectOf(card)), place, trial, { A: '1' }, card));
}

/** The whole program after the block went in at the cursor, which a bar stands for. */
function check(sample: string, expected: string, card: MachineCard = plainCard): void {
  const offset = sample.indexOf('|');
  const text = sample.replace('|', '');
  const place = TextDocument.create('file:///a.nc', 'nc-program', 1, text).positionAt(offset);
  expect(insertedInto(text, place, card)).toBe(expected);
}

const block = ['(TRIAL: A=1)', '(MM)', 'G00 X1.', 'G01 X2.', '(END TRIAL)'];
const lf = `${block.join('\n')}\n`;

describe('where a block goes', () => {
  it.each<[string, string, string]>([
    ['in front of the line at whose start the cursor stands', 'G21\n|M30\n', `G21\n${lf}M30\n`],
    ['behind the line in which the cursor stands', 'G21\nG0|0 X5.\nM30\n', `G21\nG00 X5.\n${lf}M30\n`],
    ['behind the line at whose end the cursor stands', 'G21|\nM30\n', `G21\n${lf}M30\n`],
    ['in front of a blank line', 'G21\n|\nM30\n', `G21\n${lf}\nM30\n`],
    ['in front of a line of spaces', 'G21\n  |\nM30\n', `G21\n${lf}  \nM30\n`],
    ['into an empty program', '|', lf],
    ['at the start of a program', '|G21\nM30\n', `${lf}G21\nM30\n`],
    ['behind the last line end', 'G21\nM08\n|', `G21\nM08\n${lf}`],
    ['behind a last line without a line end', 'G21\nM0|8', `G21\nM08\n${block.join('\n')}`],
    ['behind a single line without a line end', 'G21|', `G21\n${block.join('\n')}`],
  ])('%s', (_name, sample, expected) => check(sample, expected));

  const other = '(HOBBING: TEETH=1)\n(+ FACE=2)\nG00 X9.\n(END HOBBING)\n';
  it.each<[string, string]>([
    ['its head', '(HOBBING: TEE|TH=1)'], ['its second line', '|(+ FACE=2)'], ['its words', 'G00 |X9.'], ['the start of its end', '|(END HOBBING)'],
  ])('never inside another block: from %s it moves behind it', (_name, where) => {
    check(`G21\n${other.replace(where.replace('|', ''), where)}M30\n`, `G21\n${other}${lf}M30\n`);
  });

  it('in front of another block, and behind it, is outside', () => {
    check(`G21\n|${other}M30\n`, `G21\n${lf}${other}M30\n`);
    check(`G21\n${other.replace('(END HOBBING)', '(END HOBBING)|')}M30\n`, `G21\n${other}${lf}M30\n`);
  });

  it('behind the last line, when the block that it would tear ends the program', () => {
    check(`${other.trimEnd().replace('G00 X9.', 'G00 X|9.')}`, `${other.trimEnd()}\n${block.join('\n')}`);
  });
});

describe('where no block can go', () => {
  const card = withCodes({ syncOn: 'G881 P{starts} Q{teeth}', syncOff: 'G882', subprogramReturn: 'M899' });

  /** Nothing goes in at the bar, and the reason is given. */
  function checkRefused(sample: string, reason: RegExp): void {
    const offset = sample.indexOf('|');
    const text = sample.replace('|', '');
    const place = TextDocument.create('file:///a.nc', 'nc-program', 1, text).positionAt(offset);
    const insertion = insertionAt(readProgram(text, dialectOf(card)), place, trial, { A: '1' }, card);
    expect(insertion.text, sample).toBe('');
    expect(insertion.problems).toEqual([{ rule: 'block-place', severity: 'error', message: expect.stringMatching(reason) as string }]);
    expect(judgePlace(readProgram(text, dialectOf(card)), place).refusal).toMatch(reason);
  }

  it.each<[string, string, RegExp]>([
    ['in front of the opening percent sign', '|%\nO1\nM30\n%\n', /percent sign of line 1 opens/],
    ['in front of comments before it', '|(SHOP)\n\n%\nM30\n%\n', /percent sign of line 3 opens/],
    ['between it and the program number', '%\n|O1 (PART)\nM30\n%\n', /O1 of line 2 opens/],
    ['in front of comments before the program number', '%\n|(SHOP)\nO1\nM30\n%\n', /O1 of line 3 opens/],
    ['behind the end of the program', 'O1\nG21\nM30|\n', /has ended before this place/],
    ['behind M02', 'O1\nM02\n|\n', /has ended before this place/],
    ['between the end and the closing percent sign', '%\nG21\nM30\n|%\n', /has ended before this place/],
    ['behind the closing percent sign', '%\nG21\n%\n|', /has ended before this place/],
    ['between the end and a subprogram', 'O1\nM30\n|\nO2\nG21\n', /has ended before this place/],
    ['behind the return of a subprogram', 'O1\nM30\nO2\nG21\nM899\n|', /has ended before this place/],
    ['in a block whose note is not closed', 'G21\n(HOBBING: TEETH=9)\nM08\n|M30\n', /HOBBING note of line 2 has no \(END HOBBING\)/],
    ['anywhere behind one', '(HOBBING: TEETH=9)\nT1\nG00 X5.|\n', /HOBBING note of line 1 has no/],
    ['while hob and work run in step', 'G21\nG881 P1 Q32\n|G01 Z-5. F1.\nG882\nM30\n', /run in step here, since line 2/],
  ])('%s', (_name, sample, reason) => checkRefused(sample, reason));

  const insideTrial = block.join('\n');
  it.each<[string, string, string]>([
    ['right behind the program number', 'O1|\nM30\n', `O1\n${insideTrial}\nM30\n`],
    ['right in front of the end', '%\nO1\n|M30\n%\n', `%\nO1\n${insideTrial}\nM30\n%\n`],
    ['in front of a percent sign that is the only end', '%\nG21\n|%\n', `%\nG21\n${insideTrial}\n%\n`],
    ['in a subprogram behind the end', 'O1\nM30\nO2\n|G21\nM899\n', `O1\nM30\nO2\n${insideTrial}\nG21\nM899\n`],
    ['in front of a block that is not closed', '|(HOBBING: TEETH=9)\nM30\n', `${insideTrial}\n(HOBBING: TEETH=9)\nM30\n`],
    ['behind the end of synchronous running', 'G881 P1 Q32\nG882\n|M30\n', `G881 P1 Q32\nG882\n${insideTrial}\nM30\n`],
  ])('but %s it can', (_name, sample, expected) => check(sample, expected, { ...card, sequenceNumbers: undefined }));

  it('and a block that would go behind the one at the cursor is known to do so', () => {
    const program = readProgram('(HOBBING: TEETH=9)\nM08\n(END HOBBING)\nM30\n', dialectOf(card));
    expect([judgePlace(program, { line: 1, character: 0 }), judgePlace(program, { line: 3, character: 0 })]).toEqual([{ behindBlock: true }, { behindBlock: false }]);
  });
});

describe('line ends', () => {
  it.each([['\n'], ['\r\n'], ['\r']])('%j of the program are those of the block', (end) => {
    const text = ['G21', 'G00 X5.', 'M30', ''].join(end);
    const after = insertedInto(text, { line: 1, character: 0 }, plainCard);
    expect(after).toBe(['G21', ...block, 'G00 X5.', 'M30', ''].join(end));
  });

  it('of most lines are taken where they are mixed', () => {
    expect(insertedInto('G21\r\nG90\r\nG00 X5.\nM30\r\n', { line: 2, character: 0 }, plainCard)).toBe(`G21\r\nG90\r\n${block.join('\r\n')}\r\nG00 X5.\nM30\r\n`);
  });

  it('behind a last line without one follow the program', () => {
    expect(insertedInto('G21\r\nM08', { line: 1, character: 3 }, plainCard)).toBe(`G21\r\nM08\r\n${block.join('\r\n')}`);
  });
});

describe('sequence numbers', () => {
  it.each<[string, string, string]>([
    ['go on by the step of the card', 'N100 G21\n|M30\n', 'N100 G21\n(TRIAL: A=1)\n(MM)\nN110 G00 X1.\nN120 G01 X2.\n(END TRIAL)\nM30\n'],
    ['start as the card says where the program has none', 'G21\n|M30\n', 'G21\n(TRIAL: A=1)\n(MM)\nN10 G00 X1.\nN20 G01 X2.\n(END TRIAL)\nM30\n'],
    ['fit in before the next number of the program', 'N10 G21\n|N20 M30\n', 'N10 G21\n(TRIAL: A=1)\n(MM)\nN12 G00 X1.\nN14 G01 X2.\n(END TRIAL)\nN20 M30\n'],
    ['are left out where none fit', 'N10 G21\n|N12 M30\n', `N10 G21\n${lf}N12 M30\n`],
  ])('%s', (_name, sample, expected) => check(sample, expected, inventedCard));

  it('go on by the step of the program where the card has none', () => {
    check('N5 G21\nN10 G90\n|M30\n', 'N5 G21\nN10 G90\n(TRIAL: A=1)\n(MM)\nN15 G00 X1.\nN20 G01 X2.\n(END TRIAL)\nM30\n');
  });

  it('are none where neither program nor card has any', () => check('G21\n|M30\n', `G21\n${lf}M30\n`));
});

describe('style and units', () => {
  const semicolon = lf.replace(/\((.*)\)/g, ';$1');

  it('comments look like the nearest one before', () => {
    check('; FIRST\nG21\n|M30\n', `; FIRST\nG21\n${semicolon}M30\n`);
    check('; FIRST\n(SECOND)\n|M30\n', `; FIRST\n(SECOND)\n${lf}M30\n`);
  });

  it('comments look as the card says where the program has none', () => {
    check('G21\n|M30\n', `G21\n${semicolon}M30\n`, { ...plainCard, comment: 'semicolon' });
  });

  it('units are those in force at the place, not at the end', () => {
    check('G20\n|G21\nM30\n', `G20\n${lf.replace('MM', 'INCH')}G21\nM30\n`);
    check('G20\nG21\n|M30\n', `G20\nG21\n${lf}M30\n`);
    check('|M30\n', `${lf.replace('MM', 'INCH')}M30\n`, { ...plainCard, units: 'inch' });
  });

  it('incremental dimensions and feed per revolution are taken back at the end of a real block', () => {
    const { text } = insertionAt(readProgram('G91 G95\n', dialectOf(inventedCard)), { line: 1, character: 0 }, keyway, values('BORE=30 LENGTH=25 RPM=500 FEED=0.05'), inventedCard);
    expect(text).toMatch(/G90\nN\d+ G94\n/);
    expect(text).toMatch(/N\d+ G95\nN\d+ G91\n\(END KEYWAY\)\n$/);
  });
});

describe('a block that cannot be made', () => {
  it('is no text, and the problem says why', () => {
    const insertion = insertionAt(readProgram('G21\n', dialectOf(inventedCard)), { line: 0, character: 3 }, hobbing, { TEETH: '0' }, inventedCard);
    expect(insertion.text).toBe('');
    expect(insertion.problems.map(({ parameter }) => parameter)).toContain('TEETH');
  });

  it('with a hole is a text that holds it', () => {
    const card = { ...inventedCard, codes: {} };
    const insertion = insertionAt(readProgram('G21\n', dialectOf(card)), { line: 0, character: 3 }, keyway, values('BORE=30 LENGTH=25 RPM=500 FEED=0.05'), card);
    expect(insertion.text).toContain('<drivenStart>');
    expect(insertion.problems.every(({ rule }) => rule === 'hole')).toBe(true);
  });
});

describe('any program and any place', () => {
  const line = fc.oneof(fc.string({ unit: 'binary', maxLength: 20 }), fc.constantFrom('G21', 'G20', 'N10 G01 X1.', '(HOBBING: TEETH=1)', '(END HOBBING)', '', ' '));
  const text = fc.array(fc.tuple(line, fc.constantFrom('\n', '\r\n', '\r', ''))).map((parts) => parts.flat().join(''));
  const isRefused = ({ problems }: Insertion) => problems.some(({ rule }) => rule === 'block-place');

  it('take a block without losing or changing a character of the program, or refuse it', () => {
    fc.assert(fc.property(text, fc.nat(30), fc.nat(30), (program, atLine, character) => {
      const insertion = insertionAt(readProgram(program, dialectOf(inventedCard)), { line: atLine, character }, trial, { A: '1' }, inventedCard);
      expect(insertion.text === '').toBe(isRefused(insertion));
      if (insertion.text === '') return;
      const document = TextDocument.create('file:///a.nc', 'nc-program', 1, program);
      const offset = document.offsetAt({ line: insertion.line, character: insertion.character });
      const after = applied(program, insertion);
      expect(after.slice(0, offset) + after.slice(offset + insertion.text.length)).toBe(program);
      expect(after.split(/\r\n|\r|\n/)).toEqual(expect.arrayContaining(['(END TRIAL)'.replace(/\((.*)\)/, (whole, inner: string) => (insertion.text.includes(';TRIAL') ? `;${inner}` : whole))]));
    }));
  });

  it('never throw, whatever is asked for', () => {
    fc.assert(fc.property(text, fc.nat(30), fc.nat(30), fc.constantFrom(...processes), fc.dictionary(fc.constantFrom('MODULE', 'TEETH', 'BORE', 'LENGTH', 'RPM', 'X'), fc.string()), (program, atLine, character, process, raw) => {
      const { text: inserted, problems } = insertionAt(readProgram(program, dialectOf(inventedCard)), { line: atLine, character }, process, raw, inventedCard);
      expect(inserted !== '' || problems.length > 0).toBe(true);
    }));
  });
});
