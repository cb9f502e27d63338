import { describe, expect, it } from 'vitest';
import { keyway } from '../../../server/src/process/keyway.ts';
import { inventedCard } from '../../invented-machine.ts';
import { checkFigures, figureOf, inch, metric, values } from './figures.ts';

const driven = 'BORE=50 WIDTH=14 DEPTH=3.8 LENGTH=32 RPM=1000 LEAD-IN=1.5 LEAD-OUT=1.5 FEED=0.05';
const bore30 = 'BORE=30 WIDTH=8 DEPTH=3.3 LENGTH=25 LEAD-IN=1.5 LEAD-OUT=1.5 FEED=0.05 SPARK-OUT=3';

describe('figures of keyways by note values', () => {
  checkFigures(keyway, [
    { name: 'stroke unit at 1000 rev/min', source: '1000 strokes a minute, 16.7 a second, 35 mm for 32 mm of keyway: common practice, no source', standing: 'common practice', values: driven, expected: { strokeLength: [35, 9], strokesPerMinute: [1000, 9], strokeTime: [0.06, 9] } },
    { name: 'first contact, case 14', source: 'geometry, 7-24-25 triangle', standing: 'derived', values: driven, expected: { firstContactX: [48, 9], sagitta: [1, 9], bottomX: [57.6, 9], overallDimension: [53.8, 9], radialDepth: [4.8, 9] } },
    { name: 'speeds over the stroke', source: 'mean 2 S n and peak pi S n of a sinusoidal stroke', standing: 'derived', values: driven, expected: { meanSpeed: [70, 9], peakSpeed: [109.956, 3] } },
    { name: 'first contact, case 15', source: 'geometry', standing: 'derived', values: `${bore30} RPM=500`, expected: { firstContactX: [2 * 14.4568, 3], sagitta: [0.5432, 4], bottomX: [36.6, 9], overallDimension: [33.3, 9], radialDepth: [3.8432, 4] } },
    { name: 'stroke unit, case 17', source: 'kinematics', standing: 'derived', values: `${bore30} RPM=500`, expected: { strokeLength: [28, 9], strokeTime: [0.12, 9], meanSpeed: [28, 9], peakSpeed: [43.98, 2], strokes: [80, 0], cuttingTime: [9.6, 6], feedPerMinute: [25, 9] } },
    { name: 'stroke unit, case 18, size from DIN 6885-1', source: 'kinematics', standing: 'derived', values: 'BORE=20 LENGTH=20 RPM=1000 LEAD-IN=1.5 LEAD-OUT=1.5 FEED=.03', expected: { strokeLength: [23, 9], meanSpeed: [46, 9], peakSpeed: [72.26, 2], strokes: [111, 0], cuttingTime: [6.66, 6], radialDepth: [3.2606, 4] } },
    { name: 'size by bore, case 1', source: 'Westermann technical drawing, sample p. 50', standing: 'seen in source', values: 'BORE=34 LENGTH=20 RPM=500 FEED=0.05', expected: { overallDimension: [37.3, 9] } },
    { name: 'size and P9 by bore, case 2', source: 'ISO/R 773 table', standing: 'seen in source', values: 'BORE=20 FIT=P9 LENGTH=20 RPM=500 FEED=0.05', expected: { overallDimension: [22.8, 9], widthUpper: [5.988, 6], widthLower: [5.958, 6] } },
    { name: 'edge of a range of bores, case 3', source: 'DIN 6885-1', standing: 'seen in source', values: 'BORE=50 LENGTH=20 RPM=500 FEED=0.05', expected: { overallDimension: [53.8, 9], widthUpper: [14.0215, 6], widthLower: [13.9785, 6] } },
    { name: 'size and JS9 by bore, case 4', source: 'ISO/R 773 table, JIS', standing: 'seen in source', values: 'BORE=100 LENGTH=20 RPM=500 FEED=0.05', expected: { overallDimension: [106.4, 9], widthUpper: [28.026, 6], widthLower: [27.974, 6] } },
    { name: 'size and P9 by bore, case 5', source: 'ISO/R 773 table', standing: 'seen in source', values: 'BORE=140 FIT=P9 LENGTH=20 RPM=500 FEED=0.05', expected: { overallDimension: [148.4, 9], widthUpper: [35.974, 6], widthLower: [35.912, 6] } },
    { name: 'size and P9 by bore, case 6', source: 'ISO/R 773 table', standing: 'seen in source', values: 'BORE=500 FIT=P9 LENGTH=20 RPM=500 FEED=0.05', expected: { overallDimension: [519.5, 9], widthUpper: [99.963, 6], widthLower: [99.876, 6] } },
    { name: 'inch size by bore, case 7', source: 'handbook table of T', standing: 'recomputed published value', setting: inch, values: 'BORE=1 FIT=CLASS1 LENGTH=1 RPM=500 FEED=.002', expected: { overallDimension: [1.114, 3], sagitta: [0.01588, 5] } },
    { name: 'inch size by bore, case 8', source: 'handbook table of T', standing: 'recomputed published value', setting: inch, values: 'BORE=1.5 FIT=CLASS1 LENGTH=1 RPM=500 FEED=.002', expected: { overallDimension: [1.669, 3] } },
    { name: 'inch size by bore, case 9', source: 'handbook table of T', standing: 'recomputed published value', setting: inch, values: 'BORE=2 FIT=CLASS1 LENGTH=1 RPM=500 FEED=.002', expected: { overallDimension: [2.223, 3] } },
    { name: 'inch class 1, case 11', source: 'ASME B17.1 fit tables', standing: 'seen in source', setting: inch, values: 'BORE=1.5 FIT=CLASS1 LENGTH=1 RPM=500 FEED=.002', expected: { widthUpper: [0.377, 6], widthLower: [0.375, 6] } },
  ]);

  it('the stroke of a static tool takes length and cutting speed and more for lifting and return, as case 19 [derived]', () => {
    const evaluation = keyway.evaluate(values(`${bore30} METHOD=STATIC SPEED=8`), metric);
    expect(evaluation.problems).toEqual([]);
    const cutSeconds = 28 / 8000 * 60;
    expect(figureOf(evaluation, 'strokeTime')).toBeGreaterThan(cutSeconds + 28 / 20000 * 60);
    expect(figureOf(evaluation, 'strokes')).toBe(80);
    expect(figureOf(evaluation, 'cuttingTime')).toBeCloseTo(80 * figureOf(evaluation, 'strokeTime'), 9);
  });

  it('X is a radius where the card says so [derived]', () => {
    const evaluation = keyway.evaluate(values(driven), { ...metric, card: { ...metric.card, diameterProgramming: false } });
    expect(figureOf(evaluation, 'firstContactX')).toBeCloseTo(24, 9);
    expect(figureOf(evaluation, 'bottomX')).toBeCloseTo(28.8, 9);
  });

  it('the feed is double where F of an X move counts on the diameter [derived]', () => {
    const evaluation = keyway.evaluate(values(driven), { ...metric, card: { ...metric.card, xFeedOnDiameter: true } });
    expect(figureOf(evaluation, 'feedPerMinute')).toBeCloseTo(100, 9);
  });

  it('free travel and ratio come from the card of the unit before the plain defaults', () => {
    const unit = { kind: 'stroke', name: 'K', leadIn: 3, leadOut: 1, ratio: 2 } as const;
    const evaluation = keyway.evaluate(values('BORE=20 LENGTH=20 RPM=400 FEED=0.05'), { ...metric, card: { ...inventedCard, toolUnits: [unit] } });
    expect(figureOf(evaluation, 'strokeLength')).toBe(24);
    expect(figureOf(evaluation, 'strokesPerMinute')).toBe(800);
  });

  it('free travel of a metric card is converted in an inch program', () => {
    const evaluation = keyway.evaluate(values('BORE=1 FIT=CLASS1 LENGTH=1 RPM=400 FEED=.002'), { ...inch, card: inventedCard });
    expect(figureOf(evaluation, 'strokeLength')).toBeCloseTo(1 + 4 / 25.4, 9);
  });
});

describe('every figure', () => {
  it('shows its working and its source', () => {
    for (const { id, working, source } of keyway.evaluate(values(driven), metric).quantities) {
      expect(working, id).toMatch(/\d/);
      expect(source, id).not.toBe('');
    }
  });

  it('of the contract is there, and each that a word governs', () => {
    const clocked = ' CLOCK-TO=TOOTH GEAR-TEETH=24 TOOTH-ANGLE=0';
    const ids = keyway.evaluate(values(driven + clocked), metric).quantities.map(({ id }) => id);
    expect(ids).toEqual(expect.arrayContaining([
      'strokesPerMinute', 'strokeTime', 'strokeLength', 'meanSpeed', 'peakSpeed', 'firstContactX', 'bottomX', 'radialDepth', 'strokes', 'feedPerMinute', 'cuttingTime',
      'overallDimension', 'widthUpper', 'widthLower', 'sagitta',
    ]));
    for (const [word, governed] of Object.entries(keyway.governs)) expect(governed.filter((id) => !ids.includes(id)), word).toEqual([]);
    expect(keyway.governs['S']?.slice(0, 3)).toEqual(['strokesPerMinute', 'strokeTime', 'peakSpeed']);
    expect(Object.keys(keyway.fields).filter((name) => (keyway.governs[name] ?? []).length === 0)).toEqual([]);
  });
});
