import { MILLIMETRES_PER_INCH } from '../trade/lengths.ts';
import { shown, type Units } from '../trade/quantity.ts';

/** How a finding tells a length: in the units of the program, though the cut itself counts in mm. */
export interface Told {
  /** With its unit. */
  size(millimetres: number, decimals?: number): string;
  /** As a word of the program carries it, without a unit. */
  place(millimetres: number, decimals?: number): string;
}

/** Decimals are those of mm; an inch gets one more. */
export function toldIn(units: Units = 'mm'): Told {
  const place = (millimetres: number, decimals = 3): string => (units === 'mm' ? shown(millimetres, decimals) : shown(millimetres / MILLIMETRES_PER_INCH, decimals + 1));
  return { place, size: (millimetres, decimals) => `${place(millimetres, decimals)} ${units}` };
}
