import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clockedToGearDegrees, evenlySpacedAnglesDegrees, turnForOffsetDegrees } from '../../../server/src/trade/clocking.ts';
import { axisMoveSeconds, crankPosition, crankSpeed, meanStrokeSpeed, peakStrokeSpeed, strokeSpeedAt } from '../../../server/src/trade/crank.ts';
import { keyway, keywayPlan, type KeywayInput } from '../../../server/src/trade/keyway.ts';
import { OutOfRange } from '../../../server/src/trade/quantity.ts';
import { grooveContactRadius, halfWidthAtBore, landBetweenGrooves } from '../../../server/src/trade/serration-slots.ts';
import { sidePassOffsets } from '../../../server/src/trade/side-passes.ts';
import { cornerContactRadius, floorRadiusFromMeasuredBore, sagittaOfChord, slotArea } from '../../../server/src/trade/slot-geometry.ts';
import { indexedSlots, indexedSlotsPlan, type IndexedSlotsInput } from '../../../server/src/trade/slots.ts';
import { STRAIGHT_SPLINES, straightSpline } from '../../../server/src/trade/straight-splines.ts';
import { runCheckTables } from './checks.ts';
import { DRIVEN, keywayCheckTables, keywayPlanCheckTables, slotCheckTables, slottingCheckTables, straightSplineCheckTables } from './keyway.cases.ts';

runCheckTables([...keywayCheckTables, ...keywayPlanCheckTables, ...slotCheckTables, ...slottingCheckTables, ...straightSplineCheckTables]);

function refusedField(changes: Partial<KeywayInput>): string {
  try {
    keyway({ ...DRIVEN, ...changes });
  } catch (error) {
    if (error instanceof OutOfRange) return error.parameter;
    throw error;
  }
  return 'nothing';
}

describe('inputs that are refused by name', () => {
  it.each<[string, Partial<KeywayInput>]>([
    ['insertWidth', { width: 14, depth: 3.8, insertWidth: 14.01 }],
    ['insertWidth', { width: 14, depth: 3.8, insertWidth: 0 }],
    ['insertWidth', { width: 14, depth: 3.8, insertWidth: 0.001 }],
    ['width', { width: 50, depth: 3.8 }],
    ['depth', { width: 14, depth: 0 }],
    ['depth', { width: 16 }],
    ['length', { length: 0 }],
    ['length', { length: NaN }],
    ['boreDiameter', { boreDiameter: 5 }],
    ['boreDiameter', { boreDiameter: 501 }],
    ['boreDiameter', { boreDiameter: 12, units: 'inch' }],
    ['feedPerStroke', { feedPerStroke: 0 }],
    ['feedPerStroke', { feedPerStroke: 6 }],
    ['feedPerStroke', { feedPerStroke: 1e-9 }],
    ['stroke', { stroke: 34.9 }],
    ['relief', { relief: 1 }],
    ['toolRpm', { toolRpm: undefined }],
    ['strokeRatio', { strokeRatio: 0 }],
    ['sparkOutStrokes', { sparkOutStrokes: 1.5 }],
    ['count', { count: 0 }],
    ['count', { count: 12 }],
    ['startAngleDegrees', { startAngleDegrees: 400 }],
    ['cuttingSpeed', { method: 'static' }],
    ['clearance', { clearance: 25 }],
    ['fit', { fit: 'Q4' }],
    ['fit', { fit: 'h9' }],
    ['fit', { fit: 'CLASS1' }],
    ['keyShape', { units: 'inch', boreDiameter: 0.375, fit: 'CLASS1', keyShape: 'rectangular' }],
  ])('%s: %j', (field, changes) => {
    expect(refusedField(changes)).toBe(field);
  });

  it('says the range and the reason', () => {
    expect(() => keyway({ ...DRIVEN, stroke: 30 })).toThrow(/stroke: 30 is not allowed; it must be at least 35/);
    expect(() => keyway({ ...DRIVEN, width: 16 })).toThrow(/DIN 6885-1:1968 gives this bore the width 14, not 16/);
  });
});

describe('the plan', () => {
  it('lays spare stroke before the face', () => {
    const { strokeStartZOffset, strokeEndZOffset } = keywayPlan({ ...DRIVEN, stroke: 40 });
    expect([strokeStartZOffset, strokeEndZOffset]).toEqual([6.5, -33.5]);
  });

  it('spaces keyways evenly from the start angle', () => {
    expect(keywayPlan({ ...DRIVEN, count: 3, startAngleDegrees: 15 }).anglesDegrees).toEqual([15, 135, 255]);
  });

  it('counts passes and keyways into the time, once each', () => {
    const one = keywayPlan({ ...DRIVEN, insertWidth: 10 });
    const two = keywayPlan({ ...DRIVEN, insertWidth: 10, count: 2 });
    expect(one.passes.map(({ offsetY }) => offsetY)).toEqual([0, -2, 2]);
    expect(one.totalStrokes).toBe(one.passes.reduce((sum, { strokes }) => sum + strokes, 0));
    expect(two.seconds).toBeCloseTo(2 * one.seconds, 9);
  });

  it('aims side passes at the middle of the limits', () => {
    // 8 P9 is -15/-51, so its middle is 33 micrometres under 8 (ISO 286).
    const plan = keywayPlan({ ...DRIVEN, boreDiameter: 30, fit: 'P9', insertWidth: 6 });
    expect(plan.aimedWidth).toBeCloseTo(7.967, 9);
    const reach = Math.max(...plan.passes.map(({ offsetY }) => offsetY)) + 3;
    expect(2 * reach).toBeCloseTo(plan.aimedWidth, 9);
  });

  it('counts the clearance as strokes through air', () => {
    const [pass] = keywayPlan({ ...DRIVEN, clearance: 0.5 }).passes;
    expect(pass?.feedStrokes).toBe(106);
    expect(pass?.startRadius).toBeCloseTo(23.5, 9);
  });

  it('doubles the X feed only where F counts on the diameter', () => {
    expect(keyway({ ...DRIVEN, xFeedOnDiameter: true }).feedPerMinute?.value).toBe(100);
    expect(keyway(DRIVEN).feedPerMinute?.value).toBe(50);
  });

  it('takes the box cycle defaults where none are given', () => {
    // 35 mm at 8 and back at 20 m/min, twice 0.5 mm at 2 m/min.
    const metric = keyway({ ...DRIVEN, method: 'static', cuttingSpeed: 8 });
    expect(metric.strokeTime.value).toBeCloseTo(60 * (35 / 8000 + 35 / 20000 + 1 / 2000), 12);
    const inch = keyway({ ...DRIVEN, units: 'inch', boreDiameter: 2, fit: 'CLASS1', length: 1, leadIn: 0.1, leadOut: 0.1, feedPerStroke: 0.002, method: 'static', cuttingSpeed: 25 });
    expect(inch.strokeTime.value).toBeCloseTo(60 * (1.2 / 300 + 1.2 / (65 * 12) + 0.04 / (6.5 * 12)), 12);
  });

  it('leaves out what a static tool does not have', () => {
    const figures = keyway({ ...DRIVEN, method: 'static', cuttingSpeed: 8 });
    expect([figures.meanSpeed, figures.peakSpeed, figures.feedPerMinute]).toEqual([undefined, undefined, undefined]);
  });

  it('is wide enough in a blind keyway whose relief takes the lead-out', () => {
    expect(refusedField({ relief: 1.5 })).toBe('nothing');
  });
});

describe('side passes', () => {
  it('are one for an insert as wide as the slot, three for one over half, five where three would hardly overlap', () => {
    expect(sidePassOffsets(8, 8)).toEqual([0]);
    expect(sidePassOffsets(14, 10)).toEqual([0, -2, 2]);
    expect(sidePassOffsets(12, 4).length).toBe(5);
    expect(sidePassOffsets(11, 4)).toEqual([0, -3.5, 3.5]);
  });

  it('refuse an insert that is wider than the slot by a little', () => {
    expect(() => sidePassOffsets(8, 8.0001)).toThrow(/insertWidth/);
  });
});

describe('second computations', () => {
  it('area of the cross-section against integration over the width', () => {
    const [radius, width, floor] = [25, 14, 28.8];
    const steps = 20000;
    let area = 0;
    for (let i = 0; i < steps; i += 1) {
      const y = -width / 2 + ((i + 0.5) * width) / steps;
      area += ((floor - Math.sqrt(radius ** 2 - y ** 2)) * width) / steps;
    }
    expect(slotArea(radius, width, floor)).toBeCloseTo(area, 6);
  });

  it('speed of the crank against differences of its position', () => {
    for (const rodRatio of [0, 0.1, 0.25, 0.5]) {
      const crank = { stroke: 28, strokesPerMinute: 500, rodRatio };
      for (let angle = 5; angle < 180; angle += 7) {
        const step = 1e-3;
        const minutes = (2 * step) / 360 / crank.strokesPerMinute;
        const slope = (crankPosition(crank, angle + step) - crankPosition(crank, angle - step)) / minutes;
        expect(Math.abs(slope / crankSpeed(crank, angle) - 1)).toBeLessThan(1e-6);
      }
    }
  });

  it('speed by distance against speed by angle for a sinusoidal stroke', () => {
    const crank = { stroke: 35, strokesPerMinute: 1000, rodRatio: 0 };
    for (let angle = 1; angle < 180; angle += 13) {
      expect(strokeSpeedAt(crankPosition(crank, angle), 35, 1000)).toBeCloseTo(crankSpeed(crank, angle), 5);
    }
  });

  it('mean speed against the mean of the speed over the cutting half', () => {
    const crank = { stroke: 35, strokesPerMinute: 1000, rodRatio: 0.3 };
    const angles = Array.from({ length: 1800 }, (_, i) => (i + 0.5) / 10);
    const mean = angles.reduce((sum, angle) => sum + crankSpeed(crank, angle), 0) / angles.length;
    expect(mean / meanStrokeSpeed(35, 1000)).toBeCloseTo(1, 5);
  });

  it('a finite rod covers the same stroke', () => {
    expect(crankPosition({ stroke: 28, strokesPerMinute: 1, rodRatio: 0.4 }, 180)).toBeCloseTo(28, 12);
  });

  it('time of a real axis against small steps of time', () => {
    const [speed, acceleration, step] = [0.5, 5, 1e-6];
    for (const length of [0.01, 0.2]) {
      let [position, velocity, time] = [0, 0, 0];
      while (position < length) {
        const braking = velocity ** 2 / (2 * acceleration) >= length - position;
        velocity = braking ? Math.max(velocity - acceleration * step, acceleration * step) : Math.min(speed, velocity + acceleration * step);
        position += velocity * step;
        time += step;
      }
      expect(time).toBeCloseTo(axisMoveSeconds(length, speed, acceleration), 3);
    }
  });

  it('V groove against the distance of its flank from the bore', () => {
    const groove = { boreDiameter: 20, floorRadius: 11, includedAngleDegrees: 60, tipFlat: 0.3 };
    const y = halfWidthAtBore(groove);
    const x = 11 - (y - 0.15) / Math.tan(Math.PI / 6);
    expect(Math.hypot(x, y)).toBeCloseTo(10, 10);
  });
});

describe('indexed slots', () => {
  const input = (shape: IndexedSlotsInput['shape']): IndexedSlotsInput => ({ units: 'mm', shape, startAngleDegrees: 0, diameterProgramming: false });

  it('squares take an insert of 90 degrees, hexagons one of 120', () => {
    const angleOf = (sides: number) => indexedSlotsPlan(input({ kind: 'polygon', sides, acrossFlats: 10, boreDiameter: 10.2 })).insertAngleDegrees;
    expect(angleOf(4)).toBe(90);
    expect(angleOf(6)).toBeCloseTo(120, 12);
  });

  it('the sides of a corner start where the flat meets the bore', () => {
    const { slotWidth } = indexedSlotsPlan(input({ kind: 'polygon', sides: 6, acrossFlats: 10, boreDiameter: 10.5 }));
    // The point lies on the bore's circle and on the flat, whose normal stands 30 degrees off the corner.
    const y = slotWidth / 2;
    const x = Math.sqrt(5.25 ** 2 - y ** 2);
    expect(x * Math.cos(Math.PI / 6) + y * Math.sin(Math.PI / 6)).toBeCloseTo(5, 9);
  });

  it('refuses serrations that run into one another', () => {
    const groove = { boreDiameter: 20, floorRadius: 11, includedAngleDegrees: 60, tipFlat: 0 };
    expect(landBetweenGrooves(groove, 36)).toBeGreaterThan(0);
    expect(() => landBetweenGrooves(groove, 60)).toThrow(/run into one another/);
  });

  it('leaves lands between serrations that make up the circle with the grooves', () => {
    // Thirty-six grooves of 60 degrees, sharp, 1 deep in a bore of 20: half a groove by the sine rule in the triangle of axis, apex and edge.
    const apexAngle = Math.PI / 6;
    const atEdge = Math.PI - Math.asin((11 * Math.sin(apexAngle)) / 10);
    const half = Math.PI - apexAngle - atEdge;
    const land = landBetweenGrooves({ boreDiameter: 20, floorRadius: 11, includedAngleDegrees: 60, tipFlat: 0 }, 36);
    expect(land).toBeCloseTo(10 * ((2 * Math.PI) / 36 - 2 * half), 9);
  });

  it('refuses a groove so flat that its sides miss the bore', () => {
    expect(() => halfWidthAtBore({ boreDiameter: 20, floorRadius: 11, includedAngleDegrees: 140, tipFlat: 0 })).toThrow(/miss the bore/);
    // At 130.76 degrees and more the sides pass the bore: sine of half the angle is 10 over 11.
    expect(halfWidthAtBore({ boreDiameter: 20, floorRadius: 11, includedAngleDegrees: 130.75, tipFlat: 0 })).toBeGreaterThan(3);
    expect(() => halfWidthAtBore({ boreDiameter: 20, floorRadius: 11, includedAngleDegrees: 130.77, tipFlat: 0 })).toThrow(/miss the bore/);
  });

  it('lets as many grooves stand as fill the circle', () => {
    const groove = { boreDiameter: 20, floorRadius: 11, includedAngleDegrees: 60, tipFlat: 0 };
    const angleOfOne = 2 * Math.asin(halfWidthAtBore(groove) / 10);
    const most = Math.floor((2 * Math.PI) / angleOfOne);
    expect(landBetweenGrooves(groove, most)).toBeGreaterThanOrEqual(0);
    expect(() => landBetweenGrooves(groove, most + 1)).toThrow(OutOfRange);
  });

  it('a flat point touches the bore before the middle of it would', () => {
    const serration = { kind: 'serration' as const, count: 24, boreDiameter: 26, floorDiameter: 28, includedAngleDegrees: 60 };
    // 5-12-13: a flat of 10 touches at 12. No real point is so wide; the triangle makes the check plain.
    expect(grooveContactRadius({ boreDiameter: 26, tipFlat: 10 })).toBeCloseTo(12, 12);
    expect(indexedSlotsPlan(input({ ...serration, tipFlat: 0 })).contactRadius).toBe(13);
  });

  it('refuses a spline that the standard does not have, and inches', () => {
    expect(() => straightSpline(6, 23, 27)).toThrow(/6x23x26, 6x23x28/);
    const spline = input({ kind: 'straightSpline', teeth: 6, innerDiameter: 23, outerDiameter: 26 });
    expect(() => indexedSlots({ ...spline, units: 'inch' })).toThrow(/ISO 14 is metric/);
  });

  it('holds 15 splines of the light and 20 of the medium series', () => {
    const inSeries = (series: string) => STRAIGHT_SPLINES.filter((row) => row.series === series).length;
    expect([inSeries('light'), inSeries('medium')]).toEqual([15, 20]);
  });
});

describe('clocking', () => {
  it('puts a keyway on a tooth or on the space that follows', () => {
    expect(clockedToGearDegrees(3, 24, 'tooth', 2)).toBe(33);
    expect(clockedToGearDegrees(3, 24, 'space')).toBe(10.5);
  });

  it('sees an off-centre error from the axis as arcsine of error over radius', () => {
    expect(turnForOffsetDegrees(25 * Math.sin(0.01), 25)).toBeCloseTo((0.01 * 180) / Math.PI, 10);
  });

  it('does not add up rounding over a whole turn', () => {
    expect(evenlySpacedAnglesDegrees(7, 0)[6]).toBe((6 * 360) / 7);
  });
});

describe('properties', () => {
  const bore = fc.double({ min: 6, max: 500, noNaN: true });
  const share = fc.double({ min: 0.01, max: 0.99, noNaN: true });

  it('contact radius and sagitta make up the radius; the corner lies on the bore', () => {
    fc.assert(fc.property(bore, share, (diameter, part) => {
      const half = (diameter / 2) * part;
      const contact = cornerContactRadius(diameter / 2, half);
      expect(Math.hypot(contact, half)).toBeCloseTo(diameter / 2, 8);
      expect(contact + sagittaOfChord(diameter / 2, 2 * half)).toBeCloseTo(diameter / 2, 8);
    }));
  });

  it('a measured bore of nominal size gives the floor of the plan back', () => {
    fc.assert(fc.property(bore, (boreDiameter) => {
      const plan = keywayPlan({ ...DRIVEN, boreDiameter });
      expect(floorRadiusFromMeasuredBore(boreDiameter + plan.depth, boreDiameter)).toBeCloseTo(plan.floorRadius, 8);
    }));
  });

  it('inch and metric agree', () => {
    fc.assert(fc.property(bore, share, share, (boreDiameter, part, deep) => {
      const metric = { ...DRIVEN, boreDiameter, width: (boreDiameter / 2) * part, depth: (boreDiameter / 4) * deep, feedPerStroke: 0.0002 * boreDiameter * deep };
      const inch = { ...metric, units: 'inch' as const };
      for (const field of ['boreDiameter', 'width', 'depth', 'feedPerStroke', 'length', 'leadIn', 'leadOut'] as const) inch[field] = metric[field] / 25.4;
      const [a, b] = [keyway(metric), keyway(inch)];
      expect(b.bottomX.value * 25.4).toBeCloseTo(a.bottomX.value, 6);
      expect(b.widthUpper.value * 25.4).toBeCloseTo(a.widthUpper.value, 6);
      expect(b.strokes.value).toBe(a.strokes.value);
      expect((b.peakSpeed?.value ?? NaN) * 0.3048).toBeCloseTo(a.peakSpeed?.value ?? NaN, 6);
    }));
  });

  it('deeper and finer cuts never take fewer strokes', () => {
    fc.assert(fc.property(share, share, (a, b) => {
      const [less, more] = [Math.min(a, b), Math.max(a, b)];
      const strokes = (depth: number, feed: number) => keyway({ ...DRIVEN, width: 14, depth, feedPerStroke: feed }).strokes.value;
      expect(strokes(more, 0.05)).toBeGreaterThanOrEqual(strokes(less, 0.05));
      expect(strokes(1, less / 10)).toBeGreaterThanOrEqual(strokes(1, more / 10));
    }));
  });

  it('side passes cover the slot without a gap and reach both flanks', () => {
    fc.assert(fc.property(fc.double({ min: 1, max: 100, noNaN: true }), share, (slot, part) => {
      const insert = slot * part;
      const sorted = [...sidePassOffsets(slot, insert)].sort((a, b) => a - b);
      expect((sorted.at(-1) ?? NaN) + insert / 2).toBeCloseTo(slot / 2, 8);
      sorted.slice(1).forEach((y, i) => expect(y - (sorted[i] ?? NaN)).toBeLessThan(insert));
    }));
  });

  it('peak speed is nowhere exceeded on the stroke', () => {
    fc.assert(fc.property(share, (part) => {
      expect(strokeSpeedAt(28 * part, 28, 500)).toBeLessThanOrEqual(peakStrokeSpeed(28, 500) * (1 + 1e-12));
    }));
  });

  it('wild inputs give figures that are finite or a refusal that names a field', () => {
    const wild = fc.oneof(fc.double(), fc.integer(), fc.constantFrom(0, -0, NaN, Infinity, -Infinity, 1e-320, 1e308, undefined));
    const fields = fc.record({
      units: fc.constantFrom('mm' as const, 'inch' as const), method: fc.constantFrom('driven' as const, 'static' as const),
      fit: fc.constantFrom('JS9', 'P9', 'CLASS1', 'CLASS2', 'CLASS3', '', 'D10'),
      boreDiameter: wild, width: wild, depth: wild, length: wild, insertWidth: wild, toolRpm: wild, strokeRatio: wild, feedPerStroke: wild,
      sparkOutStrokes: wild, leadIn: wild, leadOut: wild, stroke: wild, count: wild, startAngleDegrees: wild, relief: wild,
      cuttingSpeed: wild, returnSpeed: wild, liftSpeed: wild, liftOff: wild, clearance: wild,
    }, { requiredKeys: ['units', 'method', 'fit'] });
    fc.assert(fc.property(fields, (changes) => {
      const outcome = finiteOrRefused({ ...DRIVEN, ...changes } as KeywayInput);
      expect(outcome).toBe('right');
    }), { numRuns: 3000 });
  });
});

function finiteOrRefused(input: KeywayInput): string {
  try {
    const figures = Object.values(keyway(input));
    const wrong = figures.filter((figure) => !Number.isFinite(figure?.value) || /NaN|Infinity|undefined/.test(figure?.working ?? ''));
    return wrong.length === 0 ? 'right' : `not finite: ${wrong.map((figure) => `${figure?.id} ${figure?.working}`).join('; ')}`;
  } catch (error) {
    return error instanceof OutOfRange && error.parameter in { ...DRIVEN, ...input } ? 'right' : `threw ${String(error)}`;
  }
}
