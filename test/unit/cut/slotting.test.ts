/**
 * Indexed slots, composed, read back and cut virtually: squares, hexagons,
 * serrations and splines come out as wanted, and made wrong in one word they are
 * named. What is wanted is elementary geometry (derived) unless a source stands
 * beside it.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { edgeBeyond, type EdgeSweep } from '../../../server/src/cut/slot-cut.ts';
import { measurePolygon } from '../../../server/src/cut/polygon-measure.ts';
import { measuredPolygon, polygonFindings } from '../../../server/src/cut/polygon-verdict.ts';
import type { SlotStretch } from '../../../server/src/cut/slot-stretch.ts';
import { toldIn } from '../../../server/src/cut/told.ts';
import { composedProgram, figure, inventedCard, provedStretch, rulesOf, usualMachine } from './composed-programs.ts';

const card = inventedCard();
const rad = Math.PI / 180;
const driven = { RPM: '600', FEED: '0.05', LENGTH: '12' };
const standing = { METHOD: 'STATIC', SPEED: '8', FEED: '0.2', LENGTH: '12' };
const hexagon = { SHAPE: 'HEXAGON', BORE: '10', 'ACROSS-FLATS': '10' };
const square = { SHAPE: 'SQUARE', BORE: '11', 'ACROSS-FLATS': '10', ANGLE: '20' };
const serration = { SHAPE: 'SERRATION', BORE: '20', COUNT: '36', 'OUTER-DIA': '21.5', 'INCLUDED-ANGLE': '60', 'TIP-FLAT': '0.1' };
const spline = { SHAPE: 'SPLINE', BORE: '23', COUNT: '6', 'OUTER-DIA': '26' };

function changed(text: string, pattern: RegExp, replacement: string): string {
  const result = text.replace(pattern, replacement);
  if (result === text) throw new Error(`${pattern} is not in\n${text}`);
  return result;
}

function proved(raw: Record<string, string>, own = card) {
  const stretch = provedStretch(composedProgram('slotting', raw, own), own);
  expect(stretch.refused).toBeUndefined();
  expect(stretch.proof!.findings).toEqual([]);
  return stretch;
}

describe('what is cut right', () => {
  it.each([['driven', driven], ['static', standing]])('a hexagon of 10, %s: corners 1.1547 of it (regular polygon, published ratio, seen in source)', (_, strokes) => {
    const stretch = proved({ ...hexagon, ...strokes });
    expect(figure(stretch, 'slotCount').value).toBe(6);
    for (const pair of [1, 2, 3]) expect(figure(stretch, `acrossFlats${pair}`).value).toBeCloseTo(10, 3);
    for (const corner of [1, 6]) expect(figure(stretch, `cornerDiameter${corner}`).value).toBeCloseTo(11.547, 3);
    expect([1, 2, 3, 4, 5, 6].map((corner) => (figure(stretch, `cornerAngle${corner}`).value + 370) % 360).sort((a, b) => a - b)).toEqual([10, 70, 130, 190, 250, 310].map((each) => expect.closeTo(each, 6)));
    expect(figure(stretch, 'cornerLength1').value).toBeCloseTo(12, 2);
    expect(figure(stretch, 'flatness1').value).toBeLessThan(0.001);
  });

  it('a square of 10 from a wider bore: corners 1.4142 of it (published ratio, seen in source), flats between them', () => {
    const stretch = proved({ ...square, ...driven });
    expect(figure(stretch, 'acrossFlats2').value).toBeCloseTo(10, 3);
    expect(figure(stretch, 'cornerDiameter1').value).toBeCloseTo(14.142, 3);
    expect([1, 2, 3, 4].map((flat) => figure(stretch, `flatAngle${flat}`).value).sort((a, b) => a - b)).toEqual([-115, -25, 65, 155].map((each) => expect.closeTo(each, 2)));
  });

  it('a serration of 36 grooves of 60 degrees: 0.75 deep, 0.1 + 0.75 tan 30 wide half way down', () => {
    const stretch = proved({ ...serration, ...driven });
    expect(figure(stretch, 'slotCount').value).toBe(36);
    for (const end of ['Least', 'Greatest']) {
      expect(figure(stretch, `slotFlanks${end}`).value).toBeCloseTo(60, 2);
      expect(figure(stretch, `slotDepth${end}`).value).toBeCloseTo(0.75, 3);
      expect(figure(stretch, `slotWidth${end}`).value).toBeCloseTo(0.1 + 0.75 * Math.tan(30 * rad), 3);
    }
  });

  it('the spline 6 x 23 x 26 of ISO 14:1982: six spaces of 6, 1.5 deep (seen in source)', () => {
    const stretch = proved({ ...spline, ...standing });
    expect(figure(stretch, 'slotCount').value).toBe(6);
    expect(figure(stretch, 'slotWidth1').value).toBeCloseTo(6, 6);
    expect(figure(stretch, 'slotDepth3').value).toBeCloseTo(1.5, 3);
  });

  it('every shape, driven and static, wherever it stands, however C counts, on either spindle', () => {
    const shapes = fc.oneof(
      fc.record({ SHAPE: fc.constantFrom('SQUARE', 'HEXAGON'), BORE: fc.constantFrom('8', '10', '10.5'), 'ACROSS-FLATS': fc.constant('10') }),
      fc.record({ SHAPE: fc.constant('SERRATION'), BORE: fc.constant('20'), COUNT: fc.constantFrom('7', '24'), 'OUTER-DIA': fc.constantFrom('21', '22'), 'INCLUDED-ANGLE': fc.constantFrom('55', '90') }),
      fc.constantFrom<Record<string, string>>({ SHAPE: 'SPLINE', BORE: '32', COUNT: '8', 'OUTER-DIA': '38' }),
    );
    const signs = fc.constantFrom<1 | -1>(1, -1);
    fc.assert(fc.property(shapes, fc.constantFrom(driven, standing), fc.integer({ min: -90, max: 90 }), fc.record({ main: signs, sub: signs, z: signs, onSub: fc.boolean(), diameter: fc.boolean() }), (shape, strokes, angle, machine) => {
      const own = inventedCard({ ...usualMachine, workRotation: machine.main, diameterProgramming: machine.diameter }, {
        subSpindle: { zSense: machine.z, ySense: -1, workRotation: machine.sub },
        codes: { ...card.codes, subAxisOn: 'M291', subAxisOff: 'M292', subClamp: 'M293', subUnclamp: 'M294' },
      });
      proved({ ...shape, ...strokes, ANGLE: String(angle), SPINDLE: machine.onSub ? 'SUB' : 'MAIN' }, own);
    }), { numRuns: 12 });
  });
});

describe('flats wider than the insert, in side passes', () => {
  const any = fc.record({ SHAPE: fc.constantFrom('SQUARE', 'HEXAGON'), BORE: fc.constantFrom('19', '20', '21'), INSERT: fc.constantFrom('2.5', '4', '6'), ANGLE: fc.constantFrom('0', '17.5'), FLATNESS: fc.constant('0.004') });

  it.each([['driven', driven], ['static', standing]])('%s: every flat is as plane as stated, across flats and corners are as wanted', (_, strokes) => {
    fc.assert(fc.property(any, (raw) => {
      const stretch = proved({ ...raw, ...strokes, 'ACROSS-FLATS': '20' });
      const sides = raw.SHAPE === 'SQUARE' ? 4 : 6;
      for (let flat = 1; flat <= sides; flat += 1) expect(figure(stretch, `flatness${flat}`)).toMatchObject({ value: expect.toSatisfy((value: number) => value < 0.001) as number, wanted: 0.004 });
      for (let pair = 1; pair <= sides / 2; pair += 1) expect(figure(stretch, `acrossFlats${pair}`).value).toBeCloseTo(20, 3);
      expect(figure(stretch, 'cornerDiameter1').value).toBeCloseTo(20 / Math.cos(Math.PI / sides), 3);
    }), { numRuns: 5 });
  });

  const six = composedProgram('slotting', { SHAPE: 'HEXAGON', BORE: '20', 'ACROSS-FLATS': '20', INSERT: '4', FLATNESS: '0.02', ...driven }, card);
  const outermost = /G00 Y3\.0\n(.*\n){2}G00 X\S+\n/;

  it.each<[string, string]>([
    ['a side pass missing', changed(six, outermost, '')],
    ['a side pass not at depth', changed(six, /(G00 Y3\.0\nG01 )X[\d.]+/, '$1X19.5')],
    ['the passes of one side moved by two tenths', six.replaceAll('Y3.0', 'Y3.2')],
  ])('%s: the flat is out of the stated flatness', (_, text) => {
    expect(text).not.toBe(six);
    expect(rulesOf(provedStretch(text, card))).toContain('slot-flatness');
  });
});

describe('made wrong in one word', () => {
  const six = composedProgram('slotting', { ...hexagon, ...driven }, card);
  const four = composedProgram('slotting', { ...square, ...standing }, card);
  const grooves = composedProgram('slotting', { ...serration, ...driven, COUNT: '12' }, card);
  const splined = composedProgram('slotting', { ...spline, ...driven }, card);
  const ofCorner = (angle: number) => new RegExp(`G00 C${angle}\\.0\\n(.*\\n){5}`);

  it.each<[string, string, string]>([
    ['one corner indexed a degree off', changed(six, /C120\.0/, 'C121.0'), 'slot-position'],
    ['one corner indexed a degree off: its flats are no planes', changed(six, /C120\.0/, 'C121.0'), 'slot-flatness'],
    ['all corners on a wrong pitch', changed(six, /C60\.0/, 'C59.9').replace('C120.0', 'C119.8').replace('C180.0', 'C179.7').replace('C240.0', 'C239.6').replace('C300.0', 'C299.5'), 'slot-position'],
    ['one corner missing', changed(six, ofCorner(240), 'G00 C240.0\n'), 'slot-count'],
    ['one corner missing in a square: two flats are not finished', changed(four, /C200\.0/, 'C110.0'), 'slot-count'],
    ['X taken as a radius', six.replaceAll('X11.547', 'X5.7735'), 'slot-nothing'],
    ['the width across flats taken for X', six.replaceAll('X11.547', 'X10.4'), 'slot-across-flats'],
    ['one corner not deep enough', changed(six, /X11\.547/, 'X11.3'), 'slot-depth'],
    ['the insert above the middle', changed(six, /Y0\.0/, 'Y0.1'), 'slot-flatness'],
    ['the unit too far before the face', six.replaceAll('Z2.0', 'Z9.0'), 'slot-length'],
    ['no spark-out', six.replace(/G04.*\n/g, ''), 'slot-floor'],
    ['the note asks for a square', changed(six, /SHAPE=HEXAGON/, 'SHAPE=SQUARE'), 'slot-count'],
    ['the note asks for wider flats', changed(six, /ACROSS-FLATS=10/, 'ACROSS-FLATS=10.2'), 'slot-depth'],
    ['a groove missing', changed(grooves, ofCorner(90), 'G00 C90.0\n'), 'slot-count'],
    ['a groove off by a third of a degree', changed(grooves, /C90\.0/, 'C90.333'), 'slot-position'],
    ['a groove cut twice, the second time turned', changed(grooves, ofCorner(90), '$&M194\nG00 C91.0\nM193\nG01 X21.5 F60.0\nG00 X19.0\n'), 'slot-width'],
    ['a groove cut twice: its flanks are no more those of the insert', changed(grooves, ofCorner(90), '$&M194\nG00 C91.0\nM193\nG01 X21.5 F60.0\nG00 X19.0\n'), 'slot-flanks'],
    ['grooves beside the middle', changed(grooves, /Y0\.0/, 'Y0.05'), 'slot-centre'],
    ['grooves not deep enough', grooves.replaceAll('X21.5', 'X21.3'), 'slot-depth'],
    ['a space of the spline off', changed(splined, /C180\.0/, 'C181.0'), 'slot-position'],
    ['spaces too shallow', splined.replaceAll('X26.0', 'X25.9'), 'slot-depth'],
    ['the spline on a wrong zero', changed(splined, /COUNT=6/, 'ANGLE=1 COUNT=6'), 'slot-position'],
  ])('%s', (_, text, rule) => {
    const stretch = provedStretch(text, card);
    expect(stretch.refused).toBeUndefined();
    expect(rulesOf(stretch)).toContain(rule);
  });

  it('names the line of the wrong angle, and counts what else is wrong', () => {
    const text = changed(grooves, /C90\.0/, 'C91.0').replace('C120.0', 'C121.0');
    const found = provedStretch(text, card).proof!.findings.find(({ rule }) => rule === 'slot-position')!;
    expect(found.message).toMatch(/A slot lies at C 91; 0 and every 30 degrees is wanted: off by 1 degrees\. 1 more lies wrong\./);
    expect(text.split('\n').slice(0, found.line + 1).findLast((line) => line.startsWith('G00 C'))).toBe('G00 C91.0');
  });
});

describe('the measuring does not depend on how a form was cut', () => {
  const along = { fromZ: 2, toZ: -14, line: 1, rapid: false };
  /** The corners of a square of 20 with a pointed insert of 8. */
  const corners = [45, 135, 225, 315].map((angle): EdgeSweep => ({
    ...along, workRadians: -angle * rad, y: 0, insertWidth: 8, point: { tipFlat: 0, fall: 1 }, fromX: 10 * Math.SQRT2, toX: 10 * Math.SQRT2,
  }));
  /** What is left of its flats with a flat insert of 4, in passes side by side. */
  const passes = [0, 90, 180, 270].flatMap((angle) => [-2.5, 2.5].map((y): EdgeSweep => ({ ...along, workRadians: -angle * rad, y, insertWidth: 4, fromX: 10, toX: 10 })));
  passes.push(...[0, 90, 180, 270].map((angle): EdgeSweep => ({ ...along, workRadians: -angle * rad, y: 0, insertWidth: 4, fromX: 10, toX: 10 })));
  const bore = { radius: 9, zLow: -12, zHigh: 0 };
  const worstFlat = (sweeps: EdgeSweep[]): number => Math.max(...measurePolygon(sweeps, bore).flats.map(({ flatness }) => flatness));

  it('flats by side passes', () => {
    const { corners: found, flats } = measurePolygon([...corners, ...passes], bore);
    expect(found.map(({ angleDegrees }) => angleDegrees).sort((a, b) => a - b)).toEqual([-135, -45, 45, 135].map((each) => expect.closeTo(each, 6)));
    expect(found[0]!.radius).toBeCloseTo(10 * Math.SQRT2, 6);
    expect(flats.map(({ distance }) => distance)).toEqual(Array.from({ length: 4 }, () => expect.closeTo(10, 9)));
    expect(worstFlat([...corners, ...passes])).toBeLessThan(1e-9);
  });

  it('flats by a narrow pointed insert that is set over along its flank', () => {
    // A point set over by k across and drawn back by k keeps a flank of 45 degrees in its plane.
    const setOver = corners.flatMap((sweep) => [-6, -4, -2, 0, 2, 4, 6].map((y): EdgeSweep => ({ ...sweep, insertWidth: 4, y, fromX: sweep.fromX - Math.abs(y), toX: sweep.toX - Math.abs(y) })));
    const { flats } = measurePolygon(setOver, bore);
    expect(flats.map(({ distance }) => distance)).toEqual(Array.from({ length: 4 }, () => expect.closeTo(10, 9)));
    expect(worstFlat(setOver)).toBeLessThan(1e-9);
    expect(worstFlat(setOver.filter(({ y }) => y !== 4))).toBeGreaterThan(0.5);
  });

  it('a pass at another depth is found by its step, and what the line of best fit leans by it', () => {
    const step = worstFlat([...corners, ...passes.map((sweep, index) => (index === 1 ? { ...sweep, fromX: 10.03, toX: 10.03 } : sweep))]);
    expect(step).toBeGreaterThan(0.029);
    expect(step).toBeLessThan(0.04);
  });

  it('a pass left out is found by the bore that still stands', () => {
    expect(worstFlat([...corners, ...passes.filter((_, index) => index !== 1)])).toBeGreaterThan(0.5);
  });

  it('a flat whose passes were cut with the work turned too far is named, though its corners are right', () => {
    const stretch: SlotStretch = { bore, form: { kind: 'polygon', acrossFlats: 20 }, anglesDegrees: [45, 135, 225, 315], edge: { insertWidth: 4 }, feedPerStroke: 0.05, workRotation: 1, rapidPerMinute: 10_000 };
    const findingsWith = (degrees: number) => {
      const turned = passes.map((sweep) => (sweep.workRadians === -90 * rad ? { ...sweep, workRadians: sweep.workRadians + degrees * rad } : sweep));
      const context = { stretch, sweeps: [...corners, ...turned], line: 0, told: toldIn() };
      return polygonFindings(context, { kind: 'polygon', acrossFlats: 20 }, measuredPolygon(context)).map(({ message }) => message).join('\n');
    };
    expect(findingsWith(0)).toBe('');
    expect(findingsWith(1.5)).toMatch(/The flat at C \S+ is turned 0\.\d+ degrees from where it is wanted/);
  });

  it('a ridge as narrow as half a millimetre in the middle of a flat is found, though no wall of it shows from the axis', () => {
    const apart = passes.filter(({ y }) => y !== 0).map((sweep) => ({ ...sweep, y: Math.sign(sweep.y) * 2.25 }));
    expect(worstFlat([...corners, ...apart])).toBeCloseTo(1, 2);
  });
});

describe('a pointed edge', () => {
  // Half of 90 degrees: the edge falls back by as much as it goes across.
  const edge = { workRadians: 0, y: 0, insertWidth: 4, point: { tipFlat: 0, fall: 1 } };

  it('touches with its point first', () => {
    expect(edgeBeyond([], 10, { ...edge, x: 10.1 })).toBeCloseTo(0.1, 9);
  });

  it('touches with its corners where it is blunter than the bore is round', () => {
    const blunt = { ...edge, insertWidth: 12, point: { tipFlat: 0, fall: 0.1 } };
    expect(edgeBeyond([], 10, { ...blunt, x: 9.9 })).toBeCloseTo(9.9 - 0.1 * 6 - 8, 2);
  });
});
