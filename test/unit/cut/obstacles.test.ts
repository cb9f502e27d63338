/**
 * A hob beside a shoulder, a collar and a chuck. Blocks that the checks let pass
 * must prove clear of them; the same blocks moved toward them must not. The
 * room at which a hob touches is worked out here from the swivelled cylinder
 * (derived).
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { MachineCard } from '../../../server/src/machine/card.ts';
import { composedProgram, inventedCard, provedStretch, usualMachine } from './composed-programs.ts';

const gear = { MODULE: '1.5', TEETH: '20', FACE: '8', 'HOB-DIA': '50', 'HOB-GASHES': '10', RPM: '400', FEED: '1.5', METHOD: 'CLIMB' };
const card = inventedCard();

const withChuck = (z: number): MachineCard => inventedCard(usualMachine, { chuck: { diameter: 200, z } });
const withSubChuck = (zSense: 1 | -1, z: number): MachineCard => {
  const plain = inventedCard();
  return inventedCard(usualMachine, {
    subSpindle: { zSense, ySense: -1, workRotation: 1, chuck: { diameter: 160, z } },
    codes: { ...plain.codes, subAxisOn: 'M291', subAxisOff: 'M292', subClamp: 'M293', subUnclamp: 'M294' },
  });
};

function changed(text: string, pattern: RegExp, replacement: string): string {
  const result = text.replace(pattern, replacement);
  if (result === text) throw new Error(`${pattern} is not in\n${text}`);
  return result;
}

function collisionsOf(text: string, own: MachineCard): string[] {
  const { proof, refused } = provedStretch(text, own);
  if (!proof) throw new Error(refused);
  return proof.findings.filter(({ rule }) => rule === 'cut-collision').map(({ message }) => message);
}

describe('what the note tells of', () => {
  const plain = composedProgram('hobbing', gear, card);

  it('a block that does not know of the collar goes in too near to it', () => {
    expect(collisionsOf(changed(plain, /MODULE=/, 'FRONT-DIA=50 FRONT-GAP=36 MODULE='), card)).toHaveLength(1);
  });

  it('nothing in the way: nothing to object to', () => {
    expect(provedStretch(plain, card).proof!.findings).toEqual([]);
  });

  it('a block made for shoulder and collar passes them', () => {
    const text = composedProgram('hobbing', { ...gear, 'SHOULDER-DIA': '60', 'SHOULDER-GAP': '30', 'FRONT-DIA': '50', 'FRONT-GAP': '36' }, card);
    expect(provedStretch(text, card).proof!.findings).toEqual([]);
  });

  it.each([
    ['the run-out goes too far toward the shoulder', { 'SHOULDER-DIA': '60', 'SHOULDER-GAP': '30' }, /G01 Z-[\d.]+/, 'G01 Z-20.0', /runs into the shoulder behind the teeth: diameter 60 mm, from Z -38 downward/],
    ['the hob starts too far out, in the collar', { 'FRONT-DIA': '50', 'FRONT-GAP': '36' }, /G00 Y0\.0 Z[\d.]+/, 'G00 Y0.0 Z40.0', /runs into the collar before the teeth: diameter 50 mm, from Z 36 upward/],
  ])('%s', (_, note, word, wrong, message) => {
    const right = composedProgram('hobbing', { ...gear, ...note }, card);
    expect(collisionsOf(right, card)).toEqual([]);
    expect(collisionsOf(changed(right, word, wrong), card)).toEqual([expect.stringMatching(message)]);
  });

  it('the hob is drawn along Z toward the shoulder before it is lifted', () => {
    const text = composedProgram('hobbing', { ...gear, 'SHOULDER-DIA': '100', 'SHOULDER-GAP': '32' }, card);
    const low = changed(text, /G00 X154\.0\nG00 Z\S+\n/, 'G00 Z-60.0\n$&');
    expect(collisionsOf(low, card)).toHaveLength(1);
  });

  it('a block that the checks let pass is clear, whatever the shoulder, at the least room', () => {
    fc.assert(fc.property(
      fc.record({ over: fc.integer({ min: 1, max: 30 }), helix: fc.constantFrom('0', '12', '25'), starts: fc.constantFrom('1', '2'), cuts: fc.constantFrom('1', '2') }),
      ({ over, helix, starts, cuts }) => {
        const raw = { ...gear, TEETH: '21', HELIX: helix, 'HOB-STARTS': starts, CUTS: cuts, 'SHOULDER-DIA': String(30 + over), 'SHOULDER-GAP': '0' };
        const least = leastGap(raw);
        expect(collisionsOf(composedProgram('hobbing', { ...raw, 'SHOULDER-GAP': least }, card), card)).toEqual([]);
      },
    ), { numRuns: 6 });
  });
});

/** The least room as the refusal of the checks tells it. */
function leastGap(raw: Record<string, string>): string {
  try {
    composedProgram('hobbing', raw, card);
  } catch (error) {
    return /at least ([\d.]+)/.exec((error as Error).message)?.[1] ?? '0';
  }
  return '0';
}

describe('the chuck of the card', () => {
  // The end of the travel and the reach of the hob over the chuck: half the tip diameter at most.
  const onMain = composedProgram('hobbing', gear, withChuck(-60));

  it('far behind: nothing to object to', () => {
    expect(provedStretch(onMain, withChuck(-60)).proof!.findings).toEqual([]);
  });

  it('is run into where the part is clamped too short', () => {
    expect(collisionsOf(onMain, withChuck(-30))).toEqual([expect.stringMatching(/runs into the chuck of the main spindle: diameter 200 mm, from Z -30 downward/)]);
  });

  it.each<[string, 1 | -1]>([['Z leaves the face with growing Z', 1], ['with falling Z', -1]])('of the sub-spindle, %s', (_, zSense) => {
    const far = withSubChuck(zSense, -60 * zSense);
    const text = composedProgram('hobbing', { ...gear, SPINDLE: 'SUB' }, far);
    expect(provedStretch(text, far).proof!.findings).toEqual([]);
    expect(collisionsOf(text, withSubChuck(zSense, -30 * zSense))).toEqual([expect.stringMatching(/runs into the chuck of the sub-spindle: diameter 160 mm/)]);
    expect(() => composedProgram('hobbing', { ...gear, SPINDLE: 'SUB' }, withSubChuck(zSense, -30 * zSense))).toThrow(new RegExp(`FACE-Z: 0 is beyond the machine: it must be at ${zSense > 0 ? 'least' : 'most'} .*, so that the hob stays off the chuck of diameter 160`));
  });

  it('of the main spindle does not stand in the way of work in the sub-spindle', () => {
    const own = { ...withSubChuck(1, -60), chuck: { diameter: 200, z: -10 } };
    expect(collisionsOf(composedProgram('hobbing', { ...gear, SPINDLE: 'SUB' }, own), own)).toEqual([]);
  });
});
