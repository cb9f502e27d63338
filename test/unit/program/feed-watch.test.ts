/** Feeds beyond the rapid speeds of an invented machine; feed a minute is feed a revolution times speed (derived). */
import { describe, expect, it } from 'vitest';
import { machineCardSchema } from '../../../server/src/machine/card.ts';
import { dialectOf } from '../../../server/src/machine/dialect.ts';
import { readProgram } from '../../../server/src/program/index.ts';

function marked(text: string, change: object = {}, wanted = 'feed-beyond-rapid'): string[] {
  const card = machineCardSchema.parse({
    name: 'Invented for tests', plane: 18, feedMode: 'perRevolution', rapids: { x: 20_000, y: 10_000, z: 24_000, c: 36_000 }, incrementalAxes: { U: 'X', H: 'C' },
    codes: { drivenStart: 'M123 S{rpm}', drivenStop: 'M125', speedLimit: 'G126 S{rpm}', syncOn: 'G137 P{starts} Q{teeth}', syncOff: 'G138' }, ...change,
  });
  return readProgram(text, dialectOf(card)).problems().filter(({ rule }) => rule === wanted).map(({ line, message }) => `${line + 1} ${message}`);
}

describe('a feed beyond rapid', () => {
  it.each<[string, string, RegExp]>([
    ['a feed of the driven tool while the feed is per revolution', 'M123 S3200\nG01 Z-5. F120.', /^2 F120\.: 120 mm a revolution make 384000 mm a minute: faster than the machine moves in rapid, 24000 mm a minute at most\.$/],
    ['a feed without its point', 'G97 S1500 M03\nG01 Z-30. F25', /^2 F25: .*37500 mm/],
    ['under constant cutting speed, at the diameter that turns slowest', 'G126 S3000\nG96 S200 M03\nG00 X20.\nG01 X18. F15', /^4 F15: .*45000 mm/],
    ['a minute', 'G94\nG01 X5. F24001.', /^2 F24001\.: 24001 mm a minute/],
    ['in inch', 'G20 G94\nG01 X5. F945.', /^2 F945\.: .*944\.88\d* inch a minute/],
    ['the work in step with the hob', 'M123 S300\nG137 P1 Q10\nG01 Z-5. F801.', /^3 F801\.: .*24030 mm/],
  ])('%s', (_name, text, message) => expect(marked(text)).toEqual([expect.stringMatching(message)]));

  it.each([
    ['a coarse feed that the machine can do', 'G97 S1500 M03\nG01 Z-30. F2.5'],
    ['at the very limit', 'G94\nG01 Z-30. F24000.'],
    ['towards the centre, where the spindle has no bound', 'G96 S200 M03\nG00 X50.\nG01 X0. F0.25'],
    ['in the middle under constant cutting speed', 'G96 S200 M03\nG00 X0.\nG01 Z-9. F0.1'],
    ['inward from a great diameter, where the spindle turns slower', 'G126 S3000\nG96 S200 M03\nG00 X100.\nG01 X20. F15.'],
    ['degrees', 'G94\nG01 C90. F30000.\nG01 H90. F30000.'],
    ['a speed that is not known', 'G97 M03\nG01 Z-30. F250.'],
    ['while nothing turns', 'G01 Z-30. F250.'],
    ['inverse time', 'G93\nG01 Z-30. F99999.'],
    ['a word of the machine', 'S3000 M03\nG137 P1 Q10 F999.'],
  ])('%s: nothing', (_name, text) => expect(marked(text)).toEqual([]));

  it('may be twice as fast along X where the feed counts on the diameter', () => {
    expect(marked('G94\nG01 X5. F40000.', { xFeedOnDiameter: true })).toEqual([]);
    expect(marked('G94\nG01 X5. F40001.', { xFeedOnDiameter: true })).toHaveLength(1);
  });

  it('is not judged where the card does not say how fast X and Z go', () => {
    expect(marked('M123 S3200\nG01 Z-5. F120.', { rapids: { y: 100 } })).toEqual([]);
    expect(marked('M123 S3200\nG01 Z-5. F120.', { rapids: undefined })).toEqual([]);
  });
});

describe('a feed that is hardly any', () => {
  const little = (text: string, change: object = {}): string[] => marked(text, change, 'feed-hardly-any');

  it.each<[string, string, RegExp]>([
    ['a feed a revolution while the feed is per minute', 'G94 G97 S1800 M04\nG01 X18. F.06', /^2 F\.06: 0\.06 mm a minute make 0\.000033 mm a revolution, which cuts nothing; the feed is per minute here\.$/],
    ['by increments, of the driven tool', 'G94 M123 S3000\nG01 U-2. F0.1', /^2 F0\.1: /],
    ['under constant cutting speed', 'G126 S3000\nG94 G96 S200 M03\nG00 X20.\nG01 Z-9. F0.25', /^4 F0\.25: .*0\.000083 mm/],
    ['in a cycle', 'G94 G17 S1000 M03\nG00 X0. Y0. Z5.\nG81 Z-9. R2. F0.2', /^3 F0\.2: /],
    ['in inch', 'G20 G94 S1000 M03\nG01 Z-1. F0.008', /^2 F0\.008: .*0\.0000080 inch/],
  ])('%s', (_name, text, message) => expect(little(text)).toEqual([expect.stringMatching(message)]));

  it.each([
    ['a fine feed in inch', 'G20 G94 S1000 M03\nG01 Z-1. F0.04'],
    ['a fine feed', 'G94 S1000 M03\nG01 Z-9. F1.'],
    ['a hob that feeds slowly', 'G94 M123 S300\nG137 P1 Q60\nG01 Z-9. F2.'],
    ['while nothing turns', 'G94\nG01 Z-9. F0.1'],
    ['a feed a revolution', 'S1000 M03\nG01 Z-9. F0.0002'],
    ['no axis word: a feed that is given for later', 'G94 S1000 M03\nF0.1'],
    ['a speed that is not known', 'G94 M03\nG01 Z-9. F0.1'],
    ['in the middle under constant cutting speed', 'G94 G96 S200 M03\nG00 X0.\nG01 Z-9. F0.1'],
  ])('%s: nothing', (_name, text) => expect(little(text)).toEqual([]));

  it('is judged without rapid speeds too', () => {
    expect(little('G94 S1000 M03\nG01 Z-9. F0.1', { rapids: undefined })).toHaveLength(1);
  });
});
