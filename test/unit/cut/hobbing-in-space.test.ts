/**
 * Blocks for either spindle and any turret, carried out on bodies in the room of
 * the machine and then cut. The way from words to the motion of hob and work is
 * written here a second time, from vectors, and knows neither the law of the
 * product nor what its proofs make of a machine card. [vector geometry, derived]
 */
import { describe, expect, it } from 'vitest';
import { machineCardSchema, type MachineCard } from '../../../server/src/machine/card.ts';
import type { HobbingInstant, HobbingSpan } from '../../../server/src/cut/motion.ts';
import { composedProgram } from './composed-programs.ts';
import { jobOf, measured, type HobbingSetting } from './hobbing-jobs.ts';

type Sign = 1 | -1;
type Vector = readonly [x: number, y: number, z: number];

const times = (factor: number, [x, y, z]: Vector): Vector => [factor * x, factor * y, factor * z];
const dot = (a: Vector, b: Vector) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Vector, b: Vector): Vector => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];

/** Ways in the room: of growing X, Y and Z words, out of the face, of the right-handed axes of the drive and of growing C. */
interface Bodies { x: Vector; y: Vector; z: Vector; outOfFace: Vector; drive: Vector; c: Vector; side: Sign }

const [X, Y, Z]: [Vector, Vector, Vector] = [[1, 0, 0], [0, 1, 0], [0, 0, 1]];
const minus = (vector: Vector) => times(-1, vector);

/** What the words of the card say of such a machine. Of the main spindle nothing but the main senses is used. */
function cardOf({ x, y, z, outOfFace, drive, c, side }: Bodies): MachineCard {
  const left = cross(outOfFace, x);
  const hobSide = side > 0 ? '+X' : '-X';
  return machineCardSchema.parse({
    name: 'Invented for bodies in space', decimals: 5, angleDecimals: 6, differentialByWorkAxis: 'absolute',
    senses: { workRotation: 1, toolRotation: 1, hobSide: '+X' },
    subSpindle: { zSense: dot(z, outOfFace), ySense: dot(y, left), workRotation: dot(c, outOfFace), toolRotation: dot(drive, left), hobSide },
    codes: {
      feedPerMinute: 'G94', subSyncOn: 'G737 K{starts} L{sense}{teeth}', syncOn: 'G137 P{starts} Q{teeth}', syncOff: 'G138', subAxisOn: 'M291', subAxisOff: 'M292',
      drivenStart: 'M123 S{rpm}', drivenReverse: 'M124 S{rpm}', drivenStop: 'M125', dwell: 'G04 P{seconds}',
    },
  });
}

const setting: HobbingSetting = { module: 1.5, teeth: 17, helix: 18, shift: 0, starts: 1, hobHand: 1, hobDiameter: 50, gashes: 10, feed: 1, face: 6, side: 1, climb: true, cuts: 1 };

function blockOf(bodies: Bodies, of: HobbingSetting, more: Record<string, string>): string[] {
  const note = {
    MODULE: '1.5', TEETH: '17', HELIX: '18', HAND: of.helix > 0 ? 'RIGHT' : 'LEFT', FACE: '6', 'HOB-DIA': '50', 'HOB-GASHES': '10', 'HOB-HAND': of.hobHand > 0 ? 'RIGHT' : 'LEFT',
    RPM: '400', FEED: '1', METHOD: of.climb ? 'CLIMB' : 'CONVENTIONAL', SPINDLE: 'SUB', ...more,
  };
  return composedProgram('hobbing', note, cardOf(bodies)).split('\n');
}

const numberIn = (line: string, letter: string) => Number(new RegExp(`(?<![A-Z])${letter}(-?[\\d.]+)`).exec(line)?.[1] ?? NaN);

/**
 * What a machine does with the lines: words to places, the drive turning all the
 * while, the work with it while it is coupled, C on top. Told in the frame of the
 * cut: Z out of the face, X toward growing X words, all of it from vectors.
 */
function spansOf(lines: readonly string[], { x, y, z, outOfFace, drive, c, side }: Bodies): HobbingSpan[] {
  const spans: HobbingSpan[] = [];
  const axes = [x, cross(outOfFace, x), outOfFace] as const;
  const words = { X: NaN, Y: 0, Z: NaN, C: 0 };
  let [driveTurn, work, drivePerSecond, coupled] = [0, 0, 0, 0];
  // At the contact the hob is before its axis toward the work: its edges there move along omega x r.
  const edgesAlongOut = dot(cross(drive, times(-side, x)), outOfFace);
  const instant = (): HobbingInstant => {
    const place = [times(words.X / 2, x), times(words.Y, y), times(words.Z, z)].reduce((sum, each): Vector => [sum[0] + each[0], sum[1] + each[1], sum[2] + each[2]]);
    return { x: dot(place, axes[0]), y: dot(place, axes[1]), z: dot(place, axes[2]), hobRadians: edgesAlongOut * driveTurn, workRadians: dot(c, outOfFace) * (work + (words.C * Math.PI) / 180) };
  };
  const run = (line: number, rapid: boolean, start: HobbingInstant, seconds: number) => {
    driveTurn += drivePerSecond * seconds;
    work += coupled * drivePerSecond * seconds;
    const end = instant();
    if ([start.x, start.z].every(Number.isFinite)) spans.push({ line, rapid, start, end });
  };
  lines.forEach((text, line) => {
    if (/^M12[34]/.test(text)) drivePerSecond = ((text.startsWith('M123') ? 1 : -1) * numberIn(text, 'S') * 2 * Math.PI) / 60;
    if (text.startsWith('M125')) drivePerSecond = 0;
    if (text.startsWith('G737')) coupled = numberIn(text, 'K') / numberIn(text, 'L');
    if (text.startsWith('G138')) coupled = 0;
    if (text.startsWith('G04')) run(line, false, instant(), numberIn(text, 'P'));
    if (!/^G0[01]/.test(text)) return;
    const start = instant();
    for (const letter of ['X', 'Y', 'Z', 'C'] as const) if (!Number.isNaN(numberIn(text, letter))) words[letter] = numberIn(text, letter);
    const end = instant();
    const length = Math.hypot(end.x - start.x, end.y - start.y, end.z - start.z);
    const speed = text.startsWith('G00') ? 10_000 : numberIn(text, 'F');
    run(line, text.startsWith('G00'), start, Number.isFinite(length) ? (60 * length) / speed : 0);
  });
  return spans;
}

/** The swivel as somebody at the machine would set it; the frame of the cut counts clockwise as plus. */
function settingOf(lines: readonly string[]): number {
  const [, angle, counter] = /SWIVEL HOB AXIS ([\d.]+) DEG (COUNTER-)?CLOCKWISE, SEEN FROM HOB TO WORK/.exec(lines.join(' ')) ?? [];
  return ((counter ? -1 : 1) * Number(angle ?? NaN) * Math.PI) / 180;
}

/** Not every mixture, but every way of every axis, hand, side and method, more than once. */
const cases = Array.from({ length: 16 }, (_, index) => {
  const sign = (bit: number): Sign => ((index * 5 + (index >> 2)) & (1 << bit) ? -1 : 1);
  const outOfFace = minus(Z);
  const bodies: Bodies = { x: index % 3 === 0 ? minus(X) : X, y: times(sign(0), Y), z: times(sign(1), Z), outOfFace, drive: times(sign(2), Y), c: times(sign(3), Z), side: index % 5 < 2 ? -1 : 1 };
  const of: HobbingSetting = { ...setting, helix: index % 4 < 2 ? 18 : -18, hobHand: index & 1 ? -1 : 1, climb: index % 7 < 4 };
  const more: Record<string, string> = { ...(index % 3 === 1 ? { ENTRY: 'PLUNGE', 'RADIAL-FEED': '.4' } : {}), ...(index % 4 === 3 ? { SHIFT: '4' } : {}), ...(index % 5 === 4 ? { CUTS: '2' } : {}), 'FACE-Z': String((index % 3) - 1) };
  return { name: `${index}: ${JSON.stringify({ ...bodies, gear: of.helix, hob: of.hobHand, climb: of.climb, ...more })}`, bodies, of, more };
});

describe('a block for the sub-spindle, carried out on bodies in space', () => {
  it.each(cases)('$name', ({ bodies, of, more }) => {
    const lines = blockOf(bodies, of, more);
    const face = dot(bodies.z, bodies.outOfFace) * Number(more['FACE-Z']);
    const job = jobOf(of);
    const gear = measured({ ...job, spans: spansOf(lines, bodies), settingRadians: settingOf(lines), zHigh: face, zLow: face - of.face });
    expect(gear.teeth).toBe(17);
    expect(Math.abs((gear.flanks?.helixAngleDegrees ?? NaN) - of.helix)).toBeLessThan(0.01);
    expect(gear.flanks?.shallowPlaces).toEqual([]);
    const ends = spansOf(lines, bodies).filter((span) => !span.rapid && span.start.z !== span.end.z);
    // Climb: the edges at the work move against the feed, which runs into the work.
    for (const { start, end } of ends) expect(end.hobRadians > start.hobRadians === of.climb && end.z < start.z).toBe(true);
  });

  it('takes every way of every axis', () => {
    const seen = (of: (each: (typeof cases)[number]) => unknown) => new Set(cases.map((each) => JSON.stringify(of(each)))).size;
    expect([seen(({ bodies }) => bodies.x), seen(({ bodies }) => bodies.y), seen(({ bodies }) => bodies.z), seen(({ bodies }) => bodies.drive), seen(({ bodies }) => bodies.c), seen(({ bodies }) => bodies.side), seen(({ of }) => of.hobHand), seen(({ of }) => of.climb)]).toEqual([2, 2, 2, 2, 2, 2, 2, 2]);
  });

  it('made wrong in the sign of the coupling, leaves no teeth', () => {
    const [{ bodies, of, more }] = cases as [(typeof cases)[number]];
    const lines = blockOf(bodies, of, more).map((line) => line.replace(/ L(-?)(?=\d)/, (_, sign: string) => ` L${sign ? '' : '-'}`));
    expect(measured({ ...jobOf(of), spans: spansOf(lines, bodies), settingRadians: settingOf(lines) }).teeth).not.toBe(17);
  });
});
