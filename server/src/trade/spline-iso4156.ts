import { OutOfRange } from './quantity.ts';

/** ISO 4156 is refused as a whole: none of its text could be read, and a spline from memory fits by luck only. */
export function iso4156Spline(): never {
  throw new OutOfRange(
    'splineStandard',
    'ISO 4156',
    'DIN 5480 or ANSI B92.1, or a gear given by module, teeth, pressure angle, tip diameter and depth',
    'the basic data of ISO 4156 are not verified',
  );
}
