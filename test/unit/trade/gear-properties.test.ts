/** Laws that hold for every gear, and what happens outside the range: a typed error, never a number that is none. */
import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { feedForChipThickness, maxChipThickness } from '../../../server/src/trade/chip-thickness.ts';
import { flankTolerances } from '../../../server/src/trade/flank-tolerance.ts';
import { olderFlankTolerances } from '../../../server/src/trade/flank-tolerance-1995.ts';
import { gearGeometry, transverseThicknessAt, type GearInput } from '../../../server/src/trade/gear.ts';
import { gearData, internalGearData } from '../../../server/src/trade/gear-data.ts';
import { feedForMarkDepth, feedMarkDepth } from '../../../server/src/trade/generated-marks.ts';
import { hobGeometry } from '../../../server/src/trade/hob.ts';
import { hobShiftPositions, hobUseData, runoutData } from '../../../server/src/trade/hob-use-data.ts';
import { cutsOf, hobbing, hobbingWithOmissions, type HobbingInput } from '../../../server/src/trade/hobbing.ts';
import { hobbingPlan } from '../../../server/src/trade/hobbing-plan.ts';
import { exactApproach } from '../../../server/src/trade/hobbing-travel.ts';
import { chordalInspection, correctionFromMeasuredPins, correctionFromMeasuredSpan, internalPinInspection, pinInspection, spanInspection } from '../../../server/src/trade/inspection.ts';
import { inverseInvolute, involute } from '../../../server/src/trade/involute.ts';
import { pairData, shiftSumData } from '../../../server/src/trade/pair-data.ts';
import { overPins } from '../../../server/src/trade/pins.ts';
import { OutOfRange, type Quantity } from '../../../server/src/trade/quantity.ts';
import { spanLength } from '../../../server/src/trade/span.ts';
import { b92Data, din5480Data } from '../../../server/src/trade/spline-figures.ts';
import { iso4156Spline } from '../../../server/src/trade/spline-iso4156.ts';
import { olderToleranceData, toleranceData } from '../../../server/src/trade/tolerance-data.ts';
import { tipDiameterForThickness } from '../../../server/src/trade/tooth-limits.ts';
import { normalFromTransverse } from '../../../server/src/trade/transverse-system.ts';
import { gearInput, hobbingInput, valueOf } from './gear-case-builder.ts';

const number = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
const sign = fc.constantFrom(1 as const, -1 as const);

const soundGear: fc.Arbitrary<GearInput> = fc
  .record({
    normalModule: number(0.3, 10), teeth: fc.integer({ min: 12, max: 200 }), helixAngleDegrees: fc.oneof(fc.constant(0), number(0.5, 40)), gearHand: sign,
    normalPressureAngleDegrees: number(14.5, 25), profileShift: number(-0.2, 0.5),
  })
  .map((changes) => gearInput(changes));

const soundHobbing: fc.Arbitrary<HobbingInput> = fc
  .record({ gear: soundGear, hobHand: sign, hobSide: sign, workRotationSense: sign, cuts: fc.integer({ min: 1, max: 4 }), climb: fc.boolean(), shift: number(-20, 20), feed: number(0.3, 4) })
  .map(({ gear, feed, ...changes }) => hobbingInput({ ...gear, ...changes, feedPerWorkRevolution: feed, hobTipDiameter: 20 * gear.normalModule + 30 }));

describe('laws of the tooth', () => {
  it('one tooth more in the span adds one base pitch', () => {
    fc.assert(fc.property(soundGear, fc.integer({ min: 2, max: 20 }), (input, teeth) => {
      const gear = gearGeometry(input);
      expect(spanLength(gear, teeth + 1) - spanLength(gear, teeth)).toBeCloseTo(gear.normalBasePitch, 9);
    }));
  });

  it('inverse functions undo one another', () => {
    fc.assert(fc.property(number(1e-4, 1.55), (angle) => {
      expect(inverseInvolute(involute(angle))).toBeCloseTo(angle, 10);
    }));
    fc.assert(fc.property(soundHobbing, number(0.001, 0.1), (input, depth) => {
      const gear = gearGeometry(input);
      const hob = hobGeometry(input, gear);
      expect(feedMarkDepth(gear, hob, feedForMarkDepth(gear, hob, depth))).toBeCloseTo(depth, 10);
      expect(maxChipThickness(gear, hob, feedForChipThickness(gear, hob, depth, gear.wholeDepth), gear.wholeDepth)).toBeCloseTo(depth, 10);
    }));
    fc.assert(fc.property(soundGear, number(0.05, 0.6), (input, factor) => {
      const gear = gearGeometry(input);
      const diameter = tipDiameterForThickness(gear, factor * gear.normalModule);
      expect(transverseThicknessAt(gear, diameter)).toBeGreaterThanOrEqual(factor * gear.normalModule - 1e-9);
    }));
  });

  it('the shift sum for the centre distance of a pair is the pair’s own', () => {
    fc.assert(fc.property(fc.integer({ min: 14, max: 80 }), fc.integer({ min: 14, max: 80 }), number(-0.1, 0.5), number(-0.1, 0.5), (z1, z2, x1, x2) => {
      const [first, second] = [gearInput({ teeth: z1, profileShift: x1 }), gearInput({ teeth: z2, profileShift: x2 })];
      const distance = valueOf(pairData(first, second), 'centreDistance');
      expect(valueOf(shiftSumData(first, second, distance), 'shiftSum')).toBeCloseTo(x1 + x2, 6);
    }));
  });

  it('a correction applied to the profile shift gives the wanted size', () => {
    fc.assert(fc.property(soundGear, number(-0.02, 0.02), (input, moduleShare) => {
      const span = spanInspectionOrNothing(input);
      if (span === undefined) return;
      const excess = moduleShare * input.normalModule;
      const request = { x: 0, diameterProgramming: false, measured: span + excess };
      const step = valueOf(correctionFromMeasuredSpan({ ...input, ...request }), 'spanCorrection');
      const gear = gearGeometry({ ...input, profileShift: input.profileShift - step / input.normalModule });
      const teeth = valueOf(spanInspection(input), 'spanTeeth');
      expect(spanLength(gear, teeth) + excess).toBeCloseTo(span, 8);
    }));
  });

  it('the slope of the size over pins is what the correction uses', () => {
    const input = gearInput({ teeth: 25 });
    const step = 1e-5;
    const [before, after] = [-step, step].map((x) => overPins(gearGeometry({ ...input, profileShift: x / input.normalModule }), 5.25).measure);
    const slope = ((after ?? NaN) - (before ?? NaN)) / (2 * step);
    const correction = valueOf(correctionFromMeasuredPins({ ...input, pinDiameter: 5.25, x: 0, diameterProgramming: false, measured: overPins(gearGeometry(input), 5.25).measure + 0.01 }), 'pinsCorrection');
    expect(0.01 / correction).toBeCloseTo(slope, 5);
  });
});

function spanInspectionOrNothing(input: GearInput): number | undefined {
  try {
    return valueOf(spanInspection(input), 'spanLength');
  } catch (error) {
    if (error instanceof OutOfRange) return undefined;
    throw error;
  }
}

describe('inch and metric', () => {
  const lengthFactor: Readonly<Record<string, number>> = { inch: 25.4, 'inch/min': 25.4, 'inch/rev': 25.4, 'deg/inch': 1 / 25.4, 'ft/min': 0.3048 };
  // Pins come from different drawers in the two systems.
  const differing = new Set(['pinDiameter', 'overPins']);

  it('agree in every figure of hobbing', () => {
    fc.assert(fc.property(soundHobbing, (metric) => {
      const inch = hobbing(inInches(metric));
      for (const [id, quantity] of Object.entries(hobbing(metric) as Readonly<Record<string, Quantity>>)) {
        if (differing.has(id)) continue;
        const other = (inch as Readonly<Record<string, Quantity>>)[id];
        const inMetric = (other?.value ?? NaN) * (lengthFactor[other?.unit ?? ''] ?? 1);
        expect(Math.abs(inMetric - quantity.value), id).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(quantity.value)));
      }
    }));
  });

  function inInches(input: HobbingInput): HobbingInput {
    const { cuttingSpeed = 0, ...rest } = input;
    return {
      ...rest, units: 'inch', cuttingSpeed: cuttingSpeed / 0.3048, normalModule: input.normalModule / 25.4, faceWidth: input.faceWidth / 25.4, hobTipDiameter: input.hobTipDiameter / 25.4,
      feedPerWorkRevolution: input.feedPerWorkRevolution / 25.4, clearance: input.clearance / 25.4, shift: input.shift / 25.4,
    };
  }
});

describe('monotony', () => {
  it('a deeper cut needs a longer approach, up to the radius of the hob', () => {
    fc.assert(fc.property(soundHobbing, number(0.1, 0.99), (input, share) => {
      const gear = gearGeometry(input);
      const hob = hobGeometry(input, gear);
      expect(exactApproach(gear, hob, share * gear.wholeDepth)).toBeLessThanOrEqual(exactApproach(gear, hob, gear.wholeDepth));
    }));
  });

  it('a coarser class has larger tolerances, in both editions', () => {
    fc.assert(fc.property(number(5, 1000), number(0.5, 16), number(4, 250), fc.integer({ min: 1, max: 10 }), (d, module, face, flankClass) => {
      const of2013 = (grade: number) => flankTolerances({ teeth: 20, referenceDiameterMm: d, normalModuleMm: module, faceWidthMm: face, helixAngleDegrees: 0, flankClass: grade });
      const of1995 = (grade: number) => olderFlankTolerances({ referenceDiameterMm: d, normalModuleMm: module, faceWidthMm: face, flankClass: grade });
      for (const edition of [of2013, of1995]) {
        const [fine, coarse] = [Object.values(edition(flankClass)), Object.values(edition(flankClass + 1))];
        fine.forEach((value, index) => expect(value).toBeLessThan(coarse[index] ?? NaN));
      }
    }));
  });

  it('the size over pins grows with pin and with profile shift', () => {
    fc.assert(fc.property(fc.integer({ min: 18, max: 120 }), number(1.68, 1.8), (teeth, pin) => {
      const size = (diameter: number, profileShift: number) => overPins(gearGeometry(gearInput({ normalModule: 1, teeth, profileShift })), diameter).measure;
      expect(size(pin + 0.01, 0)).toBeGreaterThan(size(pin, 0));
      expect(size(pin, 0.05)).toBeGreaterThan(size(pin, 0));
    }));
  });
});

describe('cuts', () => {
  it('go deeper each time, end at full depth, and together take the time that is shown', () => {
    fc.assert(fc.property(soundHobbing, (input) => {
      const cuts = cutsOf(input);
      const shown = hobbing(input);
      expect(cuts).toHaveLength(input.cuts);
      expect(cuts.at(-1)?.depth).toBeCloseTo(shown.wholeDepth.value, 9);
      expect(cuts.reduce((sum, cut) => sum + cut.seconds, 0)).toBeCloseTo(shown.cuttingTime.value, 6);
      cuts.forEach((cut, index) => {
        expect(cut.depth).toBeGreaterThan(cuts[index - 1]?.depth ?? 0);
        expect(cut.hobAxisToWorkAxis + cut.depth).toBeCloseTo((shown.tipDiameter.value + input.hobTipDiameter) / 2, 9);
        expect(cut.travel).toBeCloseTo(cut.startZOffset + input.faceWidth + cut.endZOffset, 9);
      });
    }));
  });

  it('take 65 to 75 % of the depth first when there are two (practice, from memory)', () => {
    const [first] = cutsOf(hobbingInput({ cuts: 2 }));
    expect((first?.depth ?? NaN) / 6.75).toBeGreaterThan(0.65);
    expect((first?.depth ?? NaN) / 6.75).toBeLessThan(0.75);
  });

  it('reach far enough behind and before the gear even without clearance', () => {
    fc.assert(fc.property(soundHobbing, (input) => {
      const withExtras = hobUseData({ ...input, clearance: 0, cuts: 1 });
      const [cut] = cutsOf({ ...input, clearance: 0, cuts: 1 });
      expect(cut?.startZOffset ?? NaN).toBeGreaterThanOrEqual(withExtras.exactApproach.value - 1e-9);
    }));
  });
});

describe('the rapid to depth [own rule]', () => {
  it('ends off the rim by at least half of the clearance before the work, for straight teeth and hobs of many starts too', () => {
    const straight = fc.tuple(soundHobbing, fc.integer({ min: 1, max: 5 }), number(0.5, 5)).map(([input, hobStarts, clearance]) => ({ ...input, helixAngleDegrees: 0, hobStarts, clearance }));
    fc.assert(fc.property(fc.oneof(soundHobbing, straight), (input) => {
      for (const { startZOffset, approach } of hobbingPlan(input).cuts) expect(startZOffset - approach.exact).toBeGreaterThanOrEqual(input.clearance / 4 - 1e-9);
    }));
  });
});

describe('shift positions', () => {
  it('run from the leading end on, an increment apart, inside the usable shift', () => {
    fc.assert(fc.property(soundHobbing, number(0.5, 10), (input, increment) => {
      const hobLength = 40 * input.normalModule + 100;
      const positions = hobShiftPositions({ ...input, hobLength }, increment);
      const usable = hobUseData({ ...input, hobLength }).usableShift?.value ?? NaN;
      expect(positions).toHaveLength(Math.floor(usable / increment + 1e-9) + 1);
      positions.slice(1).forEach((position, index) => {
        expect(Math.abs(position.shift - (positions[index]?.shift ?? NaN))).toBeCloseTo(increment, 9);
        expect(Math.hypot(position.deltaY, position.deltaZ)).toBeCloseTo(Math.abs(position.shift), 9);
      });
    }), { numRuns: 40 });
  });
});

describe('outside the range', () => {
  const refusal = (compute: () => unknown): OutOfRange => {
    try {
      compute();
    } catch (error) {
      if (error instanceof OutOfRange) return error;
      throw error;
    }
    throw new Error('nothing was refused');
  };

  it.each<[keyof HobbingInput, number]>([
    ['teeth', 0], ['teeth', 2.5], ['teeth', NaN], ['helixAngleDegrees', 95], ['helixAngleDegrees', -1], ['hobStarts', 0], ['hobTipDiameter', 10], ['hobTipDiameter', NaN],
    ['depth', 40], ['depth', 0], ['normalModule', 0], ['normalModule', NaN], ['normalModule', Infinity], ['normalPressureAngleDegrees', 0], ['normalPressureAngleDegrees', 90],
    ['profileShift', 3], ['faceWidth', 0], ['tipDiameter', 60], ['flankClass', 0], ['flankClass', 12], ['flankClass', 7.5], ['hobGashes', 1], ['hobLength', 0],
    ['cuttingSpeed', 0], ['hobRpm', 100], ['feedPerWorkRevolution', 0], ['cuts', 0], ['clearance', -1], ['shift', NaN],
  ])('%s = %d is refused by that name, with the range', (field, value) => {
    const error = refusal(() => hobbing({ ...hobbingInput(), [field]: value }));
    expect(error.parameter).toBe(field);
    expect(error.allowed).not.toBe('');
  });

  it('refuses a depth at or beyond the radius of the hob', () => {
    const error = refusal(() => hobbing(hobbingInput({ teeth: 200, normalModule: 3, hobTipDiameter: 40, depth: 20 })));
    expect(error.parameter).toBe('depth');
  });

  it('refuses a pointed tooth and names the profile shift', () => {
    expect(refusal(() => gearData(gearInput({ teeth: 8, profileShift: 1.9 }))).parameter).toBe('profileShift');
  });

  it('wants exactly one of cutting speed and rpm', () => {
    const { cuttingSpeed: _, ...without } = hobbingInput();
    expect(refusal(() => hobbing(without)).parameter).toBe('cuttingSpeed');
  });

  it('leaves out what a gear does not have, and says why', () => {
    expect(hobbingWithOmissions(hobbingInput()).quantities.lead).toBeUndefined();
    const tiny = hobbingWithOmissions(hobbingInput({ normalModule: 0.3, teeth: 12, faceWidth: 3, hobTipDiameter: 30 }));
    expect(tiny.quantities.profileTolerance).toBeUndefined();
    expect(tiny.omissions.map(({ reason }) => reason).join()).toMatch(/scope of ISO 1328-1:2013/);
  });

  it('refuses a span over helical teeth on too narrow a face', () => {
    const narrow = hobbingWithOmissions(hobbingInput({ teeth: 30, helixAngleDegrees: 30, faceWidth: 8 }));
    expect(narrow.quantities.spanLength).toBeUndefined();
    expect(narrow.omissions.some(({ ids }) => ids.includes('spanLength'))).toBe(true);
  });

  it('refuses pins that fall through, drop in or rest on the edges', () => {
    const gear = gearGeometry(gearInput());
    for (const pin of [0.5, 2, 30, -1, NaN, 0]) expect(refusal(() => overPins(gear, pin)).parameter).toBe('pinDiameter');
  });

  it('refuses a ball too large for an internal space, rather than giving no number', () => {
    expect(refusal(() => internalPinInspection({ ...gearInput({ teeth: 60 }), pinDiameter: 12 })).parameter).toBe('pinDiameter');
  });

  it('refuses what was not verified of splines', () => {
    expect(refusal(iso4156Spline).message).toMatch(/ISO 4156.*not verified/);
    expect(refusal(() => b92Data({ form: '45 degree fillet root' as '37.5 degree fillet root', teeth: 20, pitch: 10 })).message).toMatch(/not verified/);
    expect(refusal(() => b92Data({ form: '30 degree fillet root', teeth: 20, pitch: 16 })).message).toMatch(/finer fillet roots is not verified/);
    expect(refusal(() => din5480Data({ splineReferenceDiameter: 30, module: 2, teeth: 14, cutting: 'cold rolled' as 'hobbed' })).message).toMatch(/not verified/);
    expect(refusal(() => din5480Data({ splineReferenceDiameter: 30, module: 2, teeth: 20, cutting: 'hobbed' })).parameter).toBe('splineReferenceDiameter');
  });

  it('refuses gears that do not mesh', () => {
    expect(refusal(() => pairData(gearInput(), gearInput({ normalModule: 2 }))).parameter).toBe('second');
    const right = gearInput({ helixAngleDegrees: 15 });
    expect(refusal(() => pairData(right, right)).parameter).toBe('gearHand');
    expect(() => pairData(right, { ...right, gearHand: -1 })).not.toThrow();
  });
});

describe('wild input', () => {
  const wild = fc.oneof(
    fc.double(), fc.double({ min: -10, max: 200 }), fc.integer({ min: -5, max: 500 }),
    fc.constantFrom(NaN, Infinity, -Infinity, 0, -0, Number.MAX_VALUE, Number.MIN_VALUE, Number.EPSILON, 1e308),
  );

  /** Either a typed refusal, or finite figures with a sound working. */
  function holds(compute: () => object): void {
    let record: object;
    try {
      record = compute();
    } catch (error) {
      expect(error).toBeInstanceOf(OutOfRange);
      expect((error as OutOfRange).parameter).not.toBe('');
      return;
    }
    for (const { id, value, working } of Object.values(record as Readonly<Record<string, Quantity>>)) {
      expect(Number.isFinite(value), id).toBe(true);
      expect(working, id).not.toMatch(/NaN|undefined|Infinity/);
    }
  }

  /** A sound input in which some fields go wild, so that the later checks are reached too. */
  const spoilt = <Input extends object>(sound: fc.Arbitrary<Input>, fields: readonly (keyof Input & string)[], most: number): fc.Arbitrary<Input> =>
    fc.tuple(sound, fc.uniqueArray(fc.constantFrom(...fields), { minLength: 1, maxLength: most }), fc.array(wild, { minLength: most, maxLength: most }))
      .map(([input, names, values]) => ({ ...input, ...Object.fromEntries(names.map((name, index) => [name, values[index]])) }));

  const gearFields = ['normalModule', 'teeth', 'helixAngleDegrees', 'gearHand', 'normalPressureAngleDegrees', 'profileShift', 'tipDiameter', 'depth'] as const;
  const hobbingFields = [
    ...gearFields, 'faceWidth', 'flankClass', 'hobTipDiameter', 'hobStarts', 'hobHand', 'hobGashes', 'hobLength', 'cuttingSpeed', 'hobRpm', 'feedPerWorkRevolution', 'cuts', 'clearance',
    'shift', 'hobSide', 'workRotationSense',
  ] as const;

  it('never gets a number that is none out of hobbing', () => {
    fc.assert(fc.property(spoilt(soundHobbing, hobbingFields, 3), (input) => {
      holds(() => hobbing(input));
      holds(() => hobUseData(input));
      holds(() => runoutData(input, { obstacleDiameter: input.faceWidth, reachAlongHobAxis: input.hobLength }));
    }), { numRuns: 1000 });
  });

  it('never gets one out of gears and their inspection', () => {
    fc.assert(fc.property(spoilt(soundGear, gearFields, 4), wild, wild, (input, first, second) => {
      holds(() => gearData(input, first));
      holds(() => spanInspection({ ...input, spanTeeth: first, faceWidth: second }));
      holds(() => spanInspection(input));
      holds(() => pinInspection({ ...input, pinDiameter: first }));
      holds(() => pinInspection(input));
      holds(() => chordalInspection(input));
      holds(() => internalGearData({ ...input, rootDiameter: second }));
      holds(() => internalPinInspection({ ...input, pinDiameter: first }));
      holds(() => correctionFromMeasuredSpan({ ...input, x: first, diameterProgramming: true, measured: second }));
      holds(() => correctionFromMeasuredPins({ ...input, x: second, diameterProgramming: false, measured: first }));
      holds(() => pairData(input, { ...input, teeth: first, profileShift: second }));
      holds(() => shiftSumData(input, input, first));
    }), { numRuns: 1000 });
  });

  it('never gets one out of tolerances, splines and old drawings', () => {
    fc.assert(fc.property(wild, wild, wild, wild, wild, (a, b, c, d, e) => {
      holds(() => toleranceData({ teeth: a, referenceDiameterMm: b, normalModuleMm: c, faceWidthMm: d, helixAngleDegrees: 0, flankClass: e }));
      holds(() => olderToleranceData({ referenceDiameterMm: a, normalModuleMm: b, faceWidthMm: c, flankClass: d }));
      holds(() => din5480Data({ splineReferenceDiameter: a, module: b, teeth: c, cutting: 'hobbed' }));
      holds(() => b92Data({ form: '30 degree flat root side fit', teeth: a, pitch: b }));
      try {
        expect(Object.values(normalFromTransverse({ transverseModule: a, transversePressureAngleDegrees: b, helixAngleDegrees: c, transverseProfileShift: d })).every(Number.isFinite)).toBe(true);
      } catch (error) {
        expect(error).toBeInstanceOf(OutOfRange);
      }
    }), { numRuns: 1000 });
  });
});
