/**
 * Speeds and places beyond the machine, outside of blocks too. The limits are
 * those of invented machines; what must be marked follows from them (derived).
 */
import { describe, expect, it } from 'vitest';
import { machineCardSchema, type MachineCard } from '../../../server/src/machine/card.ts';
import { dialectOf } from '../../../server/src/machine/dialect.ts';
import { openStandardCard } from '../../../server/src/machine/open-standard.ts';
import { readProgram } from '../../../server/src/program/index.ts';

const codes = {
  drivenStart: 'M123 S{rpm}', drivenReverse: 'M124 P{rpm}', drivenStop: 'M125', syncOn: 'G137 P{starts} Q{teeth}', syncOff: 'G138', workAxisOn: 'M191', workAxisOff: 'M192',
  subStart: 'M128 S{rpm}', subReverse: 'M129', spindleSyncOn: 'G236 S{rpm}', spindleSyncOff: 'G239', speedLimit: 'G126 S{rpm}', subRapid: 'G225 W{z}', subFeed: 'G229 B{z} F{feed}',
} as const;

function cardOf(change: object = {}): MachineCard {
  return machineCardSchema.parse({
    name: 'Invented for tests', units: 'mm', codes, limits: { mainSpindleRpm: 4500, drivenToolRpm: 6000, syncHobRpm: 1500, x: [-10, 400], y: [-45, 45], z: [-500, 250] },
    subSpindle: { maxRpm: 3000, travel: [-600, 0] }, incrementalAxes: { U: 'X', W: 'Z' }, ...change,
  });
}

const card = cardOf();

/** "line:character word | message" of what is beyond the machine. */
function beyond(text: string, own = card): string[] {
  const lines = text.split('\n');
  return readProgram(text, dialectOf(own)).problems()
    .filter(({ rule }) => rule.endsWith('-beyond-machine'))
    .map(({ line, start, end, message, rule, severity }) => `${severity} ${rule.split('-')[0]!} ${line + 1} ${lines[line]!.slice(start, end)} | ${message}`);
}

describe('speeds', () => {
  it.each<[string, string, RegExp]>([
    ['of the spindle', 'G97 S6000 M03', /^error speed 1 S6000 \| S6000: beyond the machine: the spindle turns at 4500 rev\/min at most\.$/],
    ['set while it turns', 'G97 S1000 M03\nS4501', /^error speed 2 S4501/],
    ['set before it starts: told where it starts', 'G97 S6000\nM04', /^error speed 2 M04 \| S6000 is in force/],
    ['with coolant', 'G97 S6000 M13', /^error speed 1 S6000/],
    ['a limit under constant cutting speed', 'G126 S5000\nG96 S200 M03', /^error speed 1 S5000 \| S5000: beyond the machine: the spindle turns at 4500/],
    ['of the driven tool', 'M123 S6100', /^error speed 1 S6100 \| .*the driven tools turn at 6000 rev\/min at most/],
    ['of the driven tool, by another letter', 'M124 P6100', /^error speed 1 P6100/],
    ['in step with the work, coupled after the start', 'M123 S1600\nG137 P1 Q30', /^error speed 2 G137 \| G137: the driven tool turns at 1600 rev\/min in step with the work, beyond the machine: it must be 1500 at most/],
    ['in step with the work, faster while coupled', 'M123 S1500\nG137 P1 Q30\nM123 S1501', /^error speed 3 S1501 \|/],
    ['of the sub-spindle', 'M128 S3001', /^error speed 1 S3001 \| .*the sub-spindle turns at 3000/],
    ['of both, coupled: the slower one decides', 'G236 S3500', /^error speed 1 S3500 \| .*both spindles turn at 3000/],
  ])('%s', (_name, text, message) => {
    expect(beyond(text)).toEqual([expect.stringMatching(message)]);
  });

  it.each([
    ['at the very limit', 'G97 S4500 M03\nG126 S4500\nM123 S6000\nM128 S3000\nG236 S3000'],
    ['in step with the work at the limit', 'M123 S1500\nG137 P1 Q30\nG138\nM123 S6000'],
    ['a cutting speed is no speed of the spindle', 'G126 S2500\nG96 S6000 M03'],
    ['while the spindle stands nobody knows what it is for', 'G97 S6000'],
    ['while the spindle is an axis', 'G97 S1000 M03\nM191\nS6000'],
    ['a speed that is not known', 'G97 S#1 M03'],
    ['once is enough', 'G97 S4000 M03\nG00 X10. Z1.'],
  ])('%s: nothing', (_name, text) => {
    expect(beyond(text)).toEqual([]);
  });

  it('are of either spindle where M03 may be: only what neither reaches is too fast', () => {
    const either = cardOf({ codes: { ...codes, subStart: '' }, subSpindle: { maxRpm: 5000 } });
    expect(beyond('G97 S4800 M03', either)).toEqual([]);
    expect(beyond('G97 S5001 M03', either)).toEqual([expect.stringContaining('5000')]);
    expect(beyond('G97 S9000 M03\nG126 S9000', cardOf({ codes: { ...codes, subStart: '' }, subSpindle: { zSense: -1 } }))).toEqual([]);
  });

  it('of a hob count by the ratio of its unit', () => {
    const geared = cardOf({ toolUnits: [{ kind: 'hobbing', name: 'invented', ratio: 2 }] });
    expect(beyond('M123 S3000\nG137 P1 Q30', geared)).toEqual([]);
    expect(beyond('M123 S3001\nG137 P1 Q30', geared)).toEqual([expect.stringContaining('3000 at most')]);
  });
});

describe('places', () => {
  const to = (words: string) => `G90 G18\nG00 X100. Y0. Z0.\n${words}`;

  it.each<[string, string, RegExp]>([
    ['beyond the greatest', 'G00 X400.1', /^warning place 3 X400\.1 \| X400\.1: X goes to 400\.1, beyond the machine: it must be from -10 to 400 mm\.$/],
    ['below the least', 'G01 Z-500.5 F100.', /^warning place 3 Z-500\.5 \| .* from -500 to 250 mm/],
    ['Y', 'G00 Y-46.', /^warning place 3 Y-46\./],
    ['by increments', 'G91 G00 Z251.', /^warning place 3 Z251\. \| .*Z goes to 251/],
    ['by increments with letters of their own', 'G00 U301.', /^warning place 3 U301\. \| .*X goes to 401/],
    ['the end of an arc', 'G02 X402. Z-1. R1000. F100.', /^warning place 3 X402\./],
    ['the depth of a cycle, which comes back', 'G17 G81 X100. Y0. Z-501. R2. F100.', /^warning place 3 Z-501\. \| .*Z goes to -501/],
    ['in the first coordinate system, named', 'G54\nG00 X500.', /^warning place 4 X500\./],
  ])('%s', (_name, words, message) => {
    expect(beyond(to(words))).toEqual([expect.stringMatching(message)]);
  });

  it('in an inch program count in inches', () => {
    expect(beyond('G20 G90\nG00 X15.748 Z9.8425\nG00 X15.75')).toEqual([expect.stringMatching(/^warning place 3 X15\.75 \| .*from -0\.3937 to 15\.74803 inch/)]);
  });

  it.each([
    ['at the very limits', 'G00 X400. Y45. Z250.\nG00 X-10. Y-45. Z-500.'],
    ['in another coordinate system', 'G55\nG00 X500. Z900.'],
    ['in machine coordinates', 'G53 G00 X500. Z900.'],
    ['behind an offset of G92', 'G92 X0.\nG00 X500.'],
    ['behind an origin that the program sets', 'G10 L2 P1 X50.\nG00 X500.'],
    ['on the way home', 'G28 X500. Z900.'],
    ['from an unknown place by increments', 'G28 Z0.\nG91 G00 Z900.'],
    ['a dwell by X', 'G04 X500.'],
  ])('%s: nothing', (_name, words) => {
    expect(beyond(to(words))).toEqual([]);
  });

  it('told once, and not again where the axis stays', () => {
    expect(beyond(to('G00 X500.\nG00 Z1.\nG00 Z2.'))).toHaveLength(1);
  });

  it('are not judged in a subprogram, whose caller may count from elsewhere; speeds are', () => {
    expect(beyond('O1\nG97 S500 M03\nM30\nO2\nG00 X500.\nG97 S6000 M03')).toEqual([expect.stringMatching(/^error speed 6/)]);
  });
});

describe('a card without limits', () => {
  it('gives none to the engine', () => {
    expect(dialectOf(openStandardCard).limits).toBeUndefined();
    expect(beyond('G97 S99999 M03\nG00 X99999.', openStandardCard)).toEqual([]);
  });

  it('or with one of them: the others are open', () => {
    const one = cardOf({ limits: { z: [-10, 10] }, subSpindle: undefined });
    expect(dialectOf(one).limits).toEqual({ z: [-10, 10], rpmOf: {} });
    expect(beyond('G97 S99999 M03\nM123 S99999\nG00 X9999. Z11.', one)).toEqual([expect.stringMatching(/^warning place 3 Z11\./)]);
  });
});

describe('the way of the sub-spindle', () => {
  it.each([
    ['in rapid', 'G225 W-601.', /^warning place 1 W-601\. \| W-601\.: beyond the machine: the sub-spindle goes from -600 to 0 mm\.$/],
    ['at a feed, to the other side', 'G94\nG229 B0.5 F100.', /^warning place 2 B0\.5/],
    ['in inch', 'G20\nG225 W-24.', /^warning place 2 W-24\. .*from -23\.62\d* to 0 inch\.$/],
  ])('%s', (_name, text, message) => {
    expect(beyond(text)).toEqual([expect.stringMatching(message)]);
  });

  it.each([
    ['at the very ends', 'G225 W-600.\nG225 W0.'],
    ['by increments, from where nobody knows', 'G91\nG225 W-700.'],
    ['a place that is not known', 'G225 W#1'],
  ])('%s: nothing', (_name, text) => {
    expect(beyond(text)).toEqual([]);
  });
});
