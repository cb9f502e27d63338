import { describe, expect, it } from 'vitest';
import type { Bore, EdgeSweep } from '../../../server/src/cut/slot-cut.ts';
import { bitesOf } from '../../../server/src/cut/slot-cut.ts';
import { measureSlots } from '../../../server/src/cut/slot-measure.ts';
import { strokesOf } from '../../../server/src/cut/strokes.ts';

const rad = Math.PI / 180;
/** The 7-24-25 triangle of the keyway notes: bore 50, keyway 14 wide and 3.8 deep (derived, exact integers). */
const bore: Bore = { radius: 25, zLow: -32, zHigh: 0 };
const FLOOR = 28.8;

function stroke(change: Partial<EdgeSweep> = {}): EdgeSweep {
  const x = change.fromX ?? FLOOR;
  return { workRadians: 0, y: 0, insertWidth: 14, fromX: x, fromZ: 2, toX: x, toZ: -34, line: 1, rapid: false, ...change };
}

describe('a keyway cut by an insert of full width', () => {
  const [slot] = measureSlots([stroke()], bore);

  it('is as wide, as deep and as long as the strokes', () => {
    expect(slot!.width).toBeCloseTo(14, 9);
    expect(slot!.depth).toBeCloseTo(3.8, 9);
    expect(slot!.zLow).toBeCloseTo(-32, 3);
    expect(slot!.zHigh).toBeCloseTo(0, 3);
  });

  it('is flat, straight and central', () => {
    expect(slot!.floorFlatness).toBeLessThan(1e-9);
    expect(slot!.taper).toBeCloseTo(0, 9);
    expect(slot!.offCentre).toBeCloseTo(0, 9);
    expect(slot!.angleDegrees).toBeCloseTo(0, 9);
  });
});

describe('the first contact', () => {
  it('comes at the corners, 24 from the axis (keyway notes, case 14, derived)', () => {
    const deep = (x: number) => bitesOf([stroke({ fromX: x, toX: x })], bore)[0]!.depth;
    expect(deep(23.999)).toBe(0);
    expect(deep(24.05)).toBeCloseTo(0.05, 2);
  });

  it('takes the sagitta at once when the infeed starts from the bore circle', () => {
    const [first] = bitesOf([stroke({ fromX: 25, toX: 25 })], bore);
    expect(first!.depth).toBeCloseTo(1, 2);
  });
});

describe('side passes', () => {
  const offsets = [0, -2, 2];
  const slots = measureSlots(offsets.map((y) => stroke({ y, insertWidth: 10 })), bore);

  it('make one slot of their common width with a flat bottom', () => {
    expect(slots).toHaveLength(1);
    expect(slots[0]!.width).toBeCloseTo(14, 9);
    expect(slots[0]!.floorFlatness).toBeLessThan(1e-9);
  });

  it('made by turning the work instead leave a tilted bottom and leaning sides (keyway notes, section 4: 0.696 over a 10 mm edge, derived)', () => {
    const turn = Math.asin(2 / FLOOR);
    expect(turn / rad).toBeCloseTo(3.982, 3);
    const [slot] = measureSlots([stroke({ insertWidth: 10, workRadians: turn }), stroke({ insertWidth: 10, workRadians: -turn })], bore);
    expect(slot!.floorFlatness).toBeGreaterThan(0.3);
    expect(Math.abs(slot!.taper)).toBeGreaterThan(0.2);
  });
});

describe('several keyways', () => {
  it('are found where the work was turned to', () => {
    const angles = [10, 100, 190, 280];
    const slots = measureSlots(angles.map((angle) => stroke({ workRadians: -angle * rad })), bore);
    expect(slots.map((slot) => slot.angleDegrees).sort((a, b) => a - b)).toEqual(
      [-170, -80, 10, 100].map((angle) => expect.closeTo(angle, 9)),
    );
  });

  it('an insert beside the plane of the axis leaves the keyway off centre, not turned', () => {
    const [slot] = measureSlots([stroke({ y: 0.3 })], bore);
    expect(slot!.angleDegrees).toBeCloseTo(0, 6);
    expect(slot!.offCentre).toBeCloseTo(0.3, 6);
  });
});

describe('a driven stroke unit', () => {
  const unit = { workRadians: 0, y: 0, insertWidth: 14, strokeStartZ: 2, strokeAlongZ: -35, strokesPerMinute: 1000, startX: 23.5 };
  const feeding = { toX: FLOOR, seconds: (5.3 / 0.05) * 0.06, line: 7, rapid: false };
  const path = (dwellSeconds: number) => ({ ...unit, legs: [feeding, { toX: FLOOR, seconds: dwellSeconds, line: 8, rapid: false }] });

  it('makes so many strokes as time allows: 106 for the feed and 2 to spark out (common practice)', () => {
    const sweeps = strokesOf(path(0.12));
    expect(new Set(sweeps.filter((sweep) => sweep.fromZ === 2).map((sweep) => sweep.fromX)).size).toBe(107);
    expect(sweeps.filter((sweep) => sweep.fromZ === 2)).toHaveLength(108);
  });

  it('slopes the bottom by half a stroke feed without spark-out, and not with it (keyway notes, section 5.1, derived)', () => {
    const [without] = measureSlots(strokesOf(path(0)), bore);
    const [with2] = measureSlots(strokesOf(path(0.12)), bore);
    expect(Math.abs(without!.floorSlope)).toBeGreaterThan(0.015);
    expect(Math.abs(without!.floorSlope)).toBeLessThan(0.026);
    expect(with2!.floorSlope).toBeCloseTo(0, 9);
    expect(with2!.depth).toBeCloseTo(3.8, 9);
  });

  it('bites no more than one stroke feed', () => {
    const bites = bitesOf(strokesOf(path(0.12)), bore).map((bite) => bite.depth);
    expect(Math.max(...bites)).toBeLessThan(0.0501);
    expect(Math.max(...bites)).toBeGreaterThan(0.049);
  });

  it('with too short a stroke leaves the far end uncut', () => {
    const [slot] = measureSlots(strokesOf({ ...path(0.12), strokeAlongZ: -24 }), bore);
    expect(slot!.zLow).toBeCloseTo(-22, 3);
  });
});

/** A hundred keyways of every size, clocked anywhere, some with side passes; measured from the cut alone. */
describe('a hundred keyways', () => {
  const cases = Array.from({ length: 100 }, (_, index) => ({
    bore: 8 + 2.3 * index,
    share: 0.15 + 0.2 * ((index * 7) % 11) / 11,
    depth: 0.05 + 0.08 * ((index * 5) % 7) / 7,
    length: 5 + ((index * 13) % 80),
    angle: ((index * 37) % 360) - 180,
    passes: 1 + (index % 3),
  }));

  it.each(cases)('bore $bore, $passes passes, at $angle deg', ({ bore: diameter, share, depth, length, angle, passes }) => {
    const radius = diameter / 2;
    const width = share * diameter;
    const insert = passes === 1 ? width : width / passes + 0.1 * (width / passes);
    const side = (width - insert) / 2;
    const offsets = passes === 1 ? [0] : passes === 2 ? [-side, side] : [0, -side, side];
    const floor = radius + depth * diameter;
    const sweeps = offsets.map((y) =>
      stroke({ y, insertWidth: insert, fromX: floor, toX: floor, fromZ: 1, toZ: -length - 1, workRadians: -angle * rad }),
    );
    const slots = measureSlots(sweeps, { radius, zLow: -length, zHigh: 0 });
    expect(slots).toHaveLength(1);
    expect(slots[0]!.width).toBeCloseTo(width, 6);
    expect(slots[0]!.depth).toBeCloseTo(depth * diameter, 6);
    expect(slots[0]!.floorFlatness).toBeLessThan(1e-6);
    expect(Math.cos((slots[0]!.angleDegrees - angle) * rad)).toBeCloseTo(1, 9);
    expect(slots[0]!.zHigh - slots[0]!.zLow).toBeCloseTo(length, 3);
  });
});
