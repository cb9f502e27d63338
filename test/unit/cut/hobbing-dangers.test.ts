import { describe, expect, it } from 'vitest';
import { collisions } from '../../../server/src/cut/hobbing-dangers.ts';
import type { HobbingMotion } from '../../../server/src/cut/hobbing-motion.ts';
import type { HobbingStretch } from '../../../server/src/cut/hobbing-stretch.ts';
import type { HobbingSetting } from './hobbing-jobs.ts';
import { jobOf } from './hobbing-jobs.ts';

const setting: HobbingSetting = {
  module: 2, teeth: 20, helix: 0, shift: 0, starts: 1, hobHand: 1, hobDiameter: 60, gashes: 10, feed: 2, face: 10, side: 1, climb: true, cuts: 1,
};
const job = jobOf(setting);
const motion: HobbingMotion = { spans: [...job.spans], steps: [] };

function hits(radius: number, zLow: number, zHigh: number): number {
  const stretch: HobbingStretch = { ...job, obstacles: [{ name: 'shoulder', radius, zLow, zHigh }] };
  return collisions(stretch, motion).length;
}

it('a hob that is shifted past the shoulder along its own axis does not touch it', () => {
  const shoulder = { name: 'shoulder', radius: 25, zLow: -60, zHigh: -12 };
  const shiftedBy = (y: number): number => {
    const spans = job.spans.map((span) => ({ ...span, start: { ...span.start, y }, end: { ...span.end, y } }));
    const stretch: HobbingStretch = { ...job, tool: { ...job.tool, length: 20 }, obstacles: [shoulder] };
    return collisions(stretch, { spans, steps: [] }).length;
  };
  // The hob is 20 long, so in the middle it reaches over the shoulder, and 40 aside its nearer end is at 30.
  expect([shiftedBy(0), shiftedBy(40)]).toEqual([1, 0]);
});

describe('a hob beside a shoulder', () => {
  // Root diameter 35 and a hob of 60: the hob axis is 47.5 from the work axis and its tips reach down to 17.5.
  const end = job.spans[0]!.end.z;

  it('passes over what is smaller than the root', () => {
    expect(hits(17.4, -60, 10)).toBe(0);
  });

  it('runs into what is larger and too near', () => {
    expect(hits(25, -60, -12)).toBe(1);
  });

  it('stays clear of what lies behind its reach: the sagitta of the hob at the height of the shoulder (derived)', () => {
    // At radius 22 the tip circle of 30 about 47.5 is sqrt(30^2 - 25.5^2) = 15.80 wide on either side.
    const reach = Math.sqrt(30 ** 2 - 25.5 ** 2);
    expect(hits(22, -200, end - reach - 0.5)).toBe(0);
    expect(hits(22, -200, end - reach + 0.5)).toBe(1);
  });
});
