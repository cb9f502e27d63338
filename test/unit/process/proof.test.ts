/** What prove does with notes that it cannot prove, and with programs that have none: nothing passes in silence. */
import { describe, expect, it } from 'vitest';
import { proofText } from '../../../server/src/assist/proof-text.ts';
import { composedProgram, inventedCard, prove } from '../cut/composed-programs.ts';

const card = inventedCard();
const keyway = composedProgram('keyway', { BORE: '20', LENGTH: '5', RPM: '800', FEED: '0.05' }, card);

function refusals(text: string): string[] {
  return prove(text, card).map(({ refused }) => refused ?? '');
}

describe('a note that cannot be proved', () => {
  it.each<[string, string, RegExp]>([
    ['without its end', keyway.replace('(END KEYWAY)\n', ''), /^\(END KEYWAY\) is missing: it is not known where the block ends\.$/],
    ['with text that is no parameter', keyway.replace('BORE=20', 'BORE=20 WIDE'), /^The note cannot be read: .*WIDE/],
    ['with a wrong value', keyway.replace('BORE=20', 'BORE=-20'), /^The note cannot be read: BORE: -20/],
    ['with a name that no process has', keyway.replace('(KEYWAY:', '(KEYWEY:'), /^"KEYWEY" is no process; KEYWAY may be meant\.$/],
  ])('%s', (_, text, message) => {
    expect(text).not.toBe(keyway);
    expect(refusals(text)).toEqual([expect.stringMatching(message)]);
    expect(proofText('p.nc', prove(text, card))).toMatch(/^KEYWAY, lines \d+ to \d+: not proved\np\.nc:\d+ error not-proved /);
  });

  it('with a block that does not move', () => {
    const text = keyway.replace(/\nG94[^]*(?=\n\(END KEYWAY\))/, '');
    expect(prove(text, card)[0]!.proof!.findings.map(({ rule }) => rule)).toContain('slot-nothing');
  });
});

describe('a program with nothing to prove', () => {
  it('says what was looked for', () => {
    const stretches = prove('G21 G90 G94\nT0101\nG00 X10.0 Z5.0\nM30\n', card);
    expect(stretches).toEqual([]);
    expect(proofText('p.nc', stretches)).toMatch(/^Nothing to prove: there is no note of a process \(HOBBING, KEYWAY, SLOTTING, ENGRAVING, HANDOVER\)/);
  });
});

describe('the verdict in words', () => {
  const verdict = (text: string): string => proofText('p.nc', prove(text, card)).split('\n')[0]!;
  const mark = composedProgram('engraving', { TEXT: 'I', HEIGHT: '4', DEPTH: '0.12', 'TIP-DIA': '0.1', 'TIP-ANGLE': '60', FLUTES: '2', RPM: '30000', 'CHIP-LOAD': '0.01', 'AT-X': '44' }, card);

  it.each([
    ['right', keyway, /: cuts what the note asks for$/],
    ['with a warning', mark.replace('M193\n', ''), /: cuts what the note asks for, with a warning$/],
    ['wrong', keyway.replace('C0.0', 'C3.0'), /: does not cut what the note asks for$/],
  ])('%s', (_, text, words) => {
    expect(verdict(text)).toMatch(words);
  });
});
