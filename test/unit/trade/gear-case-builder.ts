/**
 * Shorthand for the gear side's checks: one case of a source gives many figures
 * for the same input, so the input and the source are written once.
 */
import type { Standing } from '../../../server/src/trade/standing.ts';
import type { GearInput } from '../../../server/src/trade/gear.ts';
import type { HobbingInput } from '../../../server/src/trade/hobbing.ts';
import type { Quantity } from '../../../server/src/trade/quantity.ts';
import type { Check } from './checks.ts';

/** Expected value as printed, so that its decimals count; a string keeps the trailing zeros. */
export type Printed = Readonly<Record<string, string>>;

export interface Origin {
  readonly case: string;
  readonly source: string;
  readonly standing: Standing;
}

/** One check for each printed figure of a case. */
export function figuresOfCase<Input>(origin: Origin, inputs: Input, printed: Printed): Check<Input>[] {
  return Object.entries(printed).map(([id, text]) => ({
    ...origin,
    id,
    inputs,
    expected: Number(text),
    digits: text.split('.')[1]?.length ?? 0,
  }));
}

/** The value of one quantity out of a record; a missing one is a failure, not a pass. */
export function valueOf(record: object, id: string): number {
  const quantity = (record as Readonly<Record<string, Quantity | undefined>>)[id];
  if (quantity === undefined) throw new Error(`no quantity ${id}`);
  return quantity.value;
}

/** A spur gear of module 3 with 24 teeth, changed by what a case gives. */
export function gearInput(changes: Partial<GearInput> = {}): GearInput {
  return {
    units: 'mm',
    normalModule: 3,
    teeth: 24,
    helixAngleDegrees: 0,
    gearHand: 1,
    normalPressureAngleDegrees: 20,
    profileShift: 0,
    ...changes,
  };
}

/** That gear under an 80 mm hob at 70 m/min, changed by what a case gives. */
export function hobbingInput(changes: Partial<HobbingInput> = {}): HobbingInput {
  return {
    ...gearInput(),
    faceWidth: 30,
    flankClass: 8,
    hobTipDiameter: 80,
    hobStarts: 1,
    hobHand: 1,
    hobGashes: 12,
    ...(changes.hobRpm === undefined ? { cuttingSpeed: 70 } : {}),
    feedPerWorkRevolution: 2.5,
    cuts: 1,
    climb: true,
    clearance: 2,
    shift: 0,
    hobSide: 1,
    workRotationSense: 1,
    ...changes,
  };
}
