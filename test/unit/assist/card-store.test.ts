import { describe, expect, it } from 'vitest';
import { CardStore } from '../../../server/src/assist/card-store.ts';
import { inventedCardText } from '../../invented-machine.ts';

const uri = 'file:///shop/lathe%20one.machine.json';

describe('the card in use', () => {
  it('is the open-standard one at first', () => {
    expect(new CardStore().current).toMatchObject({ card: { name: 'Open standard words only' } });
    expect(new CardStore().current.uri).toBeUndefined();
  });

  it('is the one that was read', () => {
    const store = new CardStore();
    store.use(uri, inventedCardText);
    expect(store.current).toMatchObject({ uri, card: { name: 'Invented lathe' } });
    expect(store.current.fault).toBeUndefined();
    expect(store.current.dialect.patterns.map(({ name }) => name)).toContain('syncOn');
  });

  it.each<[string, string | undefined, RegExp]>([
    ['a wrong key', inventedCardText.replace('"units"', '"unit"'), /^The machine card lathe one\.machine\.json is not usable: "unit" is not a key of a machine card/],
    ['broken JSON', inventedCardText.slice(0, 100), /is not usable: The card is not valid JSON here/],
    ['a file that is gone', undefined, /^The machine card lathe one\.machine\.json cannot be read\.$/],
  ])('stays the last good one after %s, and says why', (_name, text, fault) => {
    const store = new CardStore();
    store.use(uri, inventedCardText);
    const before = store.current.card;
    store.use(uri, text);
    expect(store.current.card).toBe(before);
    expect(store.current.fault).toMatch(fault);
    store.use(uri, inventedCardText.replace('Invented lathe', 'Mended'));
    expect(store.current).toMatchObject({ card: { name: 'Mended' } });
    expect(store.current.fault).toBeUndefined();
  });

  it('is never the good card of another machine when the one that is named is faulty', () => {
    const store = new CardStore();
    store.use(uri, inventedCardText);
    store.use('file:///shop/other.machine.json', '{');
    expect(store.current).toMatchObject({ card: { name: 'Open standard words only' }, uri: 'file:///shop/other.machine.json', fault: expect.stringContaining('other.machine.json') as string });
  });

  it('is read with the block skip switch as it stands, whichever card it is', () => {
    const store = new CardStore();
    const off = store.current.dialect;
    store.setBlockSkip(true);
    const seen = [off.skipBlocks, store.current.dialect.skipBlocks];
    store.use(uri, inventedCardText);
    seen.push(store.current.dialect.skipBlocks);
    store.use('file:///shop/other.machine.json', '{');
    seen.push(store.current.dialect.skipBlocks);
    store.setBlockSkip(false);
    store.useBuiltIn();
    expect(seen).toEqual([false, true, true, true]);
    // The same object again, so that programs which are open are not read anew for nothing.
    expect(store.current.dialect).toBe(off);
  });

  it('is the open-standard one again when no card is named any more', () => {
    const store = new CardStore();
    store.use(uri, inventedCardText);
    store.useBuiltIn();
    expect(store.current.uri).toBeUndefined();
    expect(store.current.card.name).toBe('Open standard words only');
  });
});
