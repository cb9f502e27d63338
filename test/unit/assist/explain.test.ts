import { describe, expect, it } from 'vitest';
import { explain, type Explanation, type ExplainSetting } from '../../../server/src/assist/explain.ts';
import { openStandardCard } from '../../../server/src/machine/open-standard.ts';
import { figureOf } from '../process/figures.ts';
import { readMarks } from '../../marks.ts';
import { inventedCard } from '../../invented-machine.ts';
import { inventedMachine, programOf, settingOf } from './programs.ts';

/**
 * Explains every marked word at each of its characters. A mark's label is the
 * title, and behind `>` the ids of the leading figures in their order.
 */
function check(sample: string, setting: ExplainSetting = inventedMachine): void {
  const { text, marks } = readMarks(sample);
  expect(marks.length).toBeGreaterThan(0);
  const program = programOf(text, setting);
  for (const { line, start, end, label } of marks) {
    const [title = '', ids = ''] = label.split('>').map((part) => part.trim());
    for (let character = start; character < end; character += 1) {
      const found = explain(program, line, character, setting);
      const leading = ids === '' ? [] : ids.split(' ');
      expect({ start: found?.start, end: found?.end, title: found?.title, leading: found?.quantities.slice(0, leading.length).map(({ id }) => id) }, `line ${line + 1}, ${character}`).toEqual({ start, end, title, leading });
      expect(found?.word).toBe(text.split('\n')[line]?.slice(start, end));
    }
  }
}

/** The explanation of the first occurrence of a word. */
function explained(text: string, word: string, setting: ExplainSetting = inventedMachine): Explanation {
  const lines = text.split('\n');
  const line = lines.findIndex((each) => each.includes(word));
  const found = explain(programOf(text, setting), line, lines[line]?.indexOf(word) ?? 0, setting);
  if (!found) throw new Error(`nothing is said about ${word}`);
  return found;
}

const hobbingBlock = [
  'G21 G90 G95',
  '(HOBBING: MODULE=2 TEETH=32 HELIX=15 HAND=RIGHT FACE=20)',
  '(+ HOB-DIA=63 HOB-STARTS=1 SPEED=60 FEED=1.5)',
  'N20 M883 S303',
  'N30 G881 P1 Q-32 R15.0',
  'N40 G94 G01 Z-30. F14.21',
  'N50 T0505',
  '(END HOBBING)',
  'N60 S1200 M03',
].join('\n');

const keywayBlock = [
  'G21 G90',
  '(KEYWAY: BORE=50 WIDTH=14 DEPTH=3.8 LENGTH=32 RPM=1000)',
  '(+ LEAD-IN=1.5 LEAD-OUT=1.5 FEED=0.05)',
  'M883 S1000',
  'G94 G01 X57.6 F50.',
  '(END KEYWAY)',
].join('\n');

describe('words of a hobbing block', () => {
  it('F of a plunge leads with the radial feed, F along the work with the axial one', () => {
    const text = hobbingBlock.replace('FEED=1.5)', 'FEED=1.5 ENTRY=PLUNGE RADIAL-FEED=.4)').replace('N50', 'N45 G01 X124.258 F3.79\nN50');
    const leading = (word: string) => explained(text, word).quantities.slice(0, 2).map(({ id }) => id);
    expect(leading('F3.79')).toEqual(['radialFeedPerMinute', 'feedPerMinute']);
    expect(leading('F14.21')).toEqual(['feedPerMinute', 'radialFeedPerMinute']);
    expect(explained(hobbingBlock, 'F14.21').quantities[0]?.id).toBe('feedPerMinute');
  });

  it('S, the synchronous word, F and T lead with what they govern', () => {
    check(`
      (HOBBING: MODULE=2 TEETH=32 HELIX=15 FACE=20)
      (+ HOB-DIA=63 SPEED=60 FEED=1.5)
      M883 S303
           ^^^^ Speed in rev/min > syncRatio workRpm cuttingSpeed
      G881 P1 Q-32 R15.0
      ^^^^ Starts synchronous running of hob and work > syncRatio workRpm cuttingSpeed
           ^^ Starts of the hob > syncRatio workRpm cuttingSpeed
              ^^^^ Teeth of the gear > syncRatio workRpm cuttingSpeed
      G94 G01 Z-30. F14.21
                    ^^^^^^ Feed per minute > feedPerMinute feedMarkDepth
      T5
      ^^ Tool > hobLeadAngle hobHelixAngle settingAngle
      (END HOBBING)
    `);
  });

  it('S gives the ratio of its note [kinematics, derived]', () => {
    const { quantities, process, governed } = explained(hobbingBlock, 'S303');
    expect(process).toBe('Hobbing');
    expect(quantities[0]?.value).toBe(1 / 32);
    expect(governed).toBeGreaterThan(2);
    expect(new Set(quantities.map(({ id }) => id)).size).toBe(quantities.length);
  });

  it('behind the block S is a plain word again', () => {
    const { process, quantities } = explained(hobbingBlock, 'S1200');
    expect(process).toBeUndefined();
    expect(quantities.map(({ id }) => id)).not.toContain('syncRatio');
  });
});

describe('names of a hobbing note', () => {
  it.each<[string, string, string[]]>([
    ['HOB-STARTS=1', 'Hob starts', ['hobLeadAngle', 'hobHelixAngle', 'settingAngle']],
    ['HOB-DIA=63', 'Hob outside diameter', ['hobLeadAngle', 'hobHelixAngle', 'settingAngle']],
    ['HELIX=15', 'Helix angle', ['settingAngle', 'lead', 'differential']],
    ['TEETH=32', 'Number of teeth', ['syncRatio', 'workRpm']],
    ['SPEED=60', 'Cutting speed', ['hobRpm', 'workRpm']],
    ['FEED=1.5', 'Axial feed', ['feedPerMinute', 'feedMarkDepth']],
  ])('%s', (word, title, leading) => {
    const found = explained(hobbingBlock, word);
    expect(found.word).toBe(word);
    expect(found.title).toBe(title);
    expect(found.quantities.slice(0, leading.length).map(({ id }) => id)).toEqual(leading);
    expect(found.meaning).toMatch(/Allowed: /);
  });

  it('the helix angle of the hob is 90 degrees less its lead angle, both named plainly [definition]', () => {
    const { quantities } = explained(hobbingBlock, 'HOB-STARTS=1');
    const [leadAngle, helixAngle] = quantities;
    expect(leadAngle?.name).toMatch(/lead angle/);
    expect(helixAngle?.name).toMatch(/helix angle.*90 deg less the lead angle/);
    expect((leadAngle?.value ?? 0) + (helixAngle?.value ?? 0)).toBeCloseTo(90, 12);
    expect(leadAngle?.value).toBeCloseTo(1.976108, 6);
  });

  it('the keyword shows the whole process', () => {
    const found = explained(hobbingBlock, 'HOBBING');
    expect(found).toMatchObject({ word: 'HOBBING', title: 'Hobbing note', process: 'Hobbing' });
    expect(found.quantities[0]?.id).toBe('syncRatio');
  });

  it('a bad value says what is wrong with it, and that alone', () => {
    const text = hobbingBlock.replace('TEETH=32', 'TEETH=0').replace('FACE=20', 'FACE=0');
    expect(explained(text, 'TEETH=0').problems.map(({ message }) => message)).toEqual(['TEETH: 0 is not allowed: it must be a whole number from 3 to 1000.']);
    expect(explained(text, 'MODULE=2').problems).toEqual([]);
    expect(explained(text, 'MODULE=2').quantities).toEqual([]);
  });

  it('an unknown name says so', () => {
    expect(explained(hobbingBlock.replace('FACE=', 'WIDE='), 'WIDE=20')).toMatchObject({ title: 'Unknown parameter', meaning: 'WIDE is not a parameter of hobbing.' });
  });
});

describe('words of a keyway block', () => {
  it('S leads with strokes a minute, seconds a stroke and peak speed [1000 a minute, 0.06 s: common practice]', () => {
    const { quantities, process } = explained(keywayBlock, 'S1000');
    expect(process).toBe('Keyway');
    expect(quantities.slice(0, 3).map(({ id, value }) => [id, Number(value.toFixed(6))])).toEqual([['strokesPerMinute', 1000], ['strokeTime', 0.06], ['peakSpeed', 109.955743]]);
  });

  it.each<[string, string]>([['BORE=50', 'overallDimension'], ['WIDTH=14', 'widthUpper'], ['LENGTH=32', 'strokeLength'], ['RPM=1000', 'strokesPerMinute'], ['F50.', 'feedPerMinute']])('%s leads with %s', (word, id) => {
    expect(explained(keywayBlock, word).quantities[0]?.id).toBe(id);
  });

  it('an inch note is computed in inches from ASME B17.1 [handbook table of T: 1.114]', () => {
    const text = ['G20 G90', '(KEYWAY: BORE=1 FIT=CLASS1 LENGTH=1 RPM=500 FEED=.002)', 'M883 S500', '(END KEYWAY)'].join('\n');
    const { quantities } = explained(text, 'BORE=1');
    const overall = figureOf({ quantities, problems: [] }, 'overallDimension');
    expect(overall.toFixed(3)).toBe('1.114');
    expect(quantities[0]?.unit).toMatch(/^in/);
  });
});

describe('any other word', () => {
  it('of a move with C: lead, path on the work and feed along it (wrapping on a cylinder and helix by C, derived)', () => {
    const figures = (text: string, word: string) => Object.fromEntries(explained(text, word).quantities.filter(({ id }) => /^(helix|work)/.test(id)).map(({ id, value }) => [id, Number(value.toFixed(3))]));
    // Radius 15, so that 60 degrees are an arc of 15.708; with 50 along the axis 52.41, in half a minute.
    expect(figures('G94 G00 X30. Z0. C0.\nG01 Z-50. C60. F100.', 'Z-50.')).toEqual({ helixLead: 300, workPath: 52.409, workFeed: 104.819 });
    expect(figures('G94 G00 X30. Z0. C0.\nG01 C60. F120.', 'C60.')).toEqual({ workPath: 15.708, workFeed: 31.416 });
    expect(figures('G94 G00 X30. C0.\nG01 Z-50. C60. F100.', 'Z-50.')).toEqual({});
    expect(figures('G94 G00 X30. Y3. Z0. C0.\nG01 Z-50. C60. F100.', 'Z-50.')).toEqual({});
    // From a place that is not known by increments: how far the tool goes along the axis, or from the centre, is not in the text.
    expect(figures('G94 G00 X30. C0.\nG91 G01 Z-50. C60. F100.', 'Z-50.')).toEqual({});
    expect(figures('G94 G00 X30. Z0. C0.\nG91 G01 Y5. Z-50. C60. F100.', 'Z-50.')).toEqual({});
    expect(figures('G94 G00 X30. Z0.\nG01 Z-50. F100.', 'Z-50.')).toEqual({});
  });

  it('has its standard meaning', () => {
    check(`
      %
      ^ Program start or end
      N10 G01 X20. F100. (ROUGH)
      ^^^ Sequence number
          ^^^ Linear interpolation
                         ^^^^^^^ Comment
      /M08
      ^ Block skip
       ^^^ Coolant 1 on
    `);
  });

  it('shows the modes in force behind its line', () => {
    const context = Object.fromEntries(explained('G21 G18 G90 G95 T0303\nG96 S180 M03\nG01 X20. Z-5. F.2', 'X20.').context.map(({ label, value }) => [label, value]));
    expect(context).toMatchObject({ units: 'mm', plane: 'ZX (G18)', dimensions: 'absolute', feed: 'F0.2 a revolution', position: 'X20 Z-5' });
    expect(context['speed']).toMatch(/^S180 m\/min, spindle /);
  });

  it('names each spindle with its own speed, and tool and offset where the T word holds both', () => {
    const codes = { ...inventedCard.codes, subStart: 'M68 S{rpm}', subAxisOn: 'M981', spindleSyncOn: 'M940 S{rpm}' };
    const setting = settingOf({ ...inventedCard, codes, toolOffsetDigits: 2 });
    const contextAt = (text: string, word: string) => Object.fromEntries(explained(text, word, setting).context.map(({ label, value }) => [label, value]));
    expect(contextAt('T0304 G97 S800 M03\nM68 S1500\nM883 S300\nG00 X50.', 'X50.')).toMatchObject({
      tool: '3, offset 4', speed: 'S800 rev/min, spindle clockwise', 'sub-spindle': '1500 rev/min, clockwise', 'driven tool': '300 rev/min, clockwise',
    });
    expect(contextAt('M981\nM940 S250\nG00 X50.', 'X50.')).toMatchObject({ 'sub-spindle': 'under position control', 'both spindles': 'coupled, 250 rev/min' });
    expect(explained('T0304', 'T0304', setting)).toMatchObject({ title: 'Tool and offset', meaning: 'Changes to this tool. The last 2 digits are the number of the offset.' });
  });

  it('a word of the card for a mode is explained by the card, and so is the open word that it replaces', () => {
    const setting = settingOf({ ...inventedCard, codes: { ...inventedCard.codes, absolute: 'G890', coolantOn: 'M808', dwell: 'G4 X{seconds}' } });
    const text = 'G890 M808\nG90\nG4 X2.5\nG91 M10';
    const said = (word: string) => { const { title, meaning, source } = explained(text, word, setting); return `${title}. ${meaning} [${source}]`; };
    expect([said('G890'), said('M808'), said('X2.5')]).toEqual(['Absolute dimensions.  [machine card]', 'Coolant on.  [machine card]', expect.stringMatching(/^Time in seconds\..*\[machine card\]$/)]);
    expect(said('G90')).toBe('Sets nothing on this machine. Absolute positions by the open definitions, for which the machine card has G890. [machine card]');
    expect([said('G91'), said('M10')]).toEqual([expect.stringContaining('NISTIR 6556'), expect.stringMatching(/^Clamp\..*JB 3208/)]);
  });

  it('the word that changes the tool says what its moves look like', () => {
    const text = 'G21 G18 G90 M05\nT7\nG00 X27.9 Z2.\nM881\nM883 S900\nG94 G01 X36.6 F36.\nG00 X27.9\nT8\nG01 Z1.';
    const looks = (word: string, setting = inventedMachine) => explained(text, word, setting).context.find(({ label }) => label === 'looks like')?.value;
    expect(looks('T7')).toBe('keyway, lines 6 to 7');
    expect([looks('T8'), looks('X36.6'), looks('T7', settingOf({ ...inventedCard, toolChange: 'M06' }))]).toEqual([undefined, undefined, undefined]);
  });

  it('S and F of the sub-spindle count on its speed, not on that of the standing main spindle [v = pi d n / 1000]', () => {
    const setting = settingOf({ ...inventedCard, codes: { ...inventedCard.codes, subStart: 'M68 S{rpm}' } });
    const text = 'G21 G97 S800\nG00 X50. Z2.\nM68 S1500\nG94 G01 Z-5. F150.';
    const ofSpeed = explained(text, 'S1500', setting).quantities;
    expect(ofSpeed.map(({ id }) => id)).toEqual(['cuttingSpeed', 'rpm']);
    expect(ofSpeed[0]?.value).toBeCloseTo((Math.PI * 50 * 1500) / 1000, 9);
    expect(figureOf(explained(text, 'F150.', setting), 'feedPerRev')).toBeCloseTo(0.1, 12);
  });

  it('S that sets no speed has no figures of the one in force', () => {
    const codes = { ...inventedCard.codes };
    delete codes.speedLimit;
    const text = 'G00 X50. Z2.\nG96 S180 M03\nG92 S3000';
    expect(explained(text, 'S180', settingOf({ ...inventedCard, codes })).quantities.length).toBeGreaterThan(0);
    expect(explained(text, 'S3000', settingOf({ ...inventedCard, codes })).quantities).toEqual([]);
  });

  it('that the machine card explains has the card\'s meaning', () => {
    expect(explained('M881', 'M881')).toMatchObject({ title: 'main spindle under position control (invented)', source: 'machine card' });
  });

  it('is counted as the modes of its own line say [NISTIR 6556 §3.8: order of execution]', () => {
    check(`
      G21 G95 F.2
              ^^^ Feed per revolution
      G94 G01 Z-5. F100.
                   ^^^^^ Feed per minute
      G95 G01 Z-9. F.2
                   ^^^ Feed per revolution
    `);
    expect(explained('G21\nG20 G00 X1.5', 'X1.5').meaning).toMatch(/inch/);
  });

  it('that a template of the card explains is named after its slot; words of the open definitions keep their meaning', () => {
    check(`
      G881 P2 X5. Q-32 R15.0
           ^^ Starts of the hob
              ^^^ Position in X
                       ^^^^^ Helix angle of the gear
      M885 M08
      ^^^^ Stops the driven tool
           ^^^ Coolant 1 on
      G04 P0.5
      ^^^ Dwell
          ^^^^ Dwell time, or a key
    `);
  });

  it('that is a hole says that a control refuses it', () => {
    const found = explained('<syncOn>', '<syncOn>', settingOf(openStandardCard));
    expect(found).toMatchObject({ title: 'Hole: syncOn' });
    expect(found.meaning).toMatch(/A control refuses it/);
  });

  it('is none on white space and beyond the line or the program', () => {
    const program = programOf('G01   X1.\n\nM30');
    expect(explain(program, 0, 4, inventedMachine)).toBeUndefined();
    expect(explain(program, 1, 0, inventedMachine)).toBeUndefined();
    expect(explain(program, 0, 99, inventedMachine)).toBeUndefined();
    expect(explain(program, 9, 0, inventedMachine)).toBeUndefined();
  });

  it('is found right behind its last character too, where a cursor stands after typing', () => {
    expect(explain(programOf('G01 X1.'), 0, 7, inventedMachine)?.word).toBe('X1.');
    expect(explain(programOf('G01 X1.'), 0, 3, inventedMachine)?.word).toBe('G01');
  });
});
