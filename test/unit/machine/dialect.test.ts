import { describe, expect, it } from 'vitest';
import { machineCardSchema, keyOfHole, toolUnit } from '../../../server/src/machine/card.ts';
import { dialectOf } from '../../../server/src/machine/dialect.ts';
import { openStandardCard } from '../../../server/src/machine/open-standard.ts';
import { inventedCard } from '../../invented-machine.ts';

describe('the dialect of a card', () => {
  it('takes over what the card says of the language', () => {
    expect(dialectOf(inventedCard)).toMatchObject({ units: 'mm', diameterProgramming: true, xFeedOnDiameter: false, incrementalAxes: {} });
    expect(dialectOf({ ...inventedCard, units: 'inch', incrementalAxes: { U: 'X' } })).toMatchObject({ units: 'inch', incrementalAxes: { U: 'X' } });
  });

  it('has one pattern for each code that the card says, and none for the others', () => {
    expect(dialectOf(inventedCard).patterns.map(({ name }) => name)).toEqual(Object.keys(inventedCard.codes));
    expect(dialectOf(openStandardCard).patterns.map(({ name }) => name)).not.toContain('syncOn');
  });

  it('recognises a template of several blocks by the one that carries the figures', () => {
    const { patterns } = dialectOf({ ...inventedCard, codes: { syncOn: ['M05', 'G881 P{starts} Q{teeth}', 'M06'] } });
    expect(patterns).toEqual([{ name: 'syncOn', words: [{ letter: 'G', value: 881 }, { letter: 'P', slot: 'starts' }, { letter: 'Q', slot: 'teeth' }] }]);
  });

  it('has rapid speeds only where the card has them', () => {
    expect(dialectOf(inventedCard).rapid).toBeUndefined();
    expect(dialectOf({ ...inventedCard, rapids: { x: 18000, c: undefined } }).rapid).toEqual({ x: 18000 });
  });
});

describe('the card', () => {
  it('finds the first unit of a kind', () => {
    expect(toolUnit(inventedCard, 'stroke')?.totalStroke).toBe(40);
    expect(toolUnit(inventedCard, 'highSpeed')).toBeUndefined();
  });

  it('names the key that would fill a hole, and none where no key would', () => {
    expect(keyOfHole('syncOn')).toBe('codes.syncOn');
    expect(keyOfHole('sense')).toBe('senses.workRotation');
    expect(keyOfHole('rpm')).toBeUndefined();
    expect(keyOfHole('toString')).toBeUndefined();
  });

  it('knows a key for each of its codes', () => {
    const names = Object.keys(machineCardSchema.shape.codes.unwrap().shape);
    expect(names.length).toBeGreaterThan(15);
    for (const name of names) expect(keyOfHole(name)).toBe(`codes.${name}`);
  });
});
