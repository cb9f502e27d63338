import { describe, expect, it } from 'vitest';
import { cutGear } from '../../../server/src/cut/gear-cut.ts';
import { measureGear, sizeOverBalls } from '../../../server/src/cut/gear-report.ts';
import type { HobbingSetting } from './hobbing-jobs.ts';
import { coupling, finish, jobOf, measured, predictedMarks, wantedSpan } from './hobbing-jobs.ts';

const plain: HobbingSetting = {
  module: 3, teeth: 24, helix: 0, shift: 0, starts: 1, hobHand: 1, hobDiameter: 80, gashes: 14, feed: 1.5, face: 8, side: 1, climb: true, cuts: 1,
};

/** Two micrometres, the numeric error that is allowed beyond the marks. */
const NUMERIC = 0.002;

function flanksOf(setting: HobbingSetting) {
  const { flanks, ...rest } = measured(jobOf(setting));
  if (!flanks) throw new Error(`no teeth: ${JSON.stringify(rest)}`);
  return flanks;
}

describe('span of a virtually cut gear', () => {
  const published: Array<[string, Partial<HobbingSetting>, number, number]> = [
    ['D8 spur m3 z24, gear tables (recomputed published value)', {}, 3, 23.1494],
    ['D8 spur m2 z20, gear tables (recomputed published value)', { module: 2, teeth: 20, hobDiameter: 63 }, 3, 15.3209],
    ['D8 spur m1 z30, gear tables (recomputed published value)', { module: 1, teeth: 30, hobDiameter: 50, feed: 0.7 }, 4, 10.7526],
    ['D7 m3 z24 x+0.4, published gear technical reference (recomputed)', { shift: 0.4 }, 4, 32.8266],
    ['D15 helical m3 z30 20 deg (derived)', { teeth: 30, helix: 20 }, 4, 32.50221],
  ];
  it.each(published)('%s', (_, change, spanTeeth, published) => {
    const setting = { ...plain, ...change, spanTeeth };
    const { span } = flanksOf(setting);
    const marks = predictedMarks(setting);
    expect(span).toBeGreaterThan(published - NUMERIC);
    expect(span).toBeLessThan(published + 2 * (marks.feed + marks.generating) + NUMERIC);
  });
});

describe('size over balls of a virtually cut gear', () => {
  const published: Array<[string, Partial<HobbingSetting>, number, number]> = [
    ['D13 spur m3 z24, balls of 5 (derived)', {}, 5, 78.5538],
    ['D13 spur m3 z25, balls of 5.25 (derived)', { teeth: 25 }, 5.25, 82.2816],
    ['D15 helical m3 z30 20 deg, balls of 5.25 (derived)', { teeth: 30, helix: 20 }, 5.25, 103.26595],
  ];
  it.each(published)('%s', (_, change, ball, published) => {
    const setting = { ...plain, ...change };
    const over = sizeOverBalls(finish(cutGear(jobOf(setting))), ball);
    const marks = predictedMarks(setting);
    const gain = 2 / Math.sin(20 * (Math.PI / 180));
    expect(over).toBeGreaterThan(published - NUMERIC);
    expect(over).toBeLessThan(published + gain * (marks.feed + marks.generating) + NUMERIC);
  });

  const splines: Array<[string, Partial<HobbingSetting>, number, number]> = [
    ['D28 spline DIN 5480 W30 x 2 x 14, balls of 4 (derived)', { module: 2, teeth: 14, shift: -0.05, addendum: 0.6, tipShortening: 0.55 }, 4, 34.1438],
    ['D29 spline DIN 5480 W50 x 2 x 24, balls of 4 (derived)', { module: 2, teeth: 24, shift: -0.05, addendum: 0.6, tipShortening: 0.55 }, 4, 54.21757],
    ['D31 spline ISO 4156 24 z x 2.5, flat root, balls of 5 (derived from sizes from memory)', { module: 2.5, teeth: 24, addendum: 0.75, tipShortening: 0.5 }, 5, 67.9939],
  ];
  it.each(splines)('%s', (_, change, ball, published) => {
    const setting = { ...plain, pressureAngle: 30, hobDiameter: 50, feed: 1, face: 6, ...change };
    const job = jobOf(setting);
    const over = sizeOverBalls(finish(cutGear({ ...job, tool: { ...job.tool, tipRadius: 0.1 * setting.module } })), ball);
    const marks = predictedMarks(setting);
    expect(over).toBeGreaterThan(published - NUMERIC);
    expect(over).toBeLessThan(published + (2 / Math.sin(30 * (Math.PI / 180))) * (marks.feed + marks.generating) + NUMERIC);
  });

  it('refuses a ball that falls to the root', () => {
    expect(sizeOverBalls(finish(cutGear(jobOf(plain))), 1)).toBeUndefined();
  });
});

describe('what the cut shape shows', () => {
  it('counts the teeth, and finds root and tip where ISO 53 puts them', () => {
    const { teeth, flanks } = measured(jobOf(plain));
    expect(teeth).toBe(24);
    // D2 of the gear notes has the same rack for z24 m3: d_f 64.5, d_a 78 (published gear technical reference, recomputed).
    expect(flanks!.rootDiameter).toBeCloseTo(64.5, 2);
    expect(flanks!.tipDiameter).toBe(78);
  });

  it('shows marks as deep as the geometry of the hob says (derived)', () => {
    const setting = { ...plain, feed: 3, face: 12, gashes: 12 };
    const flanks = flanksOf(setting);
    // D23: feed 3, straight teeth, hob of 80: 9.619 micrometres.
    expect(flanks.feedMarkDepth * 1000).toBeGreaterThan(0.85 * 9.619);
    expect(flanks.feedMarkDepth * 1000).toBeLessThan(1.1 * 9.619);
  });

  it('shows generating marks between the mean and the tip value (derived, D24: 0.7326 micrometres on the reference circle)', () => {
    const flanks = flanksOf({ ...plain, gashes: 12, feed: 0.8, face: 2 });
    expect(flanks.generatingMarkDepth * 1000).toBeGreaterThan(0.5);
    expect(flanks.generatingMarkDepth * 1000).toBeLessThan(1.6);
  });

  it('gives the same gear on either side of the work, for either hand of hob and either sense', () => {
    for (const side of [1, -1] as const) {
      for (const hobHand of [1, -1] as const) {
        for (const climb of [true, false]) {
          const setting = { ...plain, module: 1, hobDiameter: 40, teeth: 20, helix: -15, side, hobHand, climb, face: 3 };
          const flanks = flanksOf(setting);
          expect(Math.abs(flanks.helixAngleDegrees + 15), JSON.stringify(setting)).toBeLessThan(0.01);
          expect(flanks.hand).toBe(-1);
        }
      }
    }
  });

  it('cuts the same gear with the hob shifted along its axis', () => {
    const setting = { ...plain, module: 1, hobDiameter: 40, teeth: 30, helix: 20, hobShift: 2.3, face: 4 };
    const flanks = flanksOf(setting);
    const still = flanksOf({ ...setting, hobShift: 0 });
    expect(flanks.span!).toBeCloseTo(still.span!, 2);
    expect(Math.abs(flanks.gapAngleDegrees - still.gapAngleDegrees) % 12).toBeLessThan(0.01);
  });
});

describe('what a wrong motion leaves', () => {
  it('turning the work the wrong way mills the teeth away', () => {
    const job = jobOf(plain);
    const spans = job.spans.map((span) => ({ ...span, end: { ...span.end, workRadians: -span.end.workRadians } }));
    const { flanks, materialOnReference } = measured({ ...job, spans });
    expect(flanks).toBeUndefined();
    expect(materialOnReference).toBeLessThan(0.05);
  });

  it('a missing differential leaves no sound helical teeth', () => {
    const setting = { ...plain, teeth: 30, helix: 20, face: 20 };
    const { perZ } = coupling(setting);
    const job = jobOf(setting);
    const spans = job.spans.map((span) => ({
      ...span,
      end: { ...span.end, workRadians: span.end.workRadians - perZ * (span.end.z - span.start.z) },
    }));
    const { flanks } = measured({ ...job, spans });
    expect(flanks === undefined || Math.abs(flanks.helixAngleDegrees - 20) > 1).toBe(true);
  });

  it('a differential of the wrong sign gives no gear of the wanted hand', () => {
    const setting = { ...plain, teeth: 30, helix: 20, face: 6 };
    const { perZ } = coupling(setting);
    const job = jobOf(setting);
    const spans = job.spans.map((span) => ({
      ...span,
      end: { ...span.end, workRadians: span.end.workRadians - 2 * perZ * (span.end.z - span.start.z) },
    }));
    const { flanks } = measured({ ...job, spans });
    expect(flanks?.hand).not.toBe(1);
  });

  it('a travel that ends too soon leaves stock at the far end', () => {
    const job = jobOf(plain);
    const spans = job.spans.map((span) => {
      const share = (span.start.z + plain.face / 2) / (span.start.z - span.end.z);
      const part = (from: number, to: number) => from + share * (to - from);
      return {
        ...span,
        end: {
          ...span.end,
          hobRadians: part(span.start.hobRadians, span.end.hobRadians),
          workRadians: part(span.start.workRadians, span.end.workRadians),
          z: part(span.start.z, span.end.z),
        },
      };
    });
    const { flanks } = measured({ ...job, spans });
    expect(flanks!.shallowPlaces.length).toBeGreaterThan(3);
    expect(flanks!.shallowPlaces.every((z) => z < -plain.face / 2)).toBe(true);
  });

  it('hob and work that are not coupled leave nothing', () => {
    const job = jobOf(plain);
    const spans = job.spans.map((span) => ({ ...span, end: { ...span.end, workRadians: 0.73 * span.end.workRadians } }));
    expect(measureGear(finish(cutGear({ ...job, spans }))).flanks).toBeUndefined();
  });
});

/** A few settings from every corner; the full grid is a script beside the benchmarks. */
describe('settings from every corner of the range', () => {
  const corners: Array<Partial<HobbingSetting>> = [
    { module: 0.3, teeth: 6, shift: 0.5, tipShortening: 0.25, hobDiameter: 20, feed: 0.2, face: 2 },
    { module: 0.3, teeth: 120, helix: -30, hobDiameter: 24, feed: 0.5, face: 2 },
    { module: 4, teeth: 120, helix: 30, hobDiameter: 90, feed: 3, face: 12, starts: 3, climb: false },
    { module: 4, teeth: 13, helix: 30, shift: 0.3, hobDiameter: 90, feed: 1.5, face: 10, hobHand: -1 },
    { module: 1, teeth: 17, helix: -30, hobDiameter: 40, starts: 2, feed: 0.8, face: 4, side: -1 },
    { module: 2, teeth: 50, helix: 8, hobDiameter: 63, starts: 3, hobHand: -1, feed: 1.5, face: 8, side: -1, climb: false, cuts: 3 },
    { module: 1.5, teeth: 31, hobDiameter: 56, starts: 2, feed: 1, face: 5, cuts: 2 },
  ];
  it.each(corners)('%j', (change) => {
    const setting = { ...plain, ...change };
    const { teeth, flanks } = measured(jobOf(setting));
    const marks = predictedMarks(setting);
    expect(teeth).toBe(setting.teeth);
    expect(Math.abs(flanks!.helixAngleDegrees - setting.helix)).toBeLessThan(0.01);
    const excess = flanks!.span! - wantedSpan(setting, flanks!.spanTeeth);
    expect(excess).toBeGreaterThan(-NUMERIC);
    expect(excess).toBeLessThan(2 * (marks.feed + marks.generating) + NUMERIC);
    expect(flanks!.shallowPlaces).toEqual([]);
  });
});
