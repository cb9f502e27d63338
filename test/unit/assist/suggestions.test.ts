import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Suggestion } from '../../../server/src/assist/suggestion.ts';
import { suggestionsAt } from '../../../server/src/assist/suggestions.ts';
import { openStandardCard } from '../../../server/src/machine/open-standard.ts';
import { processes } from '../../../server/src/process/processes.ts';
import { hobbing } from '../../../server/src/process/hobbing.ts';
import { inventedMachine, programOf, settingOf } from './programs.ts';

/** What is suggested at the bar in a sample, whose lines are separated by line feeds. */
function suggested(sample: string, setting = inventedMachine): Suggestion[] {
  const before = sample.slice(0, sample.indexOf('|')).split('\n');
  return suggestionsAt(programOf(sample.replace('|', ''), setting), before.length - 1, before.at(-1)?.length ?? 0, setting);
}

/** The texts that are offered at the bar, in their order, without the white space that goes with them. */
function check(sample: string, expected: readonly string[], setting = inventedMachine): void {
  expect(suggested(sample, setting).map(({ text }) => text.trim()), sample).toEqual(expected);
}

/** The sample after the suggestion with a text was taken at the bar. */
function checkTaken(sample: string, wanted: string, expected: string): void {
  const taken = suggested(sample).find(({ text }) => text.trim() === wanted);
  if (!taken) throw new Error(`${wanted} is not offered at ${sample}`);
  const lines = sample.replace('|', '').split('\n');
  const line = sample.slice(0, sample.indexOf('|')).split('\n').length - 1;
  const text = lines[line] ?? '';
  lines[line] = text.slice(0, taken.start) + taken.text + text.slice(taken.end);
  expect(lines.join('\n')).toBe(expected);
}

const keywords = processes.map(({ keyword }) => `${keyword}:`);
const allOfHobbing = Object.keys(hobbing.fields);

describe('names of parameters', () => {
  it('are those that the note does not have, and those first that it cannot do without', () => {
    const names = suggested('(HOBBING: MODULE=2 HELIX=15 |)').map(({ text }) => text);
    expect(names.slice(0, 4)).toEqual(['TEETH=', 'FACE=', 'HOB-DIA=', 'FEED=']);
    expect([...names].sort()).toEqual(allOfHobbing.filter((name) => !['MODULE', 'HELIX', 'DP'].includes(name)).map((name) => `${name}=`).sort());
  });

  it('leave out what another one stands for', () => {
    const names = suggested('(HOBBING: DP=8 RPM=200\n(+ |)').map(({ text }) => text);
    expect(names).not.toContain('MODULE=');
    expect(names).not.toContain('SPEED=');
  });

  it('count what stands on all lines of the note', () => {
    const names = suggested('(HOBBING: MODULE=2 |\n(+ TEETH=3)\n(+ FACE=9)').map(({ text }) => text);
    expect(names.slice(0, 2)).toEqual(['HOB-DIA=', 'FEED=']);
  });

  it.each<[string, string, string, string]>([
    ['take the place of what is typed', '(HOBBING: TEE|)', 'TEETH=', '(HOBBING: TEETH=)'],
    ['take the place of the whole word around the cursor', '(HOBBING: HOB-|DI FACE=2)', 'HOB-DIA=', '(HOBBING: HOB-DIA= FACE=2)'],
    ['leave the equals sign that is there', '(HOBBING: TE|ET=32)', 'TEETH', '(HOBBING: TEETH=32)'],
    ['may replace the name at the cursor by itself', '(HOBBING: TEETH|=32)', 'TEETH', '(HOBBING: TEETH=32)'],
    ['put a gap behind the colon', '(HOBBING:|)', 'TEETH=', '(HOBBING: TEETH=)'],
    ['put a gap behind the plus', '(HOBBING: FACE=2)\n(+|)', 'TEETH=', '(HOBBING: FACE=2)\n(+ TEETH=)'],
    ['put a gap behind a quoted value', '(ENGRAVING: TEXT="A B"|)', 'HEIGHT=', '(ENGRAVING: TEXT="A B" HEIGHT=)'],
    ['go into a comment that is still open', '(HOBBING: FA|', 'FACE=', '(HOBBING: FACE='],
    ['go into a comment behind a semicolon', ';HOBBING: FA|', 'FACE=', ';HOBBING: FACE='],
    ['go behind a sequence number', 'N10 (HOBBING: FA|)', 'FACE=', 'N10 (HOBBING: FACE=)'],
    ['are small in a note in small letters', '(hobbing: |)', 'teeth=', '(hobbing: teeth=)'],
    ['are small where small letters are typed', '(HOBBING: te|)', 'teeth=', '(HOBBING: teeth=)'],
    ['are capital where a capital is typed', '(hobbing: TE|)', 'TEETH=', '(hobbing: TEETH=)'],
  ])('%s', (_name, sample, wanted, expected) => checkTaken(sample, wanted, expected));

  it('say what they are, in the units of the place', () => {
    const bore = (sample: string) => suggested(sample).find(({ text }) => text === 'BORE=');
    expect(bore('G21\n(KEYWAY: |)')).toMatchObject({ kind: 'parameter', title: 'Bore diameter, mm', about: 'Diameter of the bore that carries the keyway. Allowed: more than 0, at most 500 mm.' });
    expect(bore('G20\n(KEYWAY: |)')?.title).toBe('Bore diameter, inch');
  });

  it('say the default that the machine card knows better', () => {
    // The stroke unit of the invented machine states its own lead-in.
    const unit = inventedMachine.card.toolUnits.find(({ kind }) => kind === 'stroke');
    expect(unit?.kind === 'stroke' && unit.leadIn).toBeDefined();
    const about = suggested('(KEYWAY: |)').find(({ text }) => text === 'LEAD-IN=')?.about;
    expect(about).toContain(`default ${unit?.kind === 'stroke' ? unit.leadIn : ''}.`);
  });

  it('of a choice lead on to its values', () => {
    const opens = (name: string) => suggested('(HOBBING: |)').find(({ text }) => text === `${name}=`)?.opensValues;
    expect([opens('HAND'), opens('TEETH')]).toEqual([true, false]);
  });
});

describe('values', () => {
  it.each<[string, string, string[]]>([
    ['of a choice', '(HOBBING: HAND=|)', ['RIGHT', 'LEFT']],
    ['of a choice that is begun', '(HOBBING: METHOD=CL|)', ['CLIMB', 'CONVENTIONAL']],
    ['of a choice in small letters', '(hobbing: hand=|)', ['right', 'left']],
    ['of a number: its default', '(HOBBING: PRESSURE-ANGLE=|)', ['20']],
    ['of a number that is begun: none', '(HOBBING: PRESSURE-ANGLE=2|)', []],
    ['of a number without a default: none', '(HOBBING: TEETH=|)', []],
    ['of a name that the process does not have: none', '(HOBBING: WIDTH=|)', []],
    ['of a name of every object: none', '(HOBBING: constructor=|)', []],
    ['of a text, inside its quotes: none', '(ENGRAVING: TEXT="A |)', []],
  ])('%s', (_name, sample, expected) => check(sample, expected));

  it('default in inches in an inch program', () => {
    check('G21\n(HOBBING: CLEARANCE=|)', ['2']);
    check('G20\n(HOBBING: CLEARANCE=|)', ['0.08']);
  });

  it.each<[string, string, string, string]>([
    ['take the place of the whole value', '(HOBBING: HAND=RI|GT FACE=2)', 'LEFT', '(HOBBING: HAND=LEFT FACE=2)'],
    ['leave alone a name that follows too near', '(HOBBING: HAND=|FACE=2)', 'LEFT', '(HOBBING: HAND=LEFT FACE=2)'],
  ])('%s', (_name, sample, wanted, expected) => checkTaken(sample, wanted, expected));
});

describe('the comments around', () => {
  it.each<[string, string, string[]]>([
    ['at the beginning of a comment: the processes', '(|)', keywords],
    ['of a comment that is open', '(|', keywords],
    ['of a comment behind a semicolon', ';|', keywords],
    ['behind a sequence number', 'N10 (|)', keywords],
    ['in a name that is begun', '(KEY|)', keywords],
    ['in small letters', '(key|)', keywords.map((each) => each.toLowerCase())],
    ['but not behind words', 'G00 X5. (|)', []],
    ['not in other text', '(TURN THE |)', []],
    ['not in front of other text', '(|TURN THE OUTSIDE)', []],
    ['not behind a comment', '()|', []],
    ['below a head: a line that goes on, and the end', '(HOBBING: TEETH=9)\n(|)', ['+', 'END HOBBING']],
    ['deeper in an open block: the end', '(HOBBING: TEETH=9)\nM08\n(|)', ['END HOBBING']],
    ['at a word that is the beginning of an end', '(HOBBING: TEETH=9)\nM08\n(EN|)', ['END HOBBING']],
    ['in small letters where they are typed', '(HOBBING: TEETH=9)\nM08\n(e|)', ['end hobbing']],
    ['at the text of another comment in a block: nothing', '(HOBBING: TEETH=9)\nM08\n(|UNIT)', []],
    ['in a closed block below its head', '(HOBBING: TEETH=9)\n(|)\n(END HOBBING)', ['+']],
    ['deeper in a closed block: nothing', '(HOBBING: TEETH=9)\nM08\n(|)\n(END HOBBING)', []],
    ['at the end itself: the end', '(HOBBING: TEETH=9)\nM08\n(END |HOB)', ['END HOBBING']],
    ['behind a closed block: the processes', '(HOBBING: TEETH=9)\n(END HOBBING)\n(|)', keywords],
  ])('%s', (_name, sample, expected) => check(sample, expected));

  it.each<[string, string, string, string]>([
    ['a process opens its note', '(HO|)', 'HOBBING:', '(HOBBING: )'],
    ['a process leaves the parameters that are there', '(HO|BING: TEETH=2)', 'HOBBING', '(HOBBING: TEETH=2)'],
    ['the end takes the place of its beginning', '(HOBBING: TEETH=9)\n( E|ND HOB)', 'END HOBBING', '(HOBBING: TEETH=9)\n( END HOBBING)'],
  ])('%s', (_name, sample, wanted, expected) => checkTaken(sample, wanted, expected));
});

describe('G and M words', () => {
  const found = (sample: string, text: string, setting = inventedMachine) => suggested(sample, setting).find((each) => each.text === text);

  it('have the meaning of the open standard [NISTIR 6556 section 3.5, seen in source]', () => {
    expect(found('G|', 'G01')).toMatchObject({ kind: 'code', title: 'Linear interpolation', about: 'A straight move at the feed. Source: NISTIR 6556 §3.5.2.' });
    expect(found('N10 M|', 'M30')).toMatchObject({ title: 'End of program with reset' });
    expect(found('G|', 'G59.1')?.title).toBe('Work offset 7');
  });

  it('have the meaning that the machine card says, before all others', () => {
    const card = { ...openStandardCard, codes: { ...openStandardCard.codes, syncOn: 'G881 P{starts}' }, meanings: { M777: 'Opens the door', M08: 'Coolant through the drive' } };
    const setting = settingOf(card);
    expect(found('M|', 'M777', setting)).toMatchObject({ title: 'Opens the door', about: 'Source: machine card.' });
    expect(found('M|', 'M08', setting)?.title).toBe('Coolant through the drive');
    expect(found('G|', 'G881', setting)).toMatchObject({ title: 'Starts synchronous running of hob and work', about: 'Source: machine card.' });
  });

  it.each<[string, string, string, string]>([
    ['take the place of the whole word', 'N10 G|00 X5.', 'G01', 'N10 G01 X5.'],
    ['take the place of a word with a point', 'G5|9.1', 'G54', 'G54'],
    ['are small behind a small letter', 'g|', 'g01', 'g01'],
    ['are found where words are not divided', 'N10G1|X5.', 'G02', 'N10G02X5.'],
  ])('%s', (_name, sample, wanted, expected) => checkTaken(sample, wanted, expected));

  it.each(['|', 'X|', 'N1|0 G01', 'X1.|', '%|', 'O10|', '(TURN G|)', '<G|>', 'M30 |', 'SING|'])('nothing else of a block is suggested: %s', (sample) => check(sample, []));
});

describe('any text', () => {
  it('gives suggestions that lie on the line around the cursor, and never throws', () => {
    const line = fc.oneof(fc.string({ unit: 'binary', maxLength: 30 }), fc.constantFrom('(HOBBING: TEETH=', '(+ HAND=R', 'G0', '(E', '(HOBBING:', '(KEYWAY: BORE= FIT="', '(END HOBBING', ';keyway: m'));
    fc.assert(fc.property(fc.array(line, { minLength: 1, maxLength: 6 }), fc.nat(8), fc.nat(40), (lines, at, character) => {
      const text = lines.join('\n').split(/\r\n|\r|\n/);
      for (const { start, end, title } of suggestionsAt(programOf(lines.join('\n')), at, character, inventedMachine)) {
        expect(start).toBeGreaterThanOrEqual(0);
        expect(start).toBeLessThanOrEqual(character);
        expect(end).toBeGreaterThanOrEqual(character);
        expect(end).toBeLessThanOrEqual(text[at]?.length ?? 0);
        expect(title).not.toBe('');
      }
    }));
  });

  it('of more than two thousand characters on a line gives none', () => {
    check(`(HOBBING: ${'A=1 '.repeat(600)}|)`, []);
  });
});
