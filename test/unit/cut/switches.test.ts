/**
 * What must be on while a block works and off when it ends: right blocks pass,
 * and each word that switches something, left out, is named by its code. Which
 * words those are is the safe order of such a job (common practice, no source).
 */
import { describe, expect, it } from 'vitest';
import type { MachineCard } from '../../../server/src/machine/card.ts';
import { composedProgram, inventedCard, prove, provedStretch, usualMachine } from './composed-programs.ts';

const sub = { zSense: 1, ySense: -1, workRotation: 1 } as const;
const card = inventedCard({ ...usualMachine, sub }, {});
const withCylinder = { ...card, codes: { ...card.codes, inverseTime: 'G93' } } satisfies MachineCard;

const slot = { BORE: '30', LENGTH: '12', FEED: '0.05', RPM: '800' };
const mark = { TEXT: 'H', HEIGHT: '4', DEPTH: '0.12', 'TIP-DIA': '0.1', 'TIP-ANGLE': '60', FLUTES: '2', RPM: '30000', 'CHIP-LOAD': '0.01', 'AT-X': '44' };
const gear = { MODULE: '1.5', TEETH: '14', FACE: '5', 'HOB-DIA': '50', 'HOB-GASHES': '10', RPM: '400', FEED: '1' };
const onSub = { SPINDLE: 'SUB' };

const blocks = {
  hobbing: composedProgram('hobbing', gear, card),
  'hobbing on the sub-spindle': composedProgram('hobbing', { ...gear, ...onSub }, card),
  keyway: composedProgram('keyway', slot, card),
  'keyway on the sub-spindle': composedProgram('keyway', { ...slot, ...onSub }, card),
  'static keyway': composedProgram('keyway', { ...slot, METHOD: 'STATIC', SPEED: '8', FEED: '0.2' }, card),
  square: composedProgram('slotting', { SHAPE: 'SQUARE', BORE: '20', 'ACROSS-FLATS': '19.8', LENGTH: '10', RPM: '800', FEED: '0.05' }, card),
  'engraving on the face': composedProgram('engraving', mark, card),
  'engraving on the face in the sub-spindle': composedProgram('engraving', { ...mark, ...onSub }, card),
  'engraving round the cylinder': composedProgram('engraving', { ...mark, SURFACE: 'CYLINDER', DIA: '40', 'AT-Z': '-10' }, withCylinder),
} as const;
type BlockName = keyof typeof blocks;

/** Takes out the last line that is this word alone, or begins with it. */
function without(name: BlockName, word: string): string {
  const lines = blocks[name].split('\n');
  const at = lines.findLastIndex((line) => line === word || line.startsWith(`${word} `));
  if (at < 0) throw new Error(`${word} is not in ${name}`);
  return lines.filter((_, index) => index !== at).join('\n');
}

const ruleOfSwitches = /^(left-|work-axis-off)/;

function found(text: string): string[] {
  // Where the coupling is left on, what follows is a stretch of its own.
  const { proof, refused } = prove(text, withCylinder)[0]!;
  if (!proof) throw new Error(refused);
  return proof.findings.filter(({ rule }) => ruleOfSwitches.test(rule)).map(({ severity, rule, line, message }) => `${severity} ${rule} | ${text.split('\n')[line]!} | ${message}`);
}

describe('the whole block', () => {
  it.each(Object.keys(blocks) as BlockName[])('%s: nothing to object to', (name) => {
    expect(provedStretch(blocks[name], withCylinder).proof!.findings).toEqual([]);
  });
});

describe('a word left out', () => {
  it.each<[BlockName, string, RegExp]>([
    ['hobbing', 'M191', /^error work-axis-off \| .* M191 \(codes\.workAxisOn\) is missing/],
    ['hobbing', 'M125', /^error left-turning \| \(END HOBBING\) \| .*M125 \(codes\.drivenStop\)/],
    ['hobbing', 'G138', /^error left-coupled \| \(END HOBBING\) \| .*G138 \(codes\.syncOff\)/],
    ['hobbing', 'M192', /^warning left-as-axis \| \(END HOBBING\) \| .*main spindle.*M192 \(codes\.workAxisOff\)/],
    ['hobbing on the sub-spindle', 'M291', /^error work-axis-off \| .* M291 \(codes\.subAxisOn\)/],
    ['hobbing on the sub-spindle', 'M125', /^error left-turning/],
    ['hobbing on the sub-spindle', 'G238', /^error left-coupled .*G238 \(codes\.subSyncOff\)/],
    ['hobbing on the sub-spindle', 'M292', /^warning left-as-axis .*sub-spindle.*M292 \(codes\.subAxisOff\)/],
    ['keyway', 'M191', /^error work-axis-off \| G00 C0\.0 \|/],
    ['keyway', 'M125', /^error left-turning/],
    ['keyway', 'M194', /^error left-clamped \| \(END KEYWAY\) \| .*M194 \(codes\.workUnclamp\)/],
    ['keyway', 'M192', /^warning left-as-axis/],
    ['keyway on the sub-spindle', 'M291', /^error work-axis-off/],
    ['keyway on the sub-spindle', 'M294', /^error left-clamped/],
    ['static keyway', 'M191', /^error work-axis-off/],
    ['static keyway', 'M194', /^error left-clamped/],
    ['square', 'M191', /^error work-axis-off/],
    ['square', 'M125', /^error left-turning/],
    ['engraving on the face', 'M191', /^error work-axis-off/],
    ['engraving on the face', 'M125', /^error left-turning/],
    ['engraving on the face', 'M194', /^error left-clamped/],
    ['engraving on the face in the sub-spindle', 'M291', /^error work-axis-off/],
    ['engraving round the cylinder', 'M191', /^error work-axis-off/],
    ['engraving round the cylinder', 'M192', /^warning left-as-axis/],
  ])('%s without its last %s', (name, word, message) => {
    expect(found(without(name, word))).toEqual([expect.stringMatching(message)]);
  });

  it('the axis given back before the cut is over', () => {
    expect(found(blocks.keyway.replace(/(G01 X.*\n)/, 'M192\n$1'))).toEqual([expect.stringMatching(/^error work-axis-off \| G01 X/)]);
  });

  it('the words of the other spindle do not do', () => {
    expect(found(blocks['keyway on the sub-spindle'].replace('M291', 'M191'))).toEqual([expect.stringMatching(/work-axis-off .*sub-spindle/)]);
  });

  it('a driven tool that turned before a static block is not its matter', () => {
    expect(found(blocks['static keyway'].replace('T0101\n', 'T0101\nM123 S500\n'))).toEqual([]);
  });
});

describe('a card that does not say the word', () => {
  it.each<[BlockName, keyof MachineCard['codes']]>([['keyway', 'workAxisOn'], ['keyway', 'drivenStop'], ['static keyway', 'workAxisOff'], ['hobbing', 'drivenStop'], ['hobbing on the sub-spindle', 'subAxisOn']])('%s is refused without codes.%s', (name, code) => {
    const own = { ...card, codes: { ...card.codes, [code]: '' } };
    expect(prove(blocks[name], own).map(({ refused }) => refused)).toEqual([expect.stringContaining(`codes.${code}`)]);
  });

  it('a static block needs no word for the driven tool', () => {
    const own = { ...card, codes: { ...card.codes, drivenStart: '', drivenStop: '' } };
    expect(provedStretch(blocks['static keyway'], own).refused).toBeUndefined();
  });
});
