import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { handOver, handOverPlan, phaseAngleDegrees, type HandOverInput, type Sense } from '../../../server/src/trade/hand-over.ts';
import { OutOfRange } from '../../../server/src/trade/quantity.ts';
import { runCheckTables } from './checks.ts';
import { handOverCheckTables, TRANSFER } from './hand-over.cases.ts';

runCheckTables(handOverCheckTables);

/** Turning a place in the X-Y plane about +Z of the machine. */
function turned([x, y]: readonly [number, number], degrees: number): readonly [number, number] {
  const angle = (degrees * Math.PI) / 180;
  return [x * Math.cos(angle) - y * Math.sin(angle), x * Math.sin(angle) + y * Math.cos(angle)];
}

describe('the phase, carried out with a point of the part in space [derived, second computation]', () => {
  it('brings the feature under the tool at the wanted C of the other spindle', () => {
    const sense = fc.constantFrom<Sense>(1, -1);
    const angle = fc.integer({ min: -359, max: 359 });
    fc.assert(fc.property(sense, sense, angle, angle, angle, (main, sub, given, wanted, meanwhile) => {
      const phase = phaseAngleDegrees(given, wanted, (main * sub) as Sense);
      // At C = given the feature stands at the tool, on +X. The main face looks to +Z: growing C turns by its sense about +Z.
      const atMainZero = turned([1, 0], main * -given);
      // Both turn on together, to any place, where the sub-spindle takes the part; its own C then follows from the phase.
      const inSpace = turned(atMainZero, main * meanwhile);
      const subAngle = phase - main * sub * meanwhile;
      // The sub-spindle's face looks to -Z: growing C turns by its sense about -Z.
      const [x, y] = turned(inSpace, -sub * (wanted - subAngle));
      expect(x).toBeCloseTo(1, 9);
      expect(y).toBeCloseTo(0, 9);
    }));
  });
});

describe('refusals name the field', () => {
  it.each<[string, Partial<HandOverInput>, string]>([
    ['a given angle without the senses', { givenAngleDegrees: 10 }, 'sensesProduct'],
    ['no way to retract', { retractPlace: -400 }, 'retractPlace'],
    ['a retract shorter than gap and overlap', { retractPlace: -386 }, 'retractPlace'],
    ['a pull beyond the retract place', { pull: 401 }, 'pull'],
    ['a part that is still in the chuck at the retract place', { release: { held: 401 } }, 'held'],
    ['no gap', { approach: 0 }, 'approach'],
    ['no feed', { creepFeed: 0 }, 'creepFeed'],
    ['a negative pause', { pauseSeconds: -1 }, 'pauseSeconds'],
  ])('%s', (_name, changes, field) => {
    expect(() => handOverPlan({ ...TRANSFER, ...changes })).toThrow(expect.objectContaining({ parameter: field }) as Error);
  });

  it('and wild inputs give finite figures or a refusal', () => {
    const wild = fc.oneof(fc.double(), fc.integer({ min: -500, max: 500 }), fc.constantFrom(NaN, Infinity, -Infinity, 1e308, 1e-320, 0));
    const fields = ['givenAngleDegrees', 'wantedAngleDegrees', 'gripPlace', 'retractPlace', 'overlap', 'approach', 'creepFeed', 'pull', 'pauseSeconds', 'held'] as const;
    fc.assert(fc.property(fc.constantFrom(...fields), fc.constantFrom(...fields), wild, wild, (first, second, one, other) => {
      try {
        const { held, ...input } = { ...TRANSFER, sensesProduct: 1 as const, held: undefined, [first]: one, [second]: other };
        for (const { value, working, id } of Object.values(handOver({ ...input, release: { held } }))) {
          expect(Number.isFinite(value), id).toBe(true);
          expect(working, id).not.toMatch(/NaN|Infinity|undefined/);
        }
      } catch (error) {
        expect(error).toBeInstanceOf(OutOfRange);
      }
    }), { numRuns: 2000 });
  });
});
