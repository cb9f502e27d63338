import { describe, expect, test } from 'vitest';
import { type Dialect, readProgram } from '../../../server/src/program/index.ts';
import { meanOfAtLeast } from '../../../server/src/program/timing.ts';
import { atZero, marks, onlyMove, standingAt } from './helpers.ts';

const lathe = (x: number, more: Partial<Dialect> = {}): Dialect => standingAt({ X: x, Y: 0, Z: 0, C: 0 }, { diameterProgramming: true, ...more });

describe('spindle speed at constant cutting speed, n = 1000 v / (pi d) (NISTIR has none; ISO G96, derived)', () => {
  // Figures of the formula, computed outside the project.
  test.each([[50, 1273.24], [20, 3183.1], [10, 6366.2]])('v 200 m/min, d %d mm: %d rev/min', (diameter, rpm) => {
    expect(onlyMove('G96 S200 M3 G95 G1 Z-1 F0.2', lathe(diameter)).spindle.startRpm).toBeCloseTo(rpm, 1);
  });

  test('the speed limit of the machine holds', () => {
    const patterns = [{ name: 'speedLimit', words: [{ letter: 'G', value: 126 }, { letter: 'S', slot: 'rpm' }] }];
    const program = readProgram('G126 S3000\nG96 S200 M3\nG95 G1 Z-1 F0.2', lathe(10, { patterns }));
    expect([...program.moves()][0]!.spindle.startRpm).toBe(3000);
    expect(program.stateAfter(2)).toMatchObject({ speedLimit: 3000, speed: 200, speedMode: 'css' });
  });

  test('in an inch program 12 v / (pi d) with feet per minute', () => {
    expect(onlyMove('G20 G96 S300 M3 G95 G1 Z-1 F0.01', lathe(25.4)).spindle.startRpm).toBeCloseTo((12 * 300) / Math.PI, 9);
  });

  test('down to X0 without a limit is pointed out', () => {
    expect(marks('G96 S200 M3\nG1 G95 X0 F0.1', lathe(50))).toEqual(['2:8 speed-without-limit']);
    expect(marks('G97 S2000 M3\nG1 G95 X0 F0.1', lathe(50))).toEqual([]);
  });

  test('so is a facing cut that ends beyond the centre, by X or by its increments', () => {
    expect(marks('G96 S200 M3\nG1 G95 X-1.6 F0.1\nX-2', lathe(50))).toEqual(['2:8 speed-without-limit']);
    expect(marks('G96 S200 M3\nG1 G95 U-52 F0.1', { ...lathe(50), incrementalAxes: { U: 'X' } })).toEqual(['2:8 speed-without-limit']);
    expect(marks('G96 S200 M3\nG1 G95 X1 F0.1\nZ-5', lathe(50))).toEqual([]);
  });
});

describe('times', () => {
  test('feed per minute: length / F', () => expect(onlyMove('G1 X3 Y4 F50').seconds).toBeCloseTo(6, 12));
  test('inverse time: 1 / F minutes, F2.0 is half a minute (NISTIR 6556 §2.1.2.5)', () => expect(onlyMove('G93 G1 X3 F2.0').seconds).toBe(30));
  test('feed per revolution: f n; 0.2 mm at 1273.24 rev/min is 254.65 mm/min (computed outside the project)', () => {
    expect(onlyMove('G97 S1273.24 M3 G95 G1 Z-254.65 F0.2', lathe(50)).seconds).toBeCloseTo(60, 2);
  });
  test('a dwell is in seconds (NISTIR 6556 §3.5.4)', () => expect(onlyMove('G4 P1.5')).toMatchObject({ kind: 'dwell', seconds: 1.5, length: 0 }));
  test('a dwell before the motion of its line (NISTIR 6556 §3.8)', () => {
    expect([...readProgram('G4 P1 G1 X5 F60', atZero).moves()].map(({ kind }) => kind)).toEqual(['dwell', 'feed']);
  });
  test.each([
    // ISO leaves letter and unit of a dwell to the format (from memory): not guessed.
    ['G4 X1.5', ['1:4 dwell-word']], ['G4', ['1:1 word-missing']], ['G4 P-1', ['1:4 negative-value']],
  ])('%s', (line, expected) => expect(marks(line, atZero)).toEqual(expected));
  test('the machine may say which letter holds the dwell; it then moves nothing', () => {
    const dialect = standingAt({ X: 7 }, { dwellSeconds: { X: 1, P: 0.001 } });
    expect(onlyMove('G4 X1.5', dialect).seconds).toBe(1.5);
    expect(onlyMove('G4 P500', dialect).seconds).toBe(0.5);
    expect(readProgram('G0 G4 X1.5', dialect).stateAfter(0).position.X).toBe(7);
  });

  describe('facing at constant cutting speed: t = pi L (d1 + d2) / 2 / (1000 v f) minutes (derived by integration)', () => {
    test('without a limit', () => {
      const expected = ((Math.PI * 25 * 75) / (1000 * 200 * 0.2)) * 60;
      expect(onlyMove('G96 S200 M3 G95 G1 X50 F0.2', lathe(100)).seconds).toBeCloseTo(expected, 9);
    });
    test('against a sum over thin rings, with a limit and across the centre', () => {
      const patterns = [{ name: 'speedLimit', words: [{ letter: 'G', value: 126 }, { letter: 'S', slot: 'rpm' }] }];
      const program = readProgram('G126 S3000\nG96 S200 M3\nG95 G1 X-10 F0.2', lathe(100, { patterns }));
      const rings = 200_000;
      let minutes = 0;
      for (let ring = 0; ring < rings; ring++) {
        const diameter = Math.abs(100 - (110 * (ring + 0.5)) / rings);
        minutes += 55 / rings / (0.2 * Math.min(3000, 200_000 / (Math.PI * diameter)));
      }
      expect([...program.moves()][0]!.seconds! / (minutes * 60)).toBeCloseTo(1, 6);
    });
    test('the mean of at least', () => {
      expect(meanOfAtLeast(0, 10, 0)).toBe(5);
      expect(meanOfAtLeast(0, 10, 20)).toBe(20);
      expect(meanOfAtLeast(10, 0, 5)).toBe(6.25);
      expect(meanOfAtLeast(3, 3, 1)).toBe(3);
    });
    test('on an arc, against a sum over short chords', () => {
      const move = onlyMove('G18 G96 S200 M3 G95 G3 X100 Z-30 R30 F0.2', lathe(40));
      const { centre, sweepDegrees } = move.arc!;
      const chords = 20_000;
      let minutes = 0;
      for (let chord = 0; chord < chords; chord++) {
        const angle = Math.atan2(20 - centre.X! / 2, 0 - centre.Z!) + (((chord + 0.5) / chords) * sweepDegrees * Math.PI) / 180;
        const diameter = 2 * Math.abs(centre.X! / 2 + 30 * Math.sin(angle));
        minutes += move.length! / chords / (0.2 * (200_000 / (Math.PI * diameter)));
      }
      expect(move.seconds! / (minutes * 60)).toBeCloseTo(1, 4);
    });
  });

  test('the feed may count the change of diameter', () => {
    expect(onlyMove('G1 X40 F10', lathe(60)).seconds).toBeCloseTo(60, 12);
    expect(onlyMove('G1 X40 F10', lathe(60, { xFeedOnDiameter: true })).seconds).toBeCloseTo(120, 12);
  });

  test('rapids: each axis at its own speed, the slowest decides (common practice, no source)', () => {
    const rapid = { x: 6000, z: 12000, c: 3600 };
    expect(onlyMove('G0 X-100 Z-100', lathe(0, { rapid })).seconds).toBeCloseTo(0.5, 12);
    expect(onlyMove('G0 C180 Z-100', lathe(0, { rapid })).seconds).toBeCloseTo(3, 12);
    expect(onlyMove('G0 Y5', lathe(0, { rapid })).seconds).toBeUndefined();
    expect(onlyMove('G20 G0 Z-1', standingAt({ Z: 0 }, { rapid })).seconds).toBeCloseTo((25.4 / 12000) * 60, 12);
  });

  test('threads: turns along the lead at the speed of the spindle (from memory of ISO 6983)', () => {
    expect(onlyMove('G97 S600 M3 G33 Z-30 K1.5', lathe(20)).seconds).toBeCloseTo(2, 12);
    expect(onlyMove('G97 S600 M3 G33 Z-30 F1.5', lathe(20)).seconds).toBeCloseTo(2, 12);
  });

  test('in sync the feed per revolution is the work\'s: hob speed times starts over teeth', () => {
    const patterns = [
      { name: 'syncOn', words: [{ letter: 'G', value: 137 }, { letter: 'P', slot: 'starts' }, { letter: 'Q', slot: 'teeth' }] },
      { name: 'drivenStart', words: [{ letter: 'M', value: 203 }, { letter: 'S', slot: 'rpm' }] },
    ];
    const moves = [...readProgram('G137 P1 Q24\nM203 S240\nG95 G1 Z-20 F2', lathe(72, { patterns })).moves()];
    expect(moves[0]).toMatchObject({ seconds: 60, driven: { rpm: 240, direction: 'clockwise' }, sync: { slots: { starts: 1, teeth: 24 }, workRpm: 10 } });
  });

  test('totals and the time before a line add up', () => {
    const program = readProgram('G1 X60 F60\nG4 P5\nG1 Y30\nG0 X0', atZero);
    expect(program.totals()).toMatchObject({ units: 'mm', seconds: 95, dwellSeconds: 5, feedLength: 90, rapidLength: 60, moves: 4, movesWithoutTime: 1, movesWithoutLength: 0 });
    expect([0, 1, 2, 3].map((line) => program.secondsBefore(line))).toEqual([0, 60, 65, 95]);
  });

  test('lengths of an inch program are given in inch', () => {
    expect(readProgram('G20 G1 X1 F1', atZero).totals()).toMatchObject({ units: 'inch', seconds: 60 });
    expect(readProgram('G20 G1 X1 F1', atZero).totals().feedLength).toBeCloseTo(1, 12);
  });
});

describe('the lead of a thread (own rules; common practice, no source)', () => {
  test.each<[string, string, string[]]>([
    ['a feed from before is no lead', 'G95 S500 M3 G1 X40 F0.3\nG33 Z-17', ['2:1 thread-lead']],
    ['a lead along an axis that does not move', 'S500 M3 G1 G95 X40 F0.3\nG33 Z-17 I1.5', ['2:1 thread-lead']],
    ['no F at all, and the lead along another axis', 'S500 M3\nG33 Z-17 I1.5', ['2:1 thread-lead']],
    ['a lead by K, by E, by F, and by F of the pass before', 'S500 M3\nG33 Z-17 K1.5\nG33 Z0 E2\nG33 Z-17 F1.5\nG0 Z0\nG33 Z-17', []],
    ['the lead as a feed afterwards', 'G95 S500 M3\nG33 Z-17 F1.5\nG1 X50\nX60', ['3:4 feed-other-mode']],
    ['a feed of its own afterwards', 'G95 S500 M3\nG33 Z-17 F1.5\nG1 X50 F0.2\nX60', []],
    ['under constant cutting speed', 'G96 S80 M3\nG33 Z-17 K1.5', ['2:1 cutting-speed-in-force']],
    ['after G97', 'G96 S80 M3\nG97 S500\nG33 Z-17 K1.5', []],
  ])('%s', (_name, text, expected) => expect(marks(text, lathe(50))).toEqual(expected));

  test('moves tell F of a thread where it is the lead, and by the revolution', () => {
    const told = (thread: string): unknown => [...readProgram(`G94 S500 M3 G1 X40 F90\n${thread}`, lathe(50)).moves()].slice(1).map(({ kind, feed, feedMode }) => [kind, feed, feedMode]);
    expect(told('G33 Z-17 K1.5')).toEqual([['thread', undefined, 'perRevolution']]);
    expect(told('G33 Z-17 F1.5')).toEqual([['thread', 1.5, 'perRevolution']]);
  });

  test('a lead that nobody gave makes no time', () => {
    const times = [...readProgram('G95 S500 M3 G1 X40 F0.3\nG33 Z-17\nG33 Z0 F1.7', lathe(50)).moves()].map(({ seconds }) => seconds);
    expect(times.slice(1)).toEqual([undefined, expect.closeTo((17 / 1.7 / 500) * 60, 9)]);
  });
});
