import { describe, expect, it } from 'vitest';
import { openStandardCard } from '../../../server/src/machine/open-standard.ts';
import { hobbing } from '../../../server/src/process/hobbing.ts';
import type { Quantity } from '../../../server/src/trade/quantity.ts';
import { inventedCardFile } from '../../invented-machine.ts';
import { values } from '../process/figures.ts';
import { expectRefused, run, runForJson } from './command-line.ts';

const spur = 'MODULE=3 TEETH=24 HOB-DIA=80 FACE=30 SPEED=70 FEED=2.5'.split(' ');
const slot = 'BORE=50 WIDTH=14 DEPTH=3.8 LENGTH=32 RPM=1000 LEAD-IN=1.5 LEAD-OUT=1.5 FEED=0.05'.split(' ');
const helical = (changes: string) => ['MODULE=3', 'TEETH=30', 'HOB-DIA=80', 'FACE=30', 'SPEED=70', 'FEED=2.5', ...changes.split(' ')];

interface Computed { quantities: Quantity[]; problems: unknown[] }

function figures(process: string, words: string[]): Record<string, number> {
  const { quantities } = runForJson('compute', process, ...words) as Computed;
  return Object.fromEntries(quantities.map(({ id, value }) => [id, value]));
}

describe('compute', () => {
  it('hobbing: ratio, angle and speeds of the spur gear [kinematics, derived; hob lead angle: technical references on hobs, seen in source; speeds D26, recomputed published value]', () => {
    const { syncRatio, hobLeadAngle = NaN, hobRpm = NaN, workRpm = NaN, approach = NaN } = figures('hobbing', spur);
    expect(syncRatio).toBe(1 / 24);
    expect(hobLeadAngle.toFixed(6)).toBe('2.371537');
    expect(hobRpm.toFixed(3)).toBe('278.521');
    expect(workRpm.toFixed(5)).toBe('11.60505');
    expect(approach).toBeGreaterThanOrEqual(22.23595 - 5e-6);
    expect(approach).toBeLessThanOrEqual(22.23595 * 1.01);
  });

  it('hobbing: setting angles with their signs, D18 [vector geometry, derived]', () => {
    expect((figures('hobbing', helical('HELIX=15'))['settingAngle'] ?? NaN).toFixed(5)).toBe('12.62846');
    expect((figures('hobbing', helical('HELIX=15 HAND=LEFT'))['settingAngle'] ?? NaN).toFixed(5)).toBe('-17.37154');
  });

  it('hobbing: differential, D20 [derived]', () => {
    expect((figures('hobbing', helical('HELIX=20'))['differential'] ?? NaN).toFixed(5)).toBe('0.43547');
  });

  it('keyway: 1000 strokes a minute, 35 mm for 32 mm of keyway [common practice]; first contact [geometry, derived]', () => {
    const found = figures('keyway', slot);
    const rounded = Object.fromEntries(Object.entries(found).map(([id, value]) => [id, Number(value.toFixed(9))]));
    expect(rounded).toMatchObject({ strokeLength: 35, strokesPerMinute: 1000, strokeTime: 0.06, firstContactX: 48, sagitta: 1 });
  });

  it('gives quantities and problems, a quantity whole and at full precision', () => {
    const { quantities, problems } = runForJson('compute', 'hobbing', ...spur) as Computed;
    expect(problems).toEqual([]);
    const expected = hobbing.evaluate(values(spur.join(' ')), { units: 'mm', card: openStandardCard }).quantities;
    expect(quantities).toEqual(JSON.parse(JSON.stringify(expected)));
    for (const quantity of quantities) expect(Object.keys(quantity)).toEqual(['id', 'name', 'symbol', 'value', 'unit', 'working', 'source']);
  });

  it('gives a warning beside the figures, and exit code 0', () => {
    const { problems } = runForJson('compute', 'hobbing', ...spur, 'HOB-STARTS=2') as Computed;
    expect(problems).toMatchObject([{ parameter: 'HOB-STARTS', rule: 'common-factor', severity: 'warning' }]);
    const { code, stdout, stderr } = run('compute', 'hobbing', ...spur, 'HOB-STARTS=2');
    expect(code).toBe(0);
    expect(stdout).toMatch(/^syncRatio +1\/12/);
    expect(stderr).toMatch(/^warning common-factor HOB-STARTS: 2 and 24 teeth/);
  });

  it('takes names in lower case and computes in inches where told', () => {
    const found = runForJson('compute', 'KEYWAY', 'bore=1', 'fit=CLASS1', 'length=1', 'rpm=500', 'feed=.002', '--inch') as Computed;
    const overall = found.quantities.find(({ id }) => id === 'overallDimension');
    expect(overall?.value.toFixed(3)).toBe('1.114');
  });

  it.each<[string, string[], string | RegExp]>([
    ['no process', ['compute'], /"" is not a process: it must be hobbing or keyway/],
    ['another process', ['compute', 'turning'], /"turning" is not a process: it must be hobbing or keyway/],
    ['no value', ['compute', 'hobbing', 'TEETH'], '"TEETH" is not a parameter: it must be NAME=VALUE, such as TEETH=24'],
    ['a name twice', ['compute', 'hobbing', 'TEETH=3', 'teeth=4'], 'TEETH is given twice'],
    ['an unknown name', ['compute', 'hobbing', ...spur, 'TOOTH=1'], /TOOTH is not a parameter here\. Allowed: MODULE, DP, TEETH/],
    ['a missing name', ['compute', 'hobbing', ...spur.filter((word) => !word.startsWith('TEETH'))], 'TEETH is missing: number of teeth, a whole number from 3 to 1000.'],
    ['no teeth', ['compute', 'hobbing', ...spur.filter((word) => !word.startsWith('TEETH')), 'TEETH=0'], 'TEETH: 0 is not allowed: it must be a whole number from 3 to 1000.'],
    ['a helix of 95', ['compute', 'hobbing', ...spur, 'HELIX=95'], 'HELIX: 95 is not allowed: it must be from 0 to 60 deg.'],
    ['an insert wider than the keyway', ['compute', 'keyway', ...slot, 'INSERT=15'], /^blockwright: INSERT: 15 is not allowed: it must be .*at most 14/],
    ['a keyway longer than the stroke', ['compute', 'keyway', ...slot, 'STROKE=30'], /^blockwright: STROKE: 30 is not allowed: it must be at least 35/],
    ['a hob beyond the unit of the card', ['compute', 'hobbing', ...spur.filter((word) => !word.startsWith('MODULE')), 'MODULE=2', '--card', inventedCardFile], /^blockwright: HOB-DIA: 80 is beyond the machine: it must be more than 0, at most 75 mm/],
    ['the same with --json', ['compute', 'hobbing', ...spur, 'HELIX=95', '--json'], 'HELIX: 95 is not allowed: it must be from 0 to 60 deg.'],
  ])('refuses %s with one line', (_name, words, message) => expectRefused(words, message));
});

describe('compose', () => {
  it('prints a block with holes, says them on stderr, and exits with 1 as check does: a script must not take it for done', () => {
    const { code, stdout, stderr } = run('compose', 'keyway', 'BORE=30', 'LENGTH=25', 'RPM=500', 'FEED=0.05');
    expect(code).toBe(1);
    expect(stdout).toMatch(/^\(KEYWAY: BORE=30 LENGTH=25 RPM=500 FEED=0\.05\)\n/);
    expect(stdout).toMatch(/\n<drivenStart>\n/);
    expect(stdout).toMatch(/\n\(END KEYWAY\)\n$/);
    expect(stderr).toMatch(/^error hole The machine card does not say codes\.workAxisOn/);
  });

  it('exits with 1 for data with holes too', () => {
    const { code, stdout } = run('compose', 'keyway', 'BORE=30', 'LENGTH=25', 'RPM=500', 'FEED=0.05', '--json');
    expect([code, (JSON.parse(stdout) as { problems: { rule: string }[] }).problems[0]?.rule]).toEqual([1, 'hole']);
  });

  it('has no hole, exits with 0, and has the numbers of the card, with a card', () => {
    const { text, problems } = runForJson('compose', 'keyway', 'BORE=30', 'LENGTH=25', 'RPM=500', 'FEED=0.05', '--card', inventedCardFile) as { text: string; problems: unknown[] };
    expect(problems).toEqual([]);
    expect(text).toMatch(/\nN10 G94\nN20 G00 Z31\.0\nN30 G00 X27\.914 Y0\.0\nN40 G00 Z2\.0\n/);
    expect(text).not.toMatch(/[<>]/);
  });

  it('carries the caution', () => {
    expect(run('compose', 'keyway', 'BORE=30', 'LENGTH=25', 'RPM=500', 'FEED=0.05').stdout).toMatch(/PROVE BY SIMULATION AND DRY RUN.*\n.*GUARDS, LOCAL CODES AND QUALIFIED PRACTICE DECIDE/);
  });

  it('refuses bad values as compute does', () => expectRefused(['compose', 'hobbing', ...spur, 'HELIX=95'], 'HELIX: 95 is not allowed: it must be from 0 to 60 deg.'));
});
