/** Flank tolerances of both editions as quantities, in micrometres whatever the drawing's unit. */
import { gearFigure, type GearQuantityId } from './catalogue-gear.ts';
import { flankTolerances, type FlankToleranceInput, type FlankTolerances } from './flank-tolerance.ts';
import { olderFlankTolerances, type OlderFlankTolerances, type OlderToleranceInput } from './flank-tolerance-1995.ts';
import { shown, type Quantity } from './quantity.ts';

/** ISO 1328-1:2013. Throws `OutOfRange` outside its scope. */
export function toleranceData(input: FlankToleranceInput): Record<keyof FlankTolerances, Quantity> {
  const tolerances = flankTolerances(input);
  const make = (id: keyof FlankTolerances): Quantity => toleranceFigure(id, tolerances[id], input.flankClass);
  return {
    singlePitch: make('singlePitch'),
    totalPitch: make('totalPitch'),
    profileSlope: make('profileSlope'),
    profileForm: make('profileForm'),
    profileTotal: make('profileTotal'),
    helixSlope: make('helixSlope'),
    helixForm: make('helixForm'),
    helixTotal: make('helixTotal'),
    runout: make('runout'),
  };
}

/** ISO 1328-1:1995. Throws `OutOfRange` outside the ranges that were checked. */
export function olderToleranceData(input: OlderToleranceInput): Record<`${keyof OlderFlankTolerances}1995`, Quantity> {
  const tolerances = olderFlankTolerances(input);
  const make = (id: keyof OlderFlankTolerances): Quantity => toleranceFigure(`${id}1995`, tolerances[id], input.flankClass);
  return {
    singlePitch1995: make('singlePitch'),
    totalPitch1995: make('totalPitch'),
    profileTotal1995: make('profileTotal'),
    profileForm1995: make('profileForm'),
    profileSlope1995: make('profileSlope'),
    helixTotal1995: make('helixTotal'),
    helixForm1995: make('helixForm'),
    helixSlope1995: make('helixSlope'),
    runout1995: make('runout'),
  };
}

function toleranceFigure(id: GearQuantityId, micrometres: number, flankClass: number): Quantity {
  return gearFigure(id, micrometres, 'mm', () => `class 5 value x sqrt(2)^(${flankClass} - 5), rounded = ${shown(micrometres)}`);
}
