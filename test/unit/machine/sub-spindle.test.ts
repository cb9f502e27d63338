import { describe, expect, it } from 'vitest';
import { keyOfHole } from '../../../server/src/machine/card.ts';
import { dialectOf } from '../../../server/src/machine/dialect.ts';
import { openStandardCard } from '../../../server/src/machine/open-standard.ts';
import { readCard } from '../../../server/src/machine/read-card.ts';
import { writeTemplate } from '../../../server/src/machine/template.ts';
import { readProgram } from '../../../server/src/program/index.ts';
import { subCard } from '../process/sub-spindle.ts';

const problemsOf = (subSpindle: object) => readCard(JSON.stringify({ name: 'M', subSpindle })).problems;

describe('the sub-spindle of a card', () => {
  it.each<[string, object, string, RegExp]>([
    ['a sense that is no sign', { zSense: 0 }, 'subSpindle.zSense', /must be 1, or it must be -1/],
    ['a speed below 1', { maxRpm: 0 }, 'subSpindle.maxRpm', /at least 1.*1 to 100000/],
    ['a travel the wrong way round', { travel: [10, -10] }, 'subSpindle.travel', /first figure must be less than the second/],
    ['a key that it does not have', { tailstock: true }, 'subSpindle.tailstock', /tailstock/],
  ])('refuses %s by its key', (_name, subSpindle, path, message) => {
    expect(problemsOf(subSpindle)).toEqual([expect.objectContaining({ path, message: expect.stringMatching(message) as string })]);
  });

  it('may leave everything out', () => expect(problemsOf({})).toEqual([]));

  it('is not in the built-in card, nor is any code of it: no open standard says them', () => {
    expect(openStandardCard.subSpindle).toBeUndefined();
    expect(Object.keys(openStandardCard.codes).filter((name) => /^(sub|main|spindle)/.test(name))).toEqual([]);
  });
});

describe('codes of the sub-spindle', () => {
  it('lead from a hole to their key', () => {
    for (const name of ['subAxisOn', 'mainChuckOpen', 'subChuckClose', 'spindleSyncOn', 'subRapid', 'subFeed']) expect(keyOfHole(name)).toBe(`codes.${name}`);
  });

  it('write place and feed', () => {
    expect(writeTemplate('subFeed', 'M951 W{z} F{feed}', { z: '-400.0', feed: '300.0' })).toEqual(['M951 W-400.0 F300.0']);
  });

  it('are recognised in a program, with their figures', () => {
    const program = readProgram('M940 S500 C120.\nM951 W-400.5 F300\nM931\nM30', dialectOf(subCard));
    expect([0, 1, 2].flatMap((line) => program.events(line)).map(({ name, slots }) => ({ name, slots }))).toEqual([
      { name: 'spindleSyncOn', slots: { rpm: 500, angle: 120 } }, { name: 'subFeed', slots: { z: -400.5, feed: 300 } }, { name: 'subChuckClose', slots: {} },
    ]);
    expect(program.problems()).toEqual([]);
  });
});
