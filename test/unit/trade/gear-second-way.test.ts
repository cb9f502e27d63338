/** The same figures by a second road that shares no formula with the library: points of flanks, velocities, integration. */
import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { radians } from '../../../server/src/trade/angles.ts';
import { gearGeometry, type Gear } from '../../../server/src/trade/gear.ts';
import { feedMarkDepth, generatingMarkDepth } from '../../../server/src/trade/generated-marks.ts';
import type { Hand } from '../../../server/src/trade/hands.ts';
import { hobGeometry, type Hob } from '../../../server/src/trade/hob.ts';
import { hobRotationSense, settingAngleRadians, shiftParts, workRotationDegrees } from '../../../server/src/trade/hobbing-law.ts';
import { exactApproach, printedApproach } from '../../../server/src/trade/hobbing-travel.ts';
import type { HobbingInput } from '../../../server/src/trade/hobbing.ts';
import { inverseInvolute } from '../../../server/src/trade/involute.ts';
import { leadingEnd } from '../../../server/src/trade/hob-use.ts';
import { spanLength } from '../../../server/src/trade/span.ts';
import { gearInput, hobbingInput } from './gear-case-builder.ts';

const hand = fc.constantFrom<Hand>(1, -1);

/** Gears and hobs as they come to a lathe. */
const setting = fc
  .record({
    normalModule: fc.double({ min: 0.5, max: 4, noNaN: true }),
    teeth: fc.integer({ min: 12, max: 100 }),
    helixAngleDegrees: fc.double({ min: 0, max: 35, noNaN: true }),
    gearHand: hand,
    hobHand: hand,
    hobSide: hand,
    workRotationSense: hand,
    hobStarts: fc.integer({ min: 1, max: 3 }),
    hobTipDiameter: fc.double({ min: 60, max: 120, noNaN: true }),
  })
  .map((changes) => hobbingInput(changes));

const pairOf = (input: HobbingInput): { gear: Gear; hob: Hob } => {
  const gear = gearGeometry(input);
  return { gear, hob: hobGeometry(input, gear) };
};

/** Polar angle of the spur flank from the middle of its tooth, by the string that unwinds from the base circle. */
function flankAngle(gear: Gear, radius: number): number {
  const string = (r: number): number => Math.sqrt(Math.max(0, (r / (gear.baseDiameter / 2)) ** 2 - 1));
  const wrapped = (r: number): number => string(r) - Math.atan(string(r));
  return gear.transverseToothThickness / gear.referenceDiameter + wrapped(gear.referenceDiameter / 2) - wrapped(radius);
}

describe('span', () => {
  it.each([
    [gearInput(), 3],
    [gearInput({ profileShift: 0.4 }), 4],
    [gearInput({ teeth: 40, normalPressureAngleDegrees: 25 }), 5],
    [gearInput({ teeth: 31, profileShift: -0.3 }), 4],
  ])('over %o is the distance of two parallel anvils on points of the flanks', (input, teeth) => {
    const gear = gearGeometry(input);
    let halfSpan = 0;
    for (let radius = gear.baseDiameter / 2; radius < gear.tipDiameter / 2; radius += 1e-4) {
      halfSpan = Math.max(halfSpan, radius * Math.sin(((teeth - 1) * Math.PI) / gear.teeth + flankAngle(gear, radius)));
    }
    expect(2 * halfSpan).toBeCloseTo(spanLength(gear, teeth), 6);
  });
});

describe('approach', () => {
  it('is where the tip cylinder of the hob first meets a point of the rim', () => {
    fc.assert(
      fc.property(setting, fc.double({ min: 0.2, max: 1, noNaN: true }), (input, share) => {
        const { gear, hob } = pairOf(input);
        const depth = share * gear.wholeDepth;
        expect(exactApproach(gear, hob, depth)).toBeCloseTo(rimSearch(gear, hob, depth), 5);
      }),
      { numRuns: 60 },
    );
  });

  it('is never shorter than print by more than rounding, and the small excess over print is of the known size', () => {
    const { gear, hob } = pairOf(hobbingInput({ teeth: 30, helixAngleDegrees: 20 }));
    const excess = exactApproach(gear, hob, gear.wholeDepth) / printedApproach(gear, hob, gear.wholeDepth) - 1;
    expect(excess).toBeGreaterThan(0.003);
    expect(excess).toBeLessThan(0.006);
  });
});

/** Slides the hob in from afar: a rim point at phi is met when its distance from the hob axis is the tip radius. */
function rimSearch(gear: Gear, hob: Hob, depth: number): number {
  const eta = settingAngleRadians(gear, hob);
  const axis = { y: Math.cos(eta), z: -Math.sin(eta) };
  const [rim, tip] = [gear.tipDiameter / 2, hob.tipDiameter / 2];
  const distance = rim + tip - depth;
  const metAt = (phi: number): number => {
    const [x, y] = [distance - rim * Math.cos(phi), rim * Math.sin(phi)];
    // Components of the point's offset along and across the axis; z is solved from the distance.
    const across = tip * tip - x * x;
    return across < 0 ? -Infinity : (Math.sqrt(across) - y * axis.z) / axis.y;
  };
  let best = -Infinity;
  let centre = 0;
  for (let width = Math.PI / 2; width > 1e-7; width /= 20) {
    const start = centre;
    for (let step = -200; step <= 200; step += 1) {
      const phi = start + (step / 200) * width;
      if (metAt(phi) > best) [best, centre] = [metAt(phi), phi];
    }
  }
  return best;
}

describe('the law of work rotation', () => {
  it('keeps hob and tooth from parting or clashing at the pitch point', () => {
    const rate = fc.double({ min: -5, max: 5, noNaN: true });
    fc.assert(
      fc.property(setting, rate, rate, rate, (input, hobDegrees, deltaY, deltaZ) => {
        const { gear, hob } = pairOf(input);
        const work = workRotationDegrees(gear, hob, input, { hobDegrees, deltaY, deltaZ });
        expect(normalSpeedOfWork(gear, input, work)).toBeCloseTo(normalSpeedOfHob(gear, hob, input, { hobDegrees, deltaY, deltaZ }), 9);
      }),
    );
  });

  it('turns the work once for one lead of travel, summed up step by step', () => {
    const { gear, hob } = pairOf(hobbingInput({ teeth: 30, helixAngleDegrees: 20 }));
    const step = 0.001;
    let [turned, travelled] = [0, 0];
    while (Math.abs(turned) < 360) {
      turned += workRotationDegrees(gear, hob, { hobSide: 1, workRotationSense: 1 }, { hobDegrees: 0, deltaY: 0, deltaZ: step });
      travelled += step;
    }
    expect(travelled).toBeCloseTo(gear.lead ?? NaN, 2);
    expect(turned).toBeLessThan(0);
  });

  it('brings a shifted hob to the next tooth after one axial pitch', () => {
    fc.assert(
      fc.property(setting, (input) => {
        const { gear, hob } = pairOf(input);
        const parts = shiftParts(gear, hob, input, hob.axialPitch);
        expect(parts.workDegrees).toBeCloseTo((input.hobSide * input.workRotationSense * 360) / gear.teeth, 8);
        expect(Math.hypot(parts.deltaY, parts.deltaZ)).toBeCloseTo(hob.axialPitch, 9);
      }),
    );
  });

  it('mirrors the whole machine: hob on the other side, turned half round the work, gives the same work rotation', () => {
    fc.assert(
      fc.property(setting, fc.double({ min: -100, max: 100, noNaN: true }), (input, hobDegrees) => {
        const { gear, hob } = pairOf(input);
        const here = workRotationDegrees(gear, hob, { hobSide: 1, workRotationSense: 1 }, { hobDegrees, deltaY: 1, deltaZ: 2 });
        // Half a turn about Z takes +Y to -Y, and the hob axis that points to +Y then runs the other way.
        const there = workRotationDegrees(gear, hob, { hobSide: -1, workRotationSense: 1 }, { hobDegrees: -hobDegrees, deltaY: -1, deltaZ: 2 });
        expect(there).toBeCloseTo(here, 9);
      }),
    );
  });
});

interface Motion {
  readonly hobDegrees: number;
  readonly deltaY: number;
  readonly deltaZ: number;
}

/** Direction of the tooth at the pitch point, in the plane that touches the work there: (y, z). */
const toothTrace = (gear: Gear, side: Hand): readonly [number, number] => [
  side * Math.sin(gear.signedHelixAngleRadians),
  Math.cos(gear.signedHelixAngleRadians),
];

/** Across the tooth. */
const normalOf = ([y, z]: readonly [number, number]): readonly [number, number] => [z, -y];

function normalSpeedOfWork(gear: Gear, input: HobbingInput, workDegrees: number): number {
  const [ny] = normalOf(toothTrace(gear, input.hobSide));
  const speedY = input.hobSide * (gear.referenceDiameter / 2) * radians(input.workRotationSense * workDegrees);
  return speedY * ny;
}

/** A worm that turns does not travel, but its thread runs along its axis against the sense of its hand. */
function normalSpeedOfHob(gear: Gear, hob: Hob, input: HobbingInput, motion: Motion): number {
  const [ny, nz] = normalOf(toothTrace(gear, input.hobSide));
  const eta = settingAngleRadians(gear, hob);
  const axis = [Math.cos(eta), -input.hobSide * Math.sin(eta)] as const;
  const threadSpeed = (-hob.hand * hob.starts * hob.axialPitch * motion.hobDegrees) / 360;
  return (threadSpeed * axis[0] + motion.deltaY) * ny + (threadSpeed * axis[1] + motion.deltaZ) * nz;
}

describe('setting angle', () => {
  it('lays the thread of the hob along the tooth', () => {
    fc.assert(
      fc.property(setting, (input) => {
        const { gear, hob } = pairOf(input);
        const eta = settingAngleRadians(gear, hob);
        const side = input.hobSide;
        const along = [Math.cos(eta), -side * Math.sin(eta)] as const;
        const across = [side * Math.sin(eta), Math.cos(eta)] as const;
        // On the face of the hob toward the work a right-hand thread rises by the lead angle from "across" toward the axis.
        const rise = side * hob.signedLeadAngleRadians;
        const thread = [across[0] * Math.cos(rise) + along[0] * Math.sin(rise), across[1] * Math.cos(rise) + along[1] * Math.sin(rise)] as const;
        const tooth = toothTrace(gear, side);
        expect(Math.abs(thread[0] * tooth[1] - thread[1] * tooth[0])).toBeLessThan(1e-12);
      }),
    );
  });
});

describe('climb, and the end of the hob that cuts first', () => {
  it('cuts against the feed when climbing', () => {
    fc.assert(
      fc.property(hand, hand, fc.boolean(), (side, feed, climb) => {
        const sense = hobRotationSense(climb, feed, side);
        // Angular velocity (0, sense, 0) about the hob axis, at the contact point (-side r, 0, 0) from it: z speed = sense side r.
        expect(sense * side === -feed).toBe(climb);
      }),
    );
  });

  it('meets the uncut blank on the side from which the teeth come', () => {
    fc.assert(
      fc.property(setting, hand, fc.boolean(), (input, feed, climb) => {
        const { gear, hob } = pairOf(input);
        const sense = hobRotationSense(climb, feed, input.hobSide);
        const work = workRotationDegrees(gear, hob, { hobSide: input.hobSide, workRotationSense: 1 }, { hobDegrees: sense, deltaY: 0, deltaZ: 0 });
        const teethRunTowardY = Math.sign(work * input.hobSide);
        expect(leadingEnd(hob, climb, feed, input.hobSide)).toBe(-teethRunTowardY);
      }),
    );
  });
});

describe('marks', () => {
  it.each([[1, 80], [3, 80], [6, 63]])('feed %d under a hob of %d: the sagitta between two circles', (feed, diameter) => {
    const input = hobbingInput({ feedPerWorkRevolution: feed, hobTipDiameter: diameter });
    const { gear, hob } = pairOf(input);
    const sagitta = diameter / 2 - Math.sqrt((diameter / 2) ** 2 - (feed / 2) ** 2);
    const exact = sagitta * Math.sin(radians(20));
    expect(Math.abs(feedMarkDepth(gear, hob, feed) / exact - 1)).toBeLessThan(0.0025);
  });

  it.each([[24, 3, 12, 1], [47, 4, 16, 3], [17, 1, 12, 1]])('%d teeth of module %d, %d gashes, %d starts: the corner between two cuts', (teeth, normalModule, hobGashes, hobStarts) => {
    const { gear, hob } = pairOf(hobbingInput({ teeth, normalModule, hobGashes, hobStarts, hobTipDiameter: 100 }));
    expect(Math.abs(generatingMarkDepth(gear, hob) / cornerHeight(gear, hob) - 1)).toBeLessThan(0.02);
  });
});

/** Two tangents to the involute half a cut before and after the reference circle; how far outside the involute they cross. */
function cornerHeight(gear: Gear, hob: Hob): number {
  const baseRadius = gear.baseDiameter / 2;
  const rollAtReference = Math.tan(gear.transversePressureAngleRadians);
  const half = (Math.PI * hob.starts) / (gear.teeth * hob.gashes);
  const [before, after] = [rollAtReference - half, rollAtReference + half];
  // The tangent at roll t has the normal (-sin t, cos t) turned to the string's direction, at the distance of the string.
  const normal = (t: number): readonly [number, number] => [Math.sin(t), -Math.cos(t)];
  const distance = (t: number): number => baseRadius * t;
  const [a, b] = [normal(before), normal(after)];
  const determinant = a[0] * b[1] - a[1] * b[0];
  const x = (distance(before) * b[1] - a[1] * distance(after)) / determinant;
  const y = (a[0] * distance(after) - distance(before) * b[0]) / determinant;
  // Distance from the involute along the string that passes through the corner.
  const radius = Math.hypot(x, y);
  const string = Math.sqrt(radius ** 2 - baseRadius ** 2);
  const startOfString = Math.atan2(y, x) + Math.acos(baseRadius / radius);
  return Math.abs(string - baseRadius * startOfString);
}

describe('inverse involute', () => {
  it('agrees with bisection', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-9, max: 50, noNaN: true }), (value) => {
        let [low, high] = [0, Math.PI / 2];
        for (let step = 0; step < 80; step += 1) {
          const middle = (low + high) / 2;
          if (Math.tan(middle) - middle < value) low = middle;
          else high = middle;
        }
        // Plain tan a - a loses digits for small angles, so only as many are compared as it has.
        expect(Math.abs(inverseInvolute(value) - low)).toBeLessThan(1e-7);
      }),
    );
  });
});
