/** Whatever numbers go in, the figures of keys, slots, engraving and cutting are finite or refused with a named input. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { balanceFigures, finishFigures, helixFigures, millingFigures, presetFigures, runOutFigures } from '../../../server/src/trade/cutting-figures.ts';
import { chipLoadFigures, engravedLineFigures, wrapFigures } from '../../../server/src/trade/engraving-figures.ts';
import { fitFigures } from '../../../server/src/trade/fit-figures.ts';
import { inchKeyFigures, metricKeyFigures } from '../../../server/src/trade/key-figures.ts';
import { OutOfRange, type Quantity, type Units } from '../../../server/src/trade/quantity.ts';
import { halfWidthAtBore, landBetweenGrooves } from '../../../server/src/trade/serration-slots.ts';
import { indexedSlots } from '../../../server/src/trade/slots.ts';
import { straightSpline } from '../../../server/src/trade/straight-splines.ts';
import { boxCycleFigures, clockingFigures, crankFigures, measuredBoreFigures, polygonFigures, slotErrorFigures } from '../../../server/src/trade/slotting-figures.ts';

/** What a slip of the keys, a broken file or an earlier formula could bring. */
const wild = fc.oneof(
  fc.double(), fc.double({ min: 0, max: 1000, noNaN: true }), fc.integer({ min: -10, max: 100 }),
  fc.constantFrom(0, -0, NaN, Infinity, -Infinity, 1e-320, 1e-11, 1e5, 1e308, 90, 180, 360),
);

/** Sound values, each a little changed, and of some of them something wild instead. */
function around(sound: Numbers): fc.Arbitrary<number[]> {
  const one = (value: number) => fc.oneof(
    { weight: 5, arbitrary: fc.constant(value) },
    { weight: 3, arbitrary: fc.double({ min: 0.7, max: 1.4, noNaN: true }).map((factor) => value * factor) },
    { weight: 1, arbitrary: wild },
  );
  return fc.tuple(...sound.map(one));
}

type Numbers = readonly number[];
type Compute = (values: Numbers, units: Units) => object;

const at = (values: Numbers, index: number): number => values[index] ?? NaN;

const functions: Readonly<Record<string, readonly [sound: Numbers, compute: Compute]>> = {
  measuredBoreFigures: [[30, 8, 33.3], (v, units) => measuredBoreFigures({ units, measuredBoreDiameter: at(v, 0), width: at(v, 1), overall: at(v, 2) })],
  crankFigures: [[28, 500, 0.25, 3, 40, 1], (v, units) => crankFigures({ units, stroke: at(v, 0), strokesPerMinute: at(v, 1), rodRatio: at(v, 2), distance: at(v, 3), angleDegrees: at(v, 4), returnTimeRatio: at(v, 5) })],
  boxCycleFigures: [[28, 8000, 20000, 0.5, 2000, 5000], (v, units) => boxCycleFigures({ units, stroke: at(v, 0), cutFeed: at(v, 1), returnFeed: at(v, 2), liftOff: at(v, 3), liftFeed: at(v, 4), acceleration: at(v, 5) })],
  slotErrorFigures: [[2, 28.8, 20, 10, 3.8, 0.1, 0.001], (v, units) => slotErrorFigures({ units, offset: at(v, 0), floorRadius: at(v, 1), slotWidth: at(v, 2), insertWidth: at(v, 3), depth: at(v, 4), squarenessErrorDegrees: at(v, 5), resolutionDegrees: at(v, 6) })],
  clockingFigures: [[3, 24, 2], (v) => clockingFigures(at(v, 0), at(v, 1), 'space', at(v, 2))],
  polygonFigures: [[6, 10, 10], (v, units) => polygonFigures({ units, sides: at(v, 0), acrossFlats: at(v, 1), boreDiameter: at(v, 2) })],
  'indexedSlots, polygon': [[6, 10, 10, 15], (v, units) => indexedSlots({ units, startAngleDegrees: at(v, 3), diameterProgramming: true, shape: { kind: 'polygon', sides: 3 + (Math.floor(Math.abs(at(v, 0))) % 9), acrossFlats: at(v, 1), boreDiameter: at(v, 2) } })],
  'indexedSlots, serration': [[36, 20, 22, 60, 0.2], (v, units) => indexedSlots({
    units, startAngleDegrees: 0, diameterProgramming: false,
    shape: { kind: 'serration', count: at(v, 0), boreDiameter: at(v, 1), floorDiameter: at(v, 2), includedAngleDegrees: at(v, 3), tipFlat: at(v, 4) },
  })],
  halfWidthAtBore: [[20, 11, 60, 0.2], (v) => ({ half: halfWidthAtBore({ boreDiameter: at(v, 0), floorRadius: at(v, 1), includedAngleDegrees: at(v, 2), tipFlat: at(v, 3) }) })],
  landBetweenGrooves: [[20, 11, 60, 0.2, 36], (v) => ({ land: landBetweenGrooves({ boreDiameter: at(v, 0), floorRadius: at(v, 1), includedAngleDegrees: at(v, 2), tipFlat: at(v, 3) }, at(v, 4)) })],
  straightSpline: [[6, 23, 26], (v) => ({ width: straightSpline(at(v, 0), at(v, 1), at(v, 2)).width })],
  metricKeyFigures: [[50], (v) => metricKeyFigures(at(v, 0))],
  inchKeyFigures: [[1.5], (v) => inchKeyFigures({ boreDiameter: at(v, 0), fit: 'CLASS2' })],
  fitFigures: [[14, 9], (v) => fitFigures(at(v, 0), `P${Math.round(at(v, 1) % 14)}`)],
  chipLoadFigures: [[0.02, 0.01, 4], (v, units) => chipLoadFigures({ units, chipLoad: at(v, 0), runOut: at(v, 1), flutes: at(v, 2) })],
  engravedLineFigures: [[0.1, 60, 3, 0.4, 0.02, 75000], (v, units) => engravedLineFigures({ units, tipDiameter: at(v, 0), tipAngleDegrees: at(v, 1), height: at(v, 2), lineWidth: at(v, 3), depthError: at(v, 4), rpm: at(v, 5) })],
  wrapFigures: [[40, 1, 100, 0.15], (v, units) => wrapFigures({ units, cylinderDiameter: at(v, 0), arc: at(v, 1), feed: at(v, 2), halfWidth: at(v, 3) })],
  millingFigures: [[20, 2, 10, 100, 50], (v, units) => millingFigures({ units, cutterDiameter: at(v, 0), depthOfCut: at(v, 1), widthOfCut: at(v, 2), feedPerMinute: at(v, 3), length: at(v, 4) })],
  finishFigures: [[0.1, 1, 8, 5, 2], (v, units) => finishFigures({ units, feedPerRevolution: at(v, 0), noseRadius: at(v, 1), stepover: at(v, 2), ballRadius: at(v, 3), height: at(v, 4) })],
  helixFigures: [[30, 300, 50], (v, units) => helixFigures({ units, diameter: at(v, 0), lead: at(v, 1), length: at(v, 2) })],
  runOutFigures: [[0.002, 100, 0.01, 0.02, 3], (v, units) => runOutFigures({ units, runOutAtNose: at(v, 0), gaugeLength: at(v, 1), tiltDegrees: at(v, 2), runOutFarther: at(v, 3), toolDiameter: at(v, 4) })],
  balanceFigures: [[6.3, 1, 15000], (v) => balanceFigures(at(v, 0), at(v, 1), at(v, 2))],
  presetFigures: [[42.35, -4, 4, 61.2], (v, units) => presetFigures({ edgeX: at(v, 0), lowerCornerY: at(v, 1), upperCornerY: at(v, 2), frontZ: at(v, 3) }, true, units)],
};

describe('wild inputs', () => {
  it.each(Object.entries(functions))('%s', (_name, [sound, compute]) => {
    expect(() => compute(sound, 'mm')).not.toThrow();
    fc.assert(fc.property(around(sound), fc.constantFrom<Units>('mm', 'inch'), (values, units) => {
      expect(outcomeOf(() => compute(values, units))).toBe('finite or refused');
    }), { numRuns: 2000 });
  });
});

function outcomeOf(compute: () => object): string {
  try {
    const wrong = Object.entries(compute()).filter(([, figure]) => !isSound(figure));
    return wrong.length === 0 ? 'finite or refused' : `not finite: ${wrong.map(([id, figure]) => `${id} ${typeof figure === 'number' ? figure : figure.working}`).join('; ')}`;
  } catch (error) {
    return error instanceof OutOfRange && error.allowed !== '' && error.parameter !== '' ? 'finite or refused' : `threw ${String(error)}`;
  }
}

function isSound(figure: number | Quantity): boolean {
  if (typeof figure === 'number') return Number.isFinite(figure);
  return Number.isFinite(figure.value) && !/NaN|Infinity|undefined/.test(figure.working);
}
