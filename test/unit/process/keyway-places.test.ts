/** Keyways clocked to a gear, blind, wider than the insert, and in the sub-spindle. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { MachineCard } from '../../../server/src/machine/card.ts';
import { openStandardCard } from '../../../server/src/machine/open-standard.ts';
import { keyway } from '../../../server/src/process/keyway.ts';
import { inventedCard } from '../../invented-machine.ts';
import { checkFigures, figureOf, metric, values } from './figures.ts';
import { composed, numberIn, plainAxes, subCard } from './sub-spindle.ts';

const slot = 'BORE=30 LENGTH=25 RPM=500 FEED=0.05';
const anglesOf = (blocks: readonly string[]) => blocks.filter((block) => block.startsWith('G00 C')).map((block) => numberIn(block, 'C'));

describe('clocked to a gear', () => {
  checkFigures(keyway, [
    { name: 'the second space of 24 behind a tooth at 3 deg: 3 + 1.5 x 15', source: 'geometry of the cut', standing: 'derived', values: `${slot} CLOCK-TO=SPACE GEAR-TEETH=24 TOOTH-ANGLE=3 TOOTH-NO=1`, expected: { clockedToGear: [25.5, 9] } },
  ]);

  it('the keyway stands there, less whole turns, and the others follow evenly', () => {
    expect(anglesOf(composed(keyway, `${slot} CLOCK-TO=TOOTH GEAR-TEETH=24 TOOTH-ANGLE=-3 COUNT=2`).blocks)).toEqual([357, 537]);
    expect(anglesOf(composed(keyway, `${slot} CLOCK-TO=SPACE GEAR-TEETH=24 TOOTH-ANGLE=3 TOOTH-NO=1 ANGLE=90`).blocks)).toEqual([115.5]);
  });

  it('the operator reads to what', () => {
    expect(composed(keyway, `${slot} CLOCK-TO=SPACE GEAR-TEETH=24 TOOTH-ANGLE=3`).comments.join('\n')).toContain('(CLOCKED TO A SPACE OF THE GEAR WITH 24 TEETH, ONE TOOTH AT C 3.0)');
  });

  it('a gear whose teeth may stand anywhere is an error, never taken as 0', () => {
    const { lines, problems } = composed(keyway, `${slot} CLOCK-TO=TOOTH GEAR-TEETH=24`);
    expect(lines).toEqual([]);
    expect(problems).toEqual([expect.objectContaining({ parameter: 'TOOTH-ANGLE', rule: 'missing-parameter', severity: 'error', message: expect.stringMatching(/CLOCK-TO=TOOTH needs C of the middle of a tooth.*may stand anywhere/) as string })]);
  });

  it.each([['GEAR-TEETH=24', 'GEAR-TEETH'], ['TOOTH-ANGLE=5', 'TOOTH-ANGLE']])('%s without CLOCK-TO is not passed over', (text, parameter) => {
    expect(composed(keyway, `${slot} ${text}`).problems).toEqual([expect.objectContaining({ parameter, rule: 'bad-value', message: expect.stringMatching(/the keyway is not clocked/) as string })]);
  });

  it('for any tooth: the distance to the tooth is whole pitches, and half of one more for a space [derived]', () => {
    fc.assert(fc.property(fc.constantFrom('TOOTH', 'SPACE'), fc.integer({ min: 5, max: 200 }), fc.integer({ min: -360, max: 360 }), fc.integer({ min: -1000, max: 1000 }), (target, teeth, tooth, index) => {
      const [angle = NaN] = anglesOf(composed(keyway, `${slot} CLOCK-TO=${target} GEAR-TEETH=${teeth} TOOTH-ANGLE=${tooth} TOOTH-NO=${index}`).blocks);
      const pitches = ((angle - tooth) / 360) * teeth - (target === 'SPACE' ? 0.5 : 0);
      expect(Math.abs(pitches - Math.round(pitches))).toBeLessThan(0.001);
      expect(angle).toBeGreaterThanOrEqual(0);
      expect(angle).toBeLessThanOrEqual(360);
    }), { numRuns: 60 });
  });
});

describe('blind, into a relief groove', () => {
  it('the operator reads where the groove must be and how deep', () => {
    expect(composed(keyway, `${slot} RELIEF=4`).comments).toContain('(BLIND: RELIEF GROOVE FROM Z-25.0 TO Z-29.0, DEEPER THAN X36.6, MUST BE THERE)');
  });

  it('a through keyway says nothing of a groove', () => {
    expect(composed(keyway, slot).comments.join('\n')).not.toContain('RELIEF');
  });

  it('little room behind the stroke is a warning [from memory]', () => {
    expect(composed(keyway, `${slot} RELIEF=2.5`).problems).toEqual([expect.objectContaining({ parameter: 'RELIEF', rule: 'narrow-relief', severity: 'warning' })]);
    expect(composed(keyway, `${slot} RELIEF=3`).problems).toEqual([]);
  });
});

describe('wider than the insert', () => {
  it('the passes leave no ridge: they overlap, and reach the middle of the width limits on both sides [derived]', () => {
    fc.assert(fc.property(fc.integer({ min: 20, max: 79 }), fc.constantFrom('JS9', 'P9', 'D10'), (tenths, fit) => {
      const text = `BORE=30 LENGTH=25 RPM=500 FEED=0.05 INSERT=${tenths / 10} FIT=${fit}`;
      const insert = tenths / 10;
      const { blocks } = composed(keyway, text);
      const offsets = blocks.slice(blocks.indexOf('M10')).filter((block) => block.startsWith('G00 Y')).slice(0, -1).map((block) => numberIn(block, 'Y')).sort((one, other) => one - other);
      const evaluation = keyway.evaluate(values(text), metric);
      const middle = (figureOf(evaluation, 'widthUpper') + figureOf(evaluation, 'widthLower')) / 2;
      expect((offsets.at(-1) ?? NaN) - (offsets[0] ?? NaN) + insert).toBeCloseTo(middle, 2);
      offsets.slice(1).forEach((offset, index) => expect(offset - (offsets[index] ?? NaN)).toBeLessThan(insert));
    }), { numRuns: 60 });
  });

  it('every pass ends at the same X, so the floor is one plane; the operator reads the step of an edge out of square', () => {
    const { blocks, comments } = composed(keyway, `${slot} INSERT=5`);
    expect(new Set(blocks.filter((block) => block.startsWith('G01 X')))).toEqual(new Set(['G01 X36.6 F25.0']));
    // (8 - 5) tan(0.1 deg) = 0.005 [derived]
    expect(comments.join(' ').replaceAll(') (', ' ')).toContain('SIDE PASSES TO Y +-1.5: ONE PLANE FLOOR, 0.005 STEP FOR AN EDGE 0.1 DEG OUT OF SQUARE');
  });
});

describe('the travel of the machine', () => {
  const narrow: MachineCard = { ...subCard, limits: { x: [-10, 36], y: [-1, 1], z: [-20, 50] } };

  it.each<[string, string, RegExp]>([
    ['BORE', slot.replace('LENGTH=25', 'LENGTH=10'), /^BORE: X would go to 36\.6, which is beyond the machine: it must be from -10 to 36 mm\.$/],
    ['INSERT', `${slot.replace('BORE=30 LENGTH=25', 'BORE=25 LENGTH=10')} INSERT=5`, /^INSERT: Y would go to -1\.5, /],
    ['FACE-Z', slot.replace('BORE=30', 'BORE=25'), /^FACE-Z: Z would go to -27, /],
  ])('is an error on %s', (parameter, text, message) => {
    expect(composed(keyway, text, narrow).problems).toEqual([expect.objectContaining({ parameter, rule: 'machine-limit', severity: 'error', message: expect.stringMatching(message) as string })]);
  });

  it('of Z does not count in the sub-spindle, which has its own zero', () => {
    expect(composed(keyway, `${slot.replace('BORE=30', 'BORE=25')} SPINDLE=SUB`, narrow).problems).toEqual([]);
  });
});

describe('in the sub-spindle', () => {
  it('Z leaves the face as the card says, and the codes are those of the sub-spindle', () => {
    expect(composed(keyway, `${slot} SPINDLE=SUB FACE-Z=100 COUNT=2`, subCard).blocks).toEqual([
      'G94', 'G00 Z69.0', 'G00 X27.914 Y0.0', 'G00 Z98.0', 'M981', 'M883 S500', 'M08', 'M911', 'G00 C0.0', 'M910', 'G01 X36.6 F25.0', 'G04 P0.24', 'G00 X27.914',
      'M911', 'G00 C180.0', 'M910', 'G01 X36.6 F25.0', 'G04 P0.24', 'G00 X27.914', 'M09', 'M885', 'G00 Z69.0', 'M911', 'M980',
    ]);
  });

  it('where growing Z leaves the face there too, Z words are those of the main spindle', () => {
    const card: MachineCard = { ...subCard, subSpindle: { ...plainAxes, zSense: 1 } };
    expect(composed(keyway, `${slot} SPINDLE=SUB`, card).blocks).toContain('G00 Z2.0');
  });

  it.each<[string, MachineCard]>([['no sub-spindle', inventedCard], ['no sense of Z', { ...subCard, subSpindle: { ySense: -1, workRotation: 1 } }]])('a card with %s is an error that names the key', (_name, card) => {
    const { lines, problems } = composed(keyway, `${slot} SPINDLE=SUB`, card);
    expect(lines).toEqual([]);
    expect(problems).toEqual([expect.objectContaining({ parameter: 'SPINDLE', cardKey: 'subSpindle.zSense', rule: 'unstated-sense', severity: 'error' })]);
  });

  it('codes that the card does not say are holes', () => {
    const { blocks, problems } = composed(keyway, `${slot} SPINDLE=SUB`, { ...inventedCard, subSpindle: { zSense: -1 } });
    expect(blocks).toEqual(expect.arrayContaining(['<subAxisOn>', '<subUnclamp>', '<subClamp>', '<subAxisOff>']));
    expect([...new Set(problems.map(({ rule, cardKey }) => `${rule} ${cardKey ?? ''}`))].sort()).toEqual(['hole codes.subAxisOff', 'hole codes.subAxisOn', 'hole codes.subClamp', 'hole codes.subUnclamp']);
  });

  it('the built-in card knows no sub-spindle', () => {
    expect(composed(keyway, `${slot} SPINDLE=SUB`, openStandardCard).lines).toEqual([]);
  });
});

describe('a stated flatness of the floor', () => {
  const wide = 'BORE=50 WIDTH=14 DEPTH=3.8 LENGTH=25 RPM=500 FEED=0.05 INSERT=8';

  checkFigures(keyway, [
    { name: 'an insert of 10 that stands 0.1 deg aside leaves 0.0175', source: 'geometry', standing: 'derived', values: wide.replace('INSERT=8', 'INSERT=10'), expected: { floorTilt: [0.0175, 4] } },
  ]);

  it('that the insert does not keep is a warning that names a narrower one', () => {
    expect(composed(keyway, `${wide} FLATNESS=0.014`).problems).toEqual([]);
    expect(composed(keyway, `${wide} FLATNESS=0.01`).problems).toEqual([expect.objectContaining({ parameter: 'FLATNESS', rule: 'flatness', severity: 'warning', message: expect.stringMatching(/stands 0\.1 deg aside: 0\.014\. Better an INSERT of at most 5\.73,/) as string })]);
    expect(composed(keyway, `${wide.replace('INSERT=8', 'INSERT=5.7')} FLATNESS=0.01`).problems).toEqual([]);
  });
});
