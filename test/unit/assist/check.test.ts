import { describe, expect, it } from 'vitest';
import { allRules, checkProgram } from '../../../server/src/assist/check.ts';
import type { ExplainSetting } from '../../../server/src/assist/explain.ts';
import { openStandardCard } from '../../../server/src/machine/open-standard.ts';
import { hobbing } from '../../../server/src/process/hobbing.ts';
import { keyway } from '../../../server/src/process/keyway.ts';
import { composeText } from '../../../server/src/process/layout.ts';
import { readMarks } from '../../marks.ts';
import { values } from '../process/figures.ts';
import { inventedMachine, programOf, settingOf } from './programs.ts';

/** What a block has beside its note is the subject of other tests: the samples here have short blocks. */
const ofBlocks = ['drift', 'stale-comment'];

/** Compares findings with marks one to one: `rule`, and behind it the beginning of the message. */
function check(sample: string, setting: ExplainSetting = inventedMachine): void {
  const { text, marks } = readMarks(sample);
  const found = checkProgram(programOf(text, setting), setting.card).filter(({ rule }) => !ofBlocks.includes(rule)).map(({ line, start, end, rule, message }) => ({ line, start, end, label: `${rule} ${message}` }));
  const expected = marks.map(({ line, start, end, label }, index) => ({ line, start, end, label: found[index]?.label.startsWith(label) ? found[index].label : label }));
  expect(found).toEqual(expected);
}

describe('a program that is right', () => {
  it.each([
    [hobbing, 'MODULE=2 TEETH=32 HELIX=15 FACE=20 HOB-DIA=63 SPEED=60 FEED=1.5'],
    [keyway, 'BORE=30 LENGTH=25 RPM=500 FEED=0.05'],
  ])('has nothing to say: a block as it was made', (process, text) => {
    const { card } = inventedMachine;
    const { lines } = composeText(process, values(text), { units: 'mm', card }, { comment: 'parentheses', maxLineLength: 80 });
    expect(checkProgram(programOf(['%', 'G21 G90 G18 G40', ...lines, 'M30', '%'].join('\n')), card)).toEqual([]);
  });
});

describe('a block that no control runs is marked', () => {
  const block = (label: string) => `(KEYWAY: BORE=30 LENGTH=25 RPM=500 FEED=0.05)
     ^^^^^^ ${label}
    (END KEYWAY)`;
  it('behind the end of the program', () => check(`
    O1
    G21 G90 G18 G40
    M30
    ${block('block-place The program has ended before this place')}`));
  it('in front of the program number', () => check(`
    ${block('block-place O1 of line 3 opens the program')}
    O1
    M30`));
  it('but not in a subprogram behind the end', () => check(`
    O1
    G21 G90 G18 G40
    M30
    O2
    (KEYWAY: BORE=30 LENGTH=25 RPM=500 FEED=0.05)
    (END KEYWAY)
    M30`));
});

describe('each mistake of a note is marked once, on the very word', () => {
  const rest = '(+ HOB-DIA=63 SPEED=60 FEED=1.5)\n    (END HOBBING)\n    M30';
  it.each<[string, string]>([
    ['an unknown name', `
    (HOBBING: MODULE=2 TEETH=32 FACE=20 TOOTH=5)
                                        ^^^^^ unknown-parameter TOOTH is not a parameter here. Allowed: MODULE, DP, TEETH
    ${rest}`],
    ['a missing name', `
    (HOBBING: MODULE=2 FACE=20)
     ^^^^^^^ missing-parameter TEETH is missing: number of teeth, a whole number from 3 to 1000.
    ${rest}`],
    ['no teeth', `
    (HOBBING: MODULE=2 TEETH=0 FACE=20)
                             ^ bad-value TEETH: 0 is not allowed: it must be a whole number from 3 to 1000.
    ${rest}`],
    ['a helix of 95', `
    (HOBBING: MODULE=2 TEETH=32 HELIX=95 FACE=20)
                                      ^^ bad-value HELIX: 95 is not allowed: it must be from 0 to 60 deg.
    ${rest}`],
    ['no value', `
    (HOBBING: MODULE=2 TEETH= FACE=20)
                       ^^^^^^ bad-value TEETH has no value: it must be a whole number from 3 to 1000.
    ${rest}`],
    ['a hob beyond the unit', `
    (HOBBING: MODULE=2 TEETH=32 FACE=20 SPEED=60 FEED=1.5)
    (+ HOB-DIA=80)
               ^^ machine-limit HOB-DIA: 80 is beyond the machine: it must be more than 0, at most 75 mm (Hobbing unit H1).
    (END HOBBING)
    M30`],
    ['a keyway longer than the unit strokes', `
    (KEYWAY: BORE=30 LENGTH=37 RPM=500 FEED=0.05)
                            ^^ machine-limit LENGTH: 37 is beyond the machine: it must be more than 0, at most 36 mm
    (END KEYWAY)
    M30`],
    ['a keyway longer than the stroke that is set', `
    (KEYWAY: BORE=30 LENGTH=30 STROKE=32 RPM=500 FEED=0.05)
                                      ^^ bad-value STROKE: 32 is not allowed: it must be at least 34
    (END KEYWAY)
    M30`],
    ['an insert wider than the keyway', `
    (KEYWAY: BORE=30 LENGTH=30 INSERT=9 RPM=500 FEED=0.05)
                                      ^ bad-value INSERT: 9 is not allowed: it must be
    (END KEYWAY)
    M30`],
    ['two ways to say one thing', `
    (HOBBING: MODULE=2 DP=12 TEETH=32 FACE=20)
                          ^^ bad-value MODULE and DP are both given
    ${rest}`],
    ['a name that stands twice', `
    (HOBBING: MODULE=2 TEETH=32 FACE=20 TEETH=33)
                                        ^^^^^ parameter-twice TEETH stands twice in this note; the first one, 32, counts.
    ${rest}`],
    ['text that is no parameter', `
    (HOBBING: MODULE=2 TEETH=32 FACE=20 spur)
                                        ^^^^ note-syntax "spur" is not a parameter; a note holds NAME=VALUE
    ${rest}`],
    ['a keyword that is misspelt', `
    (HOBING: MODULE=2 TEETH=32 FACE=20)
     ^^^^^^ note-name "HOBING" is no process; HOBBING may be meant.
    M30`],
    ['a note without an end', `
    (KEYWAY: BORE=30 LENGTH=30 RPM=500 FEED=0.05)
     ^^^^^^ note-open (END KEYWAY) is missing: the note has no end.
    M30`],
  ])('%s', (_name, sample) => check(sample));

  it('several mistakes are marked each, in the order of the text', () => check(`
    (HOBBING: MODULE=200 TEETH=0 FACE=20 SPUR=1)
                     ^^^ bad-value MODULE: 200 is not allowed: it must be more than 0, at most 40 mm.
                               ^ bad-value TEETH: 0 is not allowed
                                         ^^^^ unknown-parameter SPUR is not a parameter here.
    (+ HOB-DIA=63 SPEED=60 FEED=1.5)
    (END HOBBING)
    M30
  `));
});

describe('holes', () => {
  it('are errors with the key of the card that would fill them', () => {
    const findings = checkProgram(programOf('G21\n<syncOn>\nG881 P1 Q<sense>32\n<rpm>\nM30', settingOf(openStandardCard)), openStandardCard);
    expect(findings.filter(({ rule }) => rule === 'hole').map(({ line, start, end, severity, cardKey }) => ({ line, start, end, severity, cardKey }))).toEqual([
      { line: 1, start: 0, end: 8, severity: 'error', cardKey: 'codes.syncOn' },
      { line: 2, start: 9, end: 16, severity: 'error', cardKey: 'senses.workRotation' },
      { line: 3, start: 0, end: 5, severity: 'error', cardKey: undefined },
    ]);
  });
});

describe('units', () => {
  it('of a note are those in force where it stands', () => check(`
    G20
    (KEYWAY: BORE=1 FIT=CLASS1 LENGTH=1 RPM=500 FEED=.002)
    (END KEYWAY)
    (KEYWAY: BORE=13 FIT=CLASS1 LENGTH=1 RPM=500 FEED=.002)
                  ^^ bad-value BORE: 13 is not allowed: it must be more than 0.3125 and at most 11
    (END KEYWAY)
    M30
  `));
});

describe('the rules', () => {
  it('each have a severity, a summary in a sentence and a source', () => {
    expect(Object.keys(allRules).length).toBeGreaterThan(40);
    for (const [id, { severity, summary, source }] of Object.entries(allRules)) {
      expect(['error', 'warning', 'information'], id).toContain(severity);
      expect(summary, id).toMatch(/^[A-Z].*\.$/);
      expect(source, id).not.toBe('');
    }
  });
});
