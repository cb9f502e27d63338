/**
 * Rapid moves of a hob against the blank, by bodies: where the tip cylinder
 * begins to reach the rim is worked out here from points in the room.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rapidsIntoMaterial } from '../../../server/src/cut/hobbing-rapids.ts';
import type { HobbingStretch } from '../../../server/src/cut/hobbing-stretch.ts';
import type { HobbingSpan } from '../../../server/src/cut/motion.ts';
import { composedProgram, inventedCard, provedStretch, usualMachine } from './composed-programs.ts';
import { jobOf, type HobbingSetting } from './hobbing-jobs.ts';

const setting: HobbingSetting = { module: 2, teeth: 20, helix: 0, shift: 0, starts: 1, hobHand: 1, hobDiameter: 60, gashes: 10, feed: 2, face: 10, side: 1, climb: true, cuts: 1 };
/** Blank of diameter 44 from Z-10 to Z0, a hob of 60 that is not swivelled. */
const stretch: HobbingStretch = { ...jobOf(setting), settingRadians: 0 };

type Place = readonly [x: number, y: number, z: number];

function span(rapid: boolean, from: Place, to: Place, line = 1): HobbingSpan {
  const at = ([x, y, z]: Place, turned: number) => ({ x, y, z, hobRadians: turned, workRadians: turned / 20 });
  return { line, rapid, start: at(from, 0), end: at(to, 1) };
}

function findings(of: HobbingStretch, ...spans: HobbingSpan[]) {
  return rapidsIntoMaterial(of, { spans, steps: [] }).map(({ line, rule, message }) => ({ line, rule, deep: Number(/up to ([\d.]+)/.exec(message)?.[1]) }));
}

/** The least radius to which points on the tip cylinder come within the blank; points in the room, derived. */
function sampledDepth({ tool, settingRadians, zLow, zHigh, gear }: HobbingStretch, { start, end }: HobbingSpan): number {
  let least = gear.tipDiameter / 2;
  for (let share = 0; share <= 1; share += 0.25) {
    for (let along = -tool.length / 2; along <= tool.length / 2; along += 1) {
      for (let turn = -Math.PI / 2; turn <= Math.PI / 2; turn += 0.02) {
        const [outward, across] = [(tool.tipDiameter / 2) * Math.cos(turn), (tool.tipDiameter / 2) * Math.sin(turn)];
        const x = start.x + share * (end.x - start.x) - outward;
        const y = start.y + share * (end.y - start.y) + along * Math.cos(settingRadians) + across * Math.sin(settingRadians);
        const z = start.z + share * (end.z - start.z) - along * Math.sin(settingRadians) + across * Math.cos(settingRadians);
        if (z <= zHigh && z >= zLow) least = Math.min(least, Math.hypot(x, y));
      }
    }
  }
  return gear.tipDiameter / 2 - least;
}

describe('a rapid to depth before the blank', () => {
  // At radius 22 the tip circle of 30 about 47.5 is sqrt(30^2 - 25.5^2) = 15.80 wide on either side (derived).
  const into = (z: number) => span(true, [60, 0, z], [47.5, 0, z]);

  it('is free as far as the sagitta of the tip circle, and then deep by it', () => {
    expect(findings(stretch, into(15.81))).toEqual([]);
    const [found] = findings(stretch, into(15.3));
    expect(found).toMatchObject({ line: 1, rule: 'cut-rapid' });
    expect(found!.deep).toBeCloseTo(22 - (47.5 - Math.sqrt(30 ** 2 - 15.3 ** 2)), 3);
  });

  it('is the same before the other face and on the other side of the work', () => {
    expect(findings(stretch, into(-25.81))).toEqual([]);
    expect(findings(stretch, into(-25.3))).toHaveLength(1);
    expect(findings(stretch, span(true, [-60, 0, 15.3], [-47.5, 0, 15.3]))).toHaveLength(1);
  });

  it('counts the whole way and not only its end', () => {
    expect(findings(stretch, span(true, [60, 0, 15.3], [47.5, 0, 15.3]), span(true, [47.5, 0, 15.3], [60, 0, 15.3], 2))).toHaveLength(1);
    expect(findings(stretch, span(true, [47.5, 0, 40], [47.5, 0, -60]))).toHaveLength(1);
    expect(findings(stretch, span(true, [47.5, 100, 15.3], [47.5, -100, 15.3]))).toHaveLength(1);
  });

  it('a hob beside the work does not reach it', () => {
    const short: HobbingStretch = { ...stretch, tool: { ...stretch.tool, length: 20 } };
    expect(findings(short, span(true, [60, 40, 0], [47.5, 40, 0]))).toEqual([]);
    expect(findings(short, span(true, [60, 20, 0], [47.5, 20, 0]))).toHaveLength(1);
  });

  it('of a swivelled hob agrees with points on its tip cylinder', () => {
    fc.assert(fc.property(fc.double({ min: -0.6, max: 0.6, noNaN: true }), fc.double({ min: 5, max: 30, noNaN: true }), fc.double({ min: -15, max: 15, noNaN: true }), fc.double({ min: -4, max: 4, noNaN: true }), (settingRadians, z, y, slant) => {
      const swivelled = { ...stretch, settingRadians };
      const rapid = span(true, [55, y, z], [47.5, y + slant, z + slant]);
      const deep = findings(swivelled, rapid)[0]?.deep ?? 0;
      // Points stand about 0.6 by 1 apart, so that they come near the deepest place but never beyond it.
      const sampled = sampledDepth(swivelled, rapid);
      expect(deep).toBeGreaterThan(sampled - 0.006);
      expect(deep).toBeLessThan(sampled + 0.6);
    }), { numRuns: 25 });
  });
});

describe('a rapid where feeds have been', () => {
  const feed = span(false, [47.5, 0, 16], [47.5, 0, -12]);

  it('retracts through the gaps, anywhere', () => {
    expect(findings(stretch, feed, span(true, [47.5, 0, -12], [60, 0, -12], 2))).toEqual([]);
    expect(findings(stretch, feed, span(true, [47.5, 0, -12], [47.5, 0, 40], 2))).toEqual([]);
    expect(findings(stretch, feed, span(true, [47.5, 0, -12], [60, 0, 0], 2))).toEqual([]);
  });

  it('must go neither deeper nor farther', () => {
    // The feed has come to 47.5 - 30 all along; from Z-12 the hob reaches the end of the teeth at Z-10 first (derived).
    expect(findings(stretch, feed, span(true, [47.5, 0, -12], [47.2, 0, -12], 2))[0]!.deep).toBeCloseTo(17.5 - (47.2 - Math.sqrt(30 ** 2 - 2 ** 2)), 3);
    const part = span(false, [47.5, 0, 16], [47.5, 0, 10]);
    expect(findings(stretch, part, span(true, [47.5, 0, 10], [60, 0, 10], 2))).toEqual([]);
    expect(findings(stretch, part, span(true, [47.5, 0, 10], [47.5, 0, 9], 2))).toMatchObject([{ line: 2 }]);
  });
});

describe.each([
  ['straight', { HELIX: '0' }], ['helical', { HELIX: '25' }], ['left hand, conventional, in three cuts', { HELIX: '15', HAND: 'LEFT', METHOD: 'CONVENTIONAL', CUTS: '3' }], ['three starts', { HELIX: '0', 'HOB-STARTS': '3' }],
])('a composed block, %s', (_, more) => {
  const card = inventedCard(usualMachine);
  const text = composedProgram('hobbing', { MODULE: '2', TEETH: '24', FACE: '12', 'HOB-DIA': '60', 'HOB-GASHES': '12', 'HOB-LENGTH': '60', SPEED: '50', FEED: '1', ...more }, card);
  const rapids = (program: string) => provedStretch(program, card).proof!.findings.filter(({ rule }) => rule === 'cut-rapid');
  const ready = [...text.matchAll(/Z(-?[\d.]+)/g)].map(([, z]) => Number(z)).find((z) => z < 100)!;

  it('is right, and wrong where it starts from 1.2 mm to 2.2 mm nearer', () => {
    expect(rapids(text)).toEqual([]);
    for (const nearer of [1.2, 1.6, 2.2]) {
      const wrong = text.replaceAll(`Z${ready.toFixed(4).replace(/0+$/, '')}`, `Z${(ready - nearer).toFixed(4)}`);
      expect(wrong).not.toBe(text);
      expect([nearer, rapids(wrong).length]).not.toEqual([nearer, 0]);
    }
  });
});
