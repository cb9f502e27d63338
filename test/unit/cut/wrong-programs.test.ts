import { describe, expect, it } from 'vitest';
import { composedProgram, figure, inventedCard, provedStretch, rulesOf, usualMachine } from './composed-programs.ts';

/**
 * Programs that are right, and the same ones made wrong in one word. Every
 * mistake must be named by the rule that is meant for it.
 */
const card = inventedCard({ ...usualMachine, differential: 'lead' });

const helicalNote = {
  MODULE: '1.5', TEETH: '20', HELIX: '15', FACE: '8', 'HOB-DIA': '50', 'HOB-GASHES': '10', 'HOB-LENGTH': '50', SPEED: '50', FEED: '1',
};
const helical = composedProgram('hobbing', helicalNote, card);
const keywayNote = { BORE: '50', WIDTH: '14', DEPTH: '3.8', LENGTH: '32', RPM: '1000', FEED: '0.05' };
const keyway = composedProgram('keyway', keywayNote, card);

/** Changes one place; a change that finds nothing is a mistake of the test. */
function changed(text: string, pattern: RegExp, replacement: string): string {
  const result = text.replace(pattern, replacement);
  if (result === text) throw new Error(`${pattern} is not in\n${text}`);
  return result;
}

/** The X word at which the hob stands in the cut, and the Z words where the feed begins and ends. */
const cutX = Number(/G00 X([\d.]+)\nG01 Z/.exec(helical)![1]);
const startZ = Number(/G00 Y\S+ Z([-\d.]+)/.exec(helical)![1]);
const endZ = Number(/G01 Z([-\d.]+)/.exec(helical)![1]);
const feed = Number(/G01 Z\S+ F([\d.]+)/.exec(helical)![1]);

describe('the right programs', () => {
  it('hobbing: nothing to object to', () => {
    const stretch = provedStretch(helical, card);
    expect(stretch.refused).toBeUndefined();
    expect(stretch.proof!.findings).toEqual([]);
    expect(figure(stretch, 'teeth').value).toBe(20);
    expect(figure(stretch, 'helixAngle').value).toBeCloseTo(15, 2);
  });

  it('keyway: nothing to object to', () => {
    const stretch = provedStretch(keyway, card);
    expect(stretch.proof!.findings).toEqual([]);
    // The 7-24-25 triangle of the keyway notes (derived): 3.8 deep on the middle line, 14 wide.
    expect(figure(stretch, 'slotDepth1').value).toBeCloseTo(3.8, 4);
    expect(figure(stretch, 'slotWidth1').value).toBeCloseTo(14, 3);
    expect(figure(stretch, 'slotLength1').value).toBeCloseTo(32, 2);
  });
});

describe('a differential written as C moves with Z', () => {
  const plainSync = inventedCard(usualMachine, { codes: { ...card.codes, syncOn: 'G137 P{starts} Q{sense}{teeth}' } });
  // 360 degrees over the lead of pi 1.5 20 / sin 15 degrees, for one mm along Z (gear notes, section 1); a right-hand gear turns back as the hob goes down.
  const perLength = (360 * Math.sin(Math.PI / 12)) / (Math.PI * 1.5 * 20);
  const turn = perLength * (startZ - endZ);
  const withC = (degrees: number): string => {
    const plain = changed(helical, / R[\d.]+\n/, '\n');
    const homed = changed(plain, /M191\n/, 'M191\nG00 C0.0\n');
    return changed(homed, /(G01 Z\S+)/, `$1 C${degrees.toFixed(5)}`);
  };

  it('cuts the helix', () => {
    const stretch = provedStretch(withC(turn), plainSync);
    expect(stretch.proof!.findings).toEqual([]);
    expect(figure(stretch, 'helixAngle').value).toBeCloseTo(15, 2);
  });

  it.each([['with the wrong sign', -turn], ['left out', 0], ['half of it', turn / 2]])('%s', (_, degrees) => {
    expect(rulesOf(provedStretch(withC(degrees), plainSync))).toContain('cut-differential');
  });
});

describe('hobbing made wrong', () => {
  const wrong: Array<[string, string, string]> = [
    ['the sign of the ratio', changed(helical, /Q-20/, 'Q20'), 'cut-direction'],
    ['starts and teeth interchanged', changed(helical, /P1 Q-20/, 'P20 Q-1'), 'cut-ratio'],
    ['a tooth too many in the ratio', changed(helical, /Q-20/, 'Q-21'), 'cut-ratio'],
    ['the differential is missing', changed(helical, /R[\d.]+\n/, 'R0.0\n'), 'cut-differential'],
    ['the differential has the wrong sign', changed(helical, /R([\d.]+)\n/, 'R-$1\n'), 'cut-differential'],
    ['a differential a tenth too large', changed(helical, /R[\d.]+\n/, 'R330.\n'), 'cut-differential'],
    ['not synchronised', changed(helical, /G137.*\n/, ''), 'cut-unsynchronised'],
    ['synchronism ended before the cut', changed(helical, /(G137.*\n)/, '$1G138\n'), 'cut-unsynchronised'],
    ['feed counted on the tool instead of the work', changed(helical, /F[\d.]+/, `F${(feed * 20).toFixed(3)}`), 'cut-feed'],
    ['X taken as a radius', changed(helical, new RegExp(`X${cutX}`), `X${(cutX / 2).toFixed(4)}`), 'cut-teeth'],
    ['X doubled', changed(helical, new RegExp(`X${cutX}`), `X${(2 * cutX).toFixed(4)}`), 'cut-nothing'],
    ['not deep enough', changed(helical, new RegExp(`X${cutX}`), `X${(cutX + 0.1).toFixed(4)}`), 'cut-depth'],
    ['too deep, so too thin', changed(helical, new RegExp(`X${cutX}`), `X${(cutX - 0.1).toFixed(4)}`), 'cut-span'],
    ['no free travel before the teeth', changed(helical, new RegExp(`Z${startZ}`, 'g'), 'Z1.0'), 'cut-rapid'],
    ['the feed begins inside the teeth', changed(helical, new RegExp(`Z${startZ}`, 'g'), 'Z-3.0'), 'cut-travel'],
    ['the feed ends inside the teeth', changed(helical, new RegExp(`Z${endZ}`), 'Z-4.0'), 'cut-travel'],
    ['a block for the other hand of gear', changed(helical, /FACE=8/, 'FACE=8 HAND=LEFT'), 'cut-differential'],
    ['a block for the other hand of hob', changed(helical, /HOB-DIA=50/, 'HOB-DIA=50 HOB-HAND=LEFT'), 'cut-direction'],
    ['a block for another number of starts', changed(helical, /HOB-DIA=50/, 'HOB-DIA=50 HOB-STARTS=2'), 'cut-ratio'],
    ['a block for another number of teeth', changed(helical, /TEETH=20/, 'TEETH=21'), 'cut-ratio'],
    ['a block for a smaller hob', changed(helical, /HOB-DIA=50/, 'HOB-DIA=56'), 'cut-depth'],
    ['the work turned by C while coupled', changed(helical, /(G01 Z.*\n)/, 'G00 C7.0\n$1'), 'cut-index'],
    ['the tool changed while coupled', changed(helical, /(G01 Z.*\n)/, '$1T0707\n'), 'cut-index'],
    ['the hob not started', changed(helical, /M123.*\n/, ''), 'cut-standing-hob'],
    ['the hob turned the other way', changed(helical, /M123/, 'M124'), 'cut-method'],
    ['the hob shifted beyond its end', changed(helical, /G00 Y0\.0 Z/, 'G00 Y27.0 Z'), 'cut-profile'],
  ];

  it.each(wrong)('%s', (_, text, rule) => {
    const stretch = provedStretch(text, card);
    expect(stretch.refused).toBeUndefined();
    expect(rulesOf(stretch)).toContain(rule);
  });

  it('a machine that counts C the other way', () => {
    const other = inventedCard({ ...usualMachine, differential: 'lead', workRotation: -1 });
    expect(rulesOf(provedStretch(helical, other))).toContain('cut-direction');
  });

  it('a machine with the hob on the other side', () => {
    const mirrored = helical.replace(/X([\d.]+)/g, 'X-$1');
    expect(rulesOf(provedStretch(mirrored, card))).toContain('cut-direction');
  });

  it('the hand of the gear shows in the cut itself', () => {
    const straightened = changed(helical, /R([\d.]+)\n/, 'R-$1\n');
    const stretch = provedStretch(changed(straightened, /FACE=8/, 'FACE=2'), card);
    expect(rulesOf(stretch).some((rule) => rule === 'cut-hand' || rule === 'cut-teeth')).toBe(true);
  });

  it('names the line of the synchronising word, not the last one', () => {
    const text = changed(helical, /Q-20/, 'Q20');
    const found = provedStretch(text, card).proof!.findings.find(({ rule }) => rule === 'cut-direction')!;
    expect(text.split('\n')[found.line]).toContain('G137');
  });
});

describe('a keyway made wrong', () => {
  const endX = Number(/G01 X([\d.]+)/.exec(keyway)![1]);
  const wide = composedProgram('keyway', { ...keywayNote, INSERT: '10' }, card);
  const twice = composedProgram('keyway', { ...keywayNote, COUNT: '2' }, card);

  const wrong: Array<[string, string, string]> = [
    ['infeed from the bore without the sagitta', changed(keyway, /(G01 X)/, 'G00 X50.0\n$1'), 'slot-bite'],
    ['X taken as a radius', changed(keyway, new RegExp(`G01 X${endX}`), `G01 X${endX / 2}`), 'slot-nothing'],
    ['the measuring size taken for X', changed(keyway, /G01 X57\.6/, 'G01 X53.8'), 'slot-depth'],
    ['depth counted from the corner', changed(keyway, /G01 X57\.6/, 'G01 X55.6'), 'slot-depth'],
    ['the work turned by a wrong angle', changed(keyway, /C0\.0/, 'C5.0'), 'slot-position'],
    ['the unit not started', changed(keyway, /M123.*\n/, ''), 'slot-not-stroking'],
    ['the unit too far before the face', changed(keyway, /Z2\.0/, 'Z7.0'), 'slot-length'],
    ['the unit too deep in the bore', changed(keyway, /Z2\.0/, 'Z-3.0'), 'slot-length'],
    ['no spark-out', changed(keyway, /G04.*\n/, ''), 'slot-floor'],
    ['the insert beside the middle', changed(keyway, /Y0\.0/, 'Y0.4'), 'slot-centre'],
    ['ten times the feed', changed(keyway, /F([\d.]+)/, 'F500.0'), 'slot-bite'],
    ['a side pass left out', changed(wide, /G00 Y2\.\S*\n/, ''), 'slot-width'],
    ['a side pass made by turning the work', changed(wide, /G00 Y2\.\S*\n/, 'G00 Y0.0\nG00 C4.0\n'), 'slot-floor'],
    ['the second keyway not indexed', changed(twice, /C180\.0/, 'C0.0'), 'slot-count'],
    ['the second keyway clocked off', changed(twice, /C180\.0/, 'C179.0'), 'slot-position'],
  ];

  it.each(wrong)('%s', (_, text, rule) => {
    const stretch = provedStretch(text, card);
    expect(stretch.refused).toBeUndefined();
    expect(rulesOf(stretch)).toContain(rule);
  });
});

describe('what is not known is refused, not guessed', () => {
  it('a block with holes', () => {
    const open = inventedCard({ ...usualMachine, differential: 'lead' }, { codes: { feedPerMinute: 'G94' } });
    const stretch = provedStretch(changed(helical, /G137.*/, '<syncOn>'), open);
    expect(stretch.proof).toBeUndefined();
    expect(stretch.refused).toContain('<syncOn>');
  });

  it('hobbing without a note', () => {
    const bare = helical.replace(/^\(.*\n/gm, '');
    expect(provedStretch(bare, card).refused).toContain('no HOBBING note');
    expect(provedStretch(`(UNIT: STATION 5)\n${bare}`, card).refused).toContain('no HOBBING note');
  });

  it('a feed that nobody wrote', () => {
    expect(provedStretch(changed(helical, / F[\d.]+/, ''), card).refused).toContain('how long');
  });

  it('an arc', () => {
    const bent = changed(helical, /(G01 Z.*\n)/, '$1G18 G02 X60.0 Z-20.0 I5.0 K0.0\n');
    expect(provedStretch(bent, card).refused).toContain('arc');
  });

  it('a move whose kind is not known', () => {
    const nameless = changed(helical, /(G01 Z.*\n)/, '$1G80\nZ-20.0\n');
    expect(provedStretch(nameless, card).refused).toContain('not known how line');
  });

  it('a note that cannot be read', () => {
    expect(provedStretch(changed(helical, /TEETH=20/, 'TEETH=0'), card).refused).toContain('TEETH');
  });

  it('says what it takes for granted when the card is silent', () => {
    const silent = inventedCard({ ...usualMachine, differential: 'lead' }, { senses: {}, rapids: undefined });
    const { assumptions } = provedStretch(helical, silent).proof!;
    expect(assumptions.join(' ')).toMatch(/senses\.workRotation.*senses\.toolRotation.*rapid/i);
  });
});
