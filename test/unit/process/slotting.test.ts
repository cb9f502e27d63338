import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dialectOf } from '../../../server/src/machine/dialect.ts';
import { openStandardCard } from '../../../server/src/machine/open-standard.ts';
import { slotting } from '../../../server/src/process/slotting.ts';
import { readProgram } from '../../../server/src/program/index.ts';
import { inventedCard } from '../../invented-machine.ts';
import { checkFigures, figureOf, metric, values } from './figures.ts';
import { composed, numberIn, subCard } from './sub-spindle.ts';

const hexagon = 'SHAPE=HEXAGON BORE=10 ACROSS-FLATS=10 LENGTH=12 RPM=600 FEED=.04';
const spline = 'SHAPE=SPLINE BORE=23 COUNT=6 OUTER-DIA=26 LENGTH=12 RPM=600 FEED=.04';
const serration = 'SHAPE=SERRATION BORE=20 COUNT=36 OUTER-DIA=22 INCLUDED-ANGLE=60 LENGTH=10 RPM=500 FEED=.03';

describe('figures of indexed slots', () => {
  checkFigures(slotting, [
    { name: 'a hexagon from a bore as wide as its flats: corner depth 0.07735 of it, corners 1.1547 of it', source: 'regular polygon, published ratios', standing: 'seen in source', values: hexagon, expected: { radialDepth: [0.7735, 4], bottomX: [11.547, 3], acrossCorners: [11.547, 3], indexAngle: [60, 9] } },
    { name: 'a square of 10: corners 1.4142 of it', source: 'regular polygon, published ratios', standing: 'seen in source', values: hexagon.replace('HEXAGON', 'SQUARE'), expected: { acrossCorners: [14.142, 3], bottomX: [14.142, 3], indexAngle: [90, 9] } },
    { name: 'the spline 6 x 23 x 26: spaces of 6', source: 'ISO 14:1982', standing: 'seen in source', values: spline, expected: { slotWidth: [6, 9], bottomX: [26, 9], spaceWidth: [6, 9] } },
    { name: 'its corners touch at sqrt(11.5^2 - 3^2)', source: 'geometry of the cut', standing: 'derived', values: spline, expected: { firstContactX: [22.2036, 4], radialDepth: [1.8982, 4] } },
    { name: 'spaces H9 of 6: 0.030 wider at most, treated H11: 0.075', source: 'ISO 286-1 table', standing: 'seen in source', values: `${spline} HUB=TREATED`, expected: { spaceWidthUpper: [6.075, 9] } },
    { name: '20 strokes and 2 for 0.7735 at 0.04, six times', source: 'kinematics of the stroke', standing: 'derived', values: hexagon, expected: { strokes: [22, 9], strokeTime: [0.1, 9], cuttingTime: [13.2, 9] } },
  ]);
});

describe('the whole block', () => {
  it('of a square, with a driven unit', () => {
    const { lines } = composed(slotting, 'SHAPE=SQUARE BORE=10 ACROSS-FLATS=10 LENGTH=12 RPM=600 FEED=.1 SPARK-OUT=0 ANGLE=45');
    const corner = (angle: string) => ['M11', `G00 C${angle}`, 'M10', 'G01 X14.142 F60.0', 'G00 X9.0'];
    expect(lines).toEqual([
      '(SLOTTING: SHAPE=SQUARE BORE=10 ACROSS-FLATS=10 LENGTH=12 RPM=600 FEED=.1)', '(+ SPARK-OUT=0 ANGLE=45)',
      '(PROVE BY SIMULATION AND DRY RUN BEFORE CUTTING.)', '(GUARDS, LOCAL CODES AND QUALIFIED PRACTICE DECIDE.)', '(START FROM A CLEAR PLACE IN FRONT OF THE WORK: Z MOVES FIRST)', '(UNIT: STROKE UNIT K1)', '(SET STROKE 16.0: LEAD-IN 2.0, LEAD-OUT 2.0)',
      '(Z IS OF THE INSERT AT THE OUTER END OF ITS STROKE, X OF ITS EDGE)', '(X MOVES A WHOLE STROKE BEFORE THE FACE, WHEREVER THE INSERT STANDS)', '(600 STROKES/MIN, 0.1 S A STROKE)', '(SQUARE OF 4 IN BORE 10.0, ONE SLOT AFTER THE OTHER)', '(INSERT POINTED, 90.0 DEG, AT LEAST 7.071 WIDE)',
      'G94', 'G00 Z18.0', 'G00 X9.0 Y0.0', 'G00 Z2.0', 'M881', 'M883 S600', 'M08', ...corner('45.0'), ...corner('135.0'), ...corner('225.0'), ...corner('315.0'), 'M09', 'M885', 'G00 Z18.0', 'M11', 'M880',
      '(END SLOTTING)',
    ]);
  });

  it('of a spline with a tool that stands, on the sub-spindle: Z words and codes are those of the card', () => {
    const { blocks, comments } = composed(slotting, `${spline.replace('RPM=600 FEED=.04', 'METHOD=STATIC SPEED=8 FEED=1')} SPARK-OUT=0 FACE-Z=100 SPINDLE=SUB`, subCard);
    expect(blocks.slice(0, 16)).toEqual(['G94', 'G00 Z98.0', 'G00 X21.204 Y0.0', 'M981', 'M08', 'M911', 'G00 C0.0', 'M910', ...['24.204 23.204', '26.0 25.0'].flatMap((pair) => [`G00 X${pair.split(' ')[0] ?? ''}`, 'G01 Z114.0 F8000.0', `G00 X${pair.split(' ')[1] ?? ''}`, 'G00 Z98.0'])]);
    expect(blocks.slice(-3)).toEqual(['M09', 'M911', 'M980']);
    expect(comments).toContain('(WORK IN THE SUB-SPINDLE: THE TOOL MUST POINT TO IT)');
  });
});

describe('refusals name the parameter', () => {
  it.each<[string, string, string, RegExp]>([
    ['no width across flats', 'SHAPE=HEXAGON BORE=10 LENGTH=12 RPM=600 FEED=.04', 'ACROSS-FLATS', /SHAPE=HEXAGON needs it/],
    ['a count for a square', `${hexagon} COUNT=8`, 'COUNT', /does not go with SHAPE=HEXAGON: leave it out/],
    ['a bore that reaches the corners', hexagon.replace('BORE=10', 'BORE=12'), 'BORE', /less than 11\.547.*must leave the corners standing/],
    ['a spline that ISO 14 does not have', spline.replace('OUTER-DIA=26', 'OUTER-DIA=27'), 'OUTER-DIA', /6x23x26, 6x23x28/],
    ['a flat insert that is not as wide as the space', `${spline} INSERT=5`, 'INSERT', /as wide as the slot/],
    ['a pointed insert that is too narrow for a groove', `${serration} INSERT=1`, 'INSERT', /at least 1\.\d+ .*from side to side/],
    ['side passes in a bore that does not reach them', `${hexagon.replace('BORE=10', 'BORE=4.5')} INSERT=3`, 'BORE', /more than 5 \(side passes start inside the bore\)/],
    ['a flatness without flats', `${serration} FLATNESS=0.01`, 'FLATNESS', /does not go with SHAPE=SERRATION/],
    ['grooves that run into one another', serration.replace('COUNT=36', 'COUNT=80'), 'COUNT', /run into one another/],
    ['a feed that is more than the depth', hexagon.replace('FEED=.04', 'FEED=1'), 'FEED', /at most 0\.7735/],
    ['no speed', hexagon.replace('RPM=600', ''), 'RPM', /METHOD=DRIVEN needs/],
  ])('%s', (_name, text, parameter, message) => {
    const errors = slotting.evaluate(values(text), metric).problems.filter(({ severity }) => severity === 'error');
    expect(errors).toEqual([expect.objectContaining({ parameter, message: expect.stringMatching(message) as string })]);
  });

  it('a straight spline in an inch program is refused: ISO 14 is metric', () => {
    const errors = slotting.evaluate(values('SHAPE=SPLINE BORE=11 COUNT=6 OUTER-DIA=14 LENGTH=.5 RPM=600 FEED=.001'), { units: 'inch', card: openStandardCard }).problems.filter(({ severity }) => severity === 'error');
    expect(errors).toEqual([expect.objectContaining({ parameter: 'SHAPE', message: expect.stringMatching(/ISO 14 is metric/) as string })]);
  });

  it('the values of these cases are right before they are changed', () => {
    for (const text of [hexagon, spline, serration]) expect(slotting.evaluate(values(text), metric).problems).toEqual([]);
  });

  it('an insert wider than the unit takes', () => {
    const { problems } = composed(slotting, 'SHAPE=SQUARE BORE=20 ACROSS-FLATS=20 LENGTH=12 RPM=600 FEED=.1');
    expect(problems).toEqual([expect.objectContaining({ parameter: 'INSERT', rule: 'machine-limit', message: 'INSERT: 14.14214 is beyond the machine: it must be more than 0, at most 10 mm (Stroke unit K1); give a narrower INSERT, which cuts the flats in several passes.' })]);
  });
});

const anySlots = fc.oneof(
  fc.record({ SHAPE: fc.constantFrom('SQUARE', 'HEXAGON'), BORE: fc.constantFrom('8', '10', '10.5'), 'ACROSS-FLATS': fc.constant('10') }),
  fc.record({ SHAPE: fc.constant('SERRATION'), BORE: fc.constant('20'), COUNT: fc.constantFrom('7', '24', '36'), 'OUTER-DIA': fc.constantFrom('21', '22'), 'INCLUDED-ANGLE': fc.constantFrom('55', '60') }),
  fc.constantFrom({ SHAPE: 'SPLINE', BORE: '23', COUNT: '6', 'OUTER-DIA': '26' }, { SHAPE: 'SPLINE', BORE: '32', COUNT: '8', 'OUTER-DIA': '38' }),
).chain((shape) => fc.record({ ANGLE: fc.integer({ min: -90, max: 90 }).map(String), LENGTH: fc.constantFrom('5', '12', '20'), SPINDLE: fc.constantFrom('MAIN', 'SUB'), FEED: fc.constantFrom('.02', '.05') })
  .map((rest): Record<string, string> => ({ ...shape, ...rest, RPM: '600' })));

describe('every block', () => {
  it('reads back without an error, stands clamped at each angle and reaches the depth of its figures', () => {
    fc.assert(fc.property(anySlots, fc.boolean(), (raw, diameterProgramming) => {
      const card = { ...subCard, diameterProgramming };
      const text = Object.entries(raw).map(([name, value]) => `${name}=${value}`).join(' ');
      const { lines, blocks, problems } = composed(slotting, text, card);
      expect(problems).toEqual([]);
      const program = readProgram(['G21 G90 G18 G40', 'M05', ...lines, 'M30'].join('\n'), dialectOf(card));
      expect(program.problems().filter(({ severity }) => severity === 'error')).toEqual([]);
      const evaluation = slotting.evaluate(raw, { units: 'mm', card });
      const cuts = blocks.filter((block) => block.startsWith('G01 X'));
      expect(cuts.every((block) => Math.abs(numberIn(block, 'X') - figureOf(evaluation, 'bottomX')) < 0.00051)).toBe(true);
      const angles = blocks.filter((block) => block.startsWith('G00 C')).map((block) => numberIn(block, 'C'));
      expect(angles).toHaveLength(cuts.length);
      angles.forEach((angle, index) => expect(Math.abs(angle - (Number(raw['ANGLE']) + (index * 360) / angles.length))).toBeLessThanOrEqual(0.00051));
    }), { numRuns: 60 });
  });

  it('is the mirror image in Z on the sub-spindle of plain machine axes, and the same in X, Y and C', () => {
    fc.assert(fc.property(anySlots, (raw) => {
      const block = (SPINDLE: string) => composed(slotting, Object.entries({ ...raw, SPINDLE }).map(([name, value]) => `${name}=${value}`).join(' '), subCard).blocks.filter((each) => /^G0[01] /.test(each));
      const [main, sub] = [block('MAIN'), block('SUB')];
      const mirrored = sub.map((each) => each.replace(/Z(-?)([\d.]+)/, (_whole, minus: string, figure: string) => `Z${minus === '' && Number(figure) !== 0 ? '-' : ''}${figure}`));
      expect(mirrored).toEqual(main);
    }), { numRuns: 40 });
  });
});

describe('holes and figures', () => {
  it('every code that a card does not say is a hole', () => {
    const { problems } = composed(slotting, hexagon, { ...inventedCard, codes: { feedPerMinute: 'G94' } });
    expect([...new Set(problems.map(({ cardKey }) => cardKey))].sort()).toEqual(['codes.drivenStart', 'codes.drivenStop', 'codes.dwell', 'codes.workAxisOff', 'codes.workAxisOn', 'codes.workClamp', 'codes.workUnclamp']);
  });

  it('each word and parameter governs figures, and every governed figure exists for some shape', () => {
    const ids = new Set([hexagon, spline, serration].flatMap((text) => slotting.evaluate(values(text), metric).quantities.map(({ id }) => id)));
    for (const [word, governed] of Object.entries(slotting.governs)) expect(governed.filter((id) => !ids.has(id)), word).toEqual([]);
    expect(Object.keys(slotting.fields).filter((name) => (slotting.governs[name] ?? []).length === 0)).toEqual([]);
    expect(slotting.keyQuantities.filter((id) => !ids.has(id))).toEqual([]);
  });
});

describe('flats wider than the insert', () => {
  const wide = 'SHAPE=SQUARE BORE=20 ACROSS-FLATS=20 LENGTH=12 RPM=600 FEED=.1 INSERT=8 SPARK-OUT=0';

  it('are cut in passes whose points lie on the flat: X falls by tan 45 of Y [derived], so twice of it on the diameter', () => {
    const { blocks, problems, comments } = composed(slotting, wide);
    expect(problems).toEqual([]);
    const first = blocks.slice(blocks.indexOf('M10') + 1, blocks.indexOf('M11', blocks.indexOf('M10')));
    // From 14.142 across the corner less 8 of the insert, halved, 3.071 to either side; the point of the corner is at 28.284.
    expect(first.filter((block) => block.startsWith('G00 Y'))).toEqual(['G00 Y0.0', 'G00 Y-3.071', 'G00 Y3.071']);
    expect(first.filter((block) => block.startsWith('G01'))).toEqual(['G01 X28.284 F60.0', 'G01 X22.142 F60.0', 'G01 X22.142 F60.0']);
    expect(comments).toContain('(INSERT POINTED, 90.0 DEG, 8.0 WIDE)');
    expect(comments.join(' ')).toContain('SIDE PASSES TO Y +-3.071: PLANE FLATS, 0.01 OFF FOR AN INSERT 0.1 DEG ASIDE');
  });

  checkFigures(slotting, [
    { name: 'half of 8 on a flat at 45 deg is a flank of 5.657, which leans 0.00987 over a tenth of a degree', source: 'geometry', standing: 'derived', values: wide, expected: { floorTilt: [0.00987, 5], strokes: [42, 9] } },
  ]);

  it('a flatness that the insert does not keep is a warning that names a narrower one', () => {
    expect(composed(slotting, `${wide} FLATNESS=0.01`).problems).toEqual([]);
    const { problems } = composed(slotting, `${wide} FLATNESS=0.005`);
    expect(problems).toEqual([expect.objectContaining({ parameter: 'FLATNESS', rule: 'flatness', severity: 'warning', message: expect.stringMatching(/0\.0099\. Better an INSERT of at most 4\.051,/) as string })]);
    expect(composed(slotting, `${wide.replace('INSERT=8', 'INSERT=4.05')} FLATNESS=0.005`).problems).toEqual([]);
  });
});
