import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RemovedArcs, wrapped } from '../../../server/src/cut/arcs.ts';

const angle = fc.double({ min: -9, max: 9, noNaN: true });
const width = fc.double({ min: 0, max: 5, noNaN: true });
const arcs = fc.array(fc.record({ start: angle, width }), { maxLength: 40 });

/** Whether the angle lies in one of the arcs, asked one by one. */
function isIn(all: ReadonlyArray<{ start: number; width: number }>, probe: number): boolean {
  return all.some(({ start, width: wide }) => {
    const from = probe - start;
    return from - 2 * Math.PI * Math.floor(from / (2 * Math.PI)) <= wide;
  });
}

describe('the union of removed arcs', () => {
  it('holds exactly the places that some arc holds', () => {
    fc.assert(
      fc.property(arcs, angle, (all, probe) => {
        const removed = new RemovedArcs();
        for (const { start, width: wide } of all) removed.remove(start, start + wide);
        const near = all.some(({ start, width: wide }) => [start, start + wide].some((edge) => Math.abs(wrapped(edge - probe)) < 1e-9));
        fc.pre(!near);
        const holds = removed.arcs().some(({ start, end }) => wrapped(probe - start) >= 0 ? wrapped(probe - start) <= end - start : wrapped(probe - start) + 2 * Math.PI <= end - start);
        expect(holds).toBe(isIn(all, probe));
      }),
    );
  });

  it('tells how much each arc took, so that the parts add up to the whole', () => {
    fc.assert(
      fc.property(arcs, (all) => {
        const removed = new RemovedArcs();
        const taken = all.reduce((sum, { start, width: wide }) => sum + removed.remove(start, start + wide), 0);
        const gone = removed.arcs().reduce((sum, { start, end }) => sum + end - start, 0);
        expect(taken).toBeCloseTo(gone, 9);
      }),
    );
  });

  it('does not depend on the order', () => {
    fc.assert(
      fc.property(arcs, (all) => {
        const forth = new RemovedArcs();
        const back = new RemovedArcs();
        for (const { start, width: wide } of all) forth.remove(start, start + wide);
        for (const { start, width: wide } of [...all].reverse()) back.remove(start, start + wide);
        expect(back.arcs()).toEqual(forth.arcs());
      }),
    );
  });

  it('keeps its arcs apart and in order', () => {
    fc.assert(
      fc.property(arcs, (all) => {
        const removed = new RemovedArcs();
        for (const { start, width: wide } of all) removed.remove(start, start + wide);
        const found = removed.arcs();
        found.slice(1).forEach((arc, index) => expect(arc.start).toBeGreaterThan(found[index]!.end));
      }),
    );
  });
});
