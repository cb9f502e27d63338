import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { wrapAngleDegrees } from '../../../server/src/trade/engraving-path.ts';
import { engraving, engravingPath, type EngravingInput } from '../../../server/src/trade/engraving.ts';
import { ROMAN_SIMPLEX_CHARACTERS, ROMAN_SIMPLEX_RECORDS } from '../../../server/src/trade/letters/roman-simplex.ts';
import { depthForLineWidth, diameterAtDepth, lineWidthError } from '../../../server/src/trade/pointed-tool.ts';
import { OutOfRange } from '../../../server/src/trade/quantity.ts';
import { chipLoadWithRunOut, runOutAtGaugeLength, tiltFromRunOut } from '../../../server/src/trade/run-out.ts';
import { drawnLength, strokesOfText, widthOfText } from '../../../server/src/trade/strokes.ts';
import { runCheckTables } from './checks.ts';
import { engravedLineCheckTables, engravingCheckTables, letterCheckTables, MARK } from './engraving.cases.ts';

runCheckTables([...engravingCheckTables, ...engravedLineCheckTables, ...letterCheckTables]);

describe('letters', () => {
  it('has a record of the length it states for every printable character and the degree sign', () => {
    expect(ROMAN_SIMPLEX_RECORDS.length).toBe([...ROMAN_SIMPLEX_CHARACTERS].length);
    for (const record of ROMAN_SIMPLEX_RECORDS) expect(record.length).toBe(8 + 2 * Number(record.slice(5, 8)));
  });

  it('draws every character but the blank', () => {
    for (const character of ROMAN_SIMPLEX_CHARACTERS.slice(1)) expect(strokesOfText(character, 10).length).toBeGreaterThan(0);
  });

  it('stands capitals and digits on the baseline, as high as asked', () => {
    for (const character of 'ABEFHIKLMNTUVWXYZ17') {
      const ups = strokesOfText(character, 5).flat().map(({ up }) => up);
      expect(Math.min(...ups)).toBeCloseTo(0, 12);
      expect(Math.max(...ups)).toBeCloseTo(5, 12);
    }
  });

  it('names the character that the font does not have', () => {
    expect(() => strokesOfText('A→B', 5)).toThrow(/text: → is not allowed/);
    expect(() => strokesOfText('   ', 5)).toThrow(OutOfRange);
    expect(() => strokesOfText('', 5)).toThrow(OutOfRange);
  });

  it('is as long and as wide as its parts', () => {
    expect(widthOfText('M8x1', 4)).toBeCloseTo([...'M8x1'].reduce((sum, each) => sum + widthOfText(each, 4), 0), 12);
    expect(drawnLength(strokesOfText('M8x1', 4))).toBeCloseTo([...'M8x1'].reduce((sum, each) => sum + drawnLength(strokesOfText(each, 4)), 0), 12);
  });
});

describe('the path on the work', () => {
  it('reads from outside on a face: right of the letters is the turn of their top by -90 degrees', () => {
    const path = engravingPath({ text: 'L', height: 21, surface: 'face', atRadius: 10 });
    expect(path.surface === 'face' && path.strokes).toEqual([[{ x: 31, y: -4 }, { x: 10, y: -4 }], [{ x: 10, y: -4 }, { x: 10, y: -16 }]]);
  });

  it('wraps a cylinder with growing angle and tops to +Z', () => {
    const path = engravingPath({ text: 'L', height: 21, surface: 'cylinder', cylinderDiameter: 40, atZ: -30, startAngleDegrees: 90 });
    const [upright, foot] = path.surface === 'cylinder' ? path.strokes : [];
    expect(upright?.map(({ z }) => z)).toEqual([-9, -30]);
    expect(foot?.[1]?.angleDegrees).toBeCloseTo(90 + wrapAngleDegrees(16, 40), 12);
  });

  it('keeps its length when wrapped: arcs and Z add up to the strokes', () => {
    const path = engravingPath({ text: 'B8', height: 6, surface: 'cylinder', cylinderDiameter: 25 });
    const strokes = path.surface === 'cylinder' ? path.strokes : [];
    let length = 0;
    for (const stroke of strokes) {
      stroke.slice(1).forEach((point, i) => {
        const before = stroke[i] ?? point;
        length += Math.hypot(((point.angleDegrees - before.angleDegrees) / 360) * Math.PI * 25, point.z - before.z);
      });
    }
    expect(length).toBeCloseTo(path.length, 10);
  });

  it('stands with its middle at the angle when asked', () => {
    const path = engravingPath({ text: 'H', height: 21, surface: 'face', align: 'middle' });
    const ys = path.surface === 'face' ? path.strokes.flat().map(({ y }) => y) : [];
    expect(Math.max(...ys)).toBeCloseTo(-Math.min(...ys), 12);
  });

  it('refuses a text that is longer than the cylinder is round', () => {
    expect(() => engravingPath({ text: 'ROUND', height: 20, surface: 'cylinder', cylinderDiameter: 20 })).toThrow(/run into the start/);
  });
});

describe('second computations', () => {
  it('chip loads against the radii of teeth on an eccentric circle', () => {
    for (const teeth of [2, 3, 4, 5, 6, 8]) {
      const eccentricity = 0.005;
      let [largest, smallest] = [-Infinity, Infinity];
      for (let phase = 0; phase < 3600; phase += 1) {
        const radiusOf = (tooth: number) => eccentricity * Math.cos((phase * Math.PI) / 1800 + (2 * Math.PI * tooth) / teeth);
        for (let tooth = 0; tooth < teeth; tooth += 1) {
          const load = 0.02 + radiusOf(tooth) - radiusOf(tooth - 1);
          [largest, smallest] = [Math.max(largest, load), Math.min(smallest, load)];
        }
      }
      const computed = chipLoadWithRunOut(0.02, 2 * eccentricity, teeth);
      expect(computed.largest).toBeCloseTo(largest, 7);
      expect(computed.smallest).toBeCloseTo(smallest, 7);
    }
  });
});

function refusedField(changes: Partial<EngravingInput>): string {
  try {
    engraving({ ...MARK, ...changes });
  } catch (error) {
    if (error instanceof OutOfRange) return error.parameter;
    throw error;
  }
  return 'nothing';
}

describe('inputs that are refused by name', () => {
  it.each<[string, Partial<EngravingInput>]>([
    ['text', { text: 'é' }], ['height', { height: 0 }], ['depth', { depth: 0 }], ['depth', { depth: NaN }], ['tipDiameter', { tipDiameter: -0.1 }],
    ['tipDiameter', { tipDiameter: 0, tipAngleDegrees: 0 }], ['tipAngleDegrees', { tipAngleDegrees: 180 }], ['flutes', { flutes: 0 }], ['flutes', { flutes: 1.5 }],
    ['rpm', { rpm: 0 }], ['chipLoad', { chipLoad: 0 }], ['runOut', { runOut: -1 }], ['plungeShare', { plungeShare: 2 }],
    ['cylinderDiameter', { surface: 'cylinder' }], ['startAngleDegrees', { startAngleDegrees: 361 }],
  ])('%s: %j', (field, changes) => {
    expect(refusedField(changes)).toBe(field);
  });
});

describe('properties', () => {
  const positive = fc.double({ min: 0.01, max: 5, noNaN: true });
  const angle = fc.double({ min: 1, max: 170, noNaN: true });

  it('depth for the width at a depth is that depth', () => {
    fc.assert(fc.property(positive, angle, positive, (tip, tipAngleDegrees, depth) => {
      const tool = { tipDiameter: tip, tipAngleDegrees };
      expect(depthForLineWidth(tool, diameterAtDepth(tool, depth))).toBeCloseTo(depth, 6);
      expect(diameterAtDepth(tool, depth + 0.01) - diameterAtDepth(tool, depth)).toBeCloseTo(lineWidthError(0.01, tipAngleDegrees), 9);
    }));
  });

  it('the tilt of a run-out at a gauge length is the tilt that made it', () => {
    fc.assert(fc.property(positive, positive, fc.double({ min: 0, max: 5, noNaN: true }), (nose, gauge, tilt) => {
      expect(tiltFromRunOut(nose, runOutAtGaugeLength(nose, gauge, tilt), gauge)).toBeCloseTo(tilt, 6);
    }));
  });

  it('inch and metric agree', () => {
    fc.assert(fc.property(positive, positive, (height, depth) => {
      const metric = engraving({ ...MARK, height, depth });
      const inch = engraving({ ...MARK, units: 'inch', height: height / 25.4, depth: depth / 25.4, tipDiameter: 0.1 / 25.4, chipLoad: 0.004 / 25.4 });
      expect(inch.pathLength.value * 25.4).toBeCloseTo(metric.pathLength.value, 8);
      expect(inch.cuttingSpeed.value * 0.3048).toBeCloseTo(metric.cuttingSpeed.value, 8);
      expect(inch.cuttingTime.value).toBeCloseTo(metric.cuttingTime.value, 8);
    }));
  });

  it('wild inputs give figures that are finite or a refusal that names a field', () => {
    const wild = fc.oneof(fc.double(), fc.integer(), fc.constantFrom(0, -0, NaN, Infinity, -Infinity, 1e-320, 1e308, undefined));
    const fields = fc.record({
      units: fc.constantFrom('mm' as const, 'inch' as const), surface: fc.constantFrom('face' as const, 'cylinder' as const), text: fc.string({ unit: 'grapheme', maxLength: 8 }),
      height: wild, depth: wild, tipDiameter: wild, tipAngleDegrees: wild, flutes: wild, rpm: wild, chipLoad: wild, runOut: wild, plungeShare: wild,
      cylinderDiameter: wild, startAngleDegrees: wild, atRadius: wild, atZ: wild,
    }, { requiredKeys: ['units', 'surface'] });
    fc.assert(fc.property(fields, (changes) => {
      expect(finiteOrRefused({ ...MARK, ...changes } as EngravingInput)).toBe('right');
    }), { numRuns: 3000 });
  });
});

function finiteOrRefused(input: EngravingInput): string {
  try {
    const wrong = Object.values(engraving(input)).filter(({ value, working }) => !Number.isFinite(value) || /NaN|Infinity|undefined/.test(working.replace(input.text, '')));
    return wrong.length === 0 ? 'right' : `not finite: ${wrong.map(({ id, working }) => `${id} ${working}`).join('; ')}`;
  } catch (error) {
    const fields = { cylinderDiameter: 0, runOut: 0, plungeShare: 0, ...input };
    return error instanceof OutOfRange && error.parameter in fields ? 'right' : `threw ${String(error)}`;
  }
}
