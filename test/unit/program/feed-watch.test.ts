/** Feeds beyond the rapid speeds of an invented machine; feed a minute is feed a revolution times speed (derived). */
import { describe, expect, it } from 'vitest';
import { machineCardSchema } from '../../../server/src/machine/card.ts';
import { dialectOf } from '../../../server/src/machine/dialect.ts';
import { readProgram } from '../../../server/src/program/index.ts';

function marked(text: string, change: object = {}): string[] {
  const card = machineCardSchema.parse({
    name: 'Invented for tests', plane: 18, feedMode: 'perRevolution', rapids: { x: 20_000, y: 10_000, z: 24_000, c: 36_000 }, incrementalAxes: { U: 'X', H: 'C' },
    codes: { drivenStart: 'M123 S{rpm}', drivenStop: 'M125', speedLimit: 'G126 S{rpm}', syncOn: 'G137 P{starts} Q{teeth}', syncOff: 'G138' }, ...change,
  });
  return readProgram(text, dialectOf(card)).problems().filter(({ rule }) => rule === 'feed-beyond-rapid').map(({ line, message }) => `${line + 1} ${message}`);
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
    ['degrees', 'G94\nG01 C90. F30000.\nG01 H90. F30000.'],
    ['a speed that is not known', 'G97 M03\nG01 Z-30. F250.'],
    ['while nothing turns', 'G01 Z-30. F250.'],
    ['inverse time', 'G93\nG01 Z-30. F99999.'],
    ['a word of the machine', 'S3000 M03\nG137 P1 Q10 F999.'],
  ])('%s: nothing', (_name, text) => expect(marked(text)).toEqual([]));

  it('is not judged where the card does not say how fast X and Z go', () => {
    expect(marked('M123 S3200\nG01 Z-5. F120.', { rapids: { y: 100 } })).toEqual([]);
    expect(marked('M123 S3200\nG01 Z-5. F120.', { rapids: undefined })).toEqual([]);
  });
});
