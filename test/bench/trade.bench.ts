/**
 * What one full hobbing computation costs, beside the cost of merely reading its
 * parameters with a schema of the same shape that bounds nothing. The workings are not read:
 * that is how checks and sheets use the library.
 */
import { bench, describe } from 'vitest';
import { z } from 'zod';
import { hobbing, type HobbingInput } from '../../server/src/trade/hobbing.ts';

const spur: HobbingInput = {
  units: 'mm', normalModule: 3, teeth: 24, helixAngleDegrees: 0, gearHand: 1, normalPressureAngleDegrees: 20, profileShift: 0, faceWidth: 30, flankClass: 8,
  hobTipDiameter: 80, hobStarts: 1, hobHand: 1, hobGashes: 12, cuttingSpeed: 70, feedPerWorkRevolution: 2.5, cuts: 1, climb: true, clearance: 2, shift: 0, hobSide: 1, workRotationSense: 1,
};
const helical: HobbingInput = { ...spur, teeth: 30, helixAngleDegrees: 20, shift: 5, cuts: 2 };

const schema = z.object(Object.fromEntries(Object.entries(spur).map(([name, value]) => [name, emptyField(value)])));

function emptyField(value: string | number | boolean): z.ZodType {
  if (typeof value === 'number') return z.number();
  return typeof value === 'boolean' ? z.boolean() : z.string();
}

describe('hobbing, all quantities', () => {
  bench('parameters through a schema without bounds', () => {
    schema.parse(spur);
  });

  bench('spur gear, one cut', () => {
    hobbing(spur);
  });

  bench('helical gear, two cuts', () => {
    hobbing(helical);
  });

  bench('spur gear, with every working read', () => {
    Object.values(hobbing(spur)).forEach((quantity) => quantity.working);
  });
});
