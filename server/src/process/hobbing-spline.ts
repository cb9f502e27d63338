/**
 * A spline named by its standard, as the values of a hobbing note. It knows how
 * designations are written and which standards the trade library can answer for;
 * the sizes themselves come from there. What is not verified is refused.
 */
import { MILLIMETRES_PER_INCH } from '../trade/lengths.ts';
import type { GearInput } from '../trade/gear.ts';
import { OutOfRange, type Units } from '../trade/quantity.ts';
import { b92ShaftAsGear, type B92Form } from '../trade/spline-b92.ts';
import { din5480ShaftAsGear } from '../trade/spline-din5480.ts';
import { iso4156Spline } from '../trade/spline-iso4156.ts';
import type { RawValues } from './fields.ts';
import type { Problem } from './process.ts';

const gap = String.raw`[\s-]*`;
const figure = String.raw`(\d+(?:\.\d+)?)`;
const din5480 = new RegExp(`^DIN${gap}5480${gap}([WN])${gap}${figure}${gap}X${gap}${figure}${gap}X${gap}(\\d+)$`, 'i');
const b92 = new RegExp(String.raw`^B92\.1[\s-]+${figure}/${figure}[\s-]+N?${gap}(\d+)[\s-]+${figure}[\s-]+(FLAT|FILLET)$`, 'i');
const iso4156 = /^ISO[\s-]*4156\b.*$/i;

/** How a spline is named in a note. Parts are set off by hyphens, or by spaces inside quotes. */
export const splineDesignation = {
  pattern: new RegExp([din5480, b92, iso4156].map(({ source }) => `(?:${source})`).join('|'), 'i'),
  words: 'like DIN5480-W30X2X14 (reference diameter, module, teeth) or B92.1-16/32-N15-30-FLAT (pitch, teeth, pressure angle, FLAT or FILLET root)',
} as const;

/** The parameters that a spline gives. */
const givenNames = ['MODULE', 'DP', 'TEETH', 'PRESSURE-ANGLE', 'PROFILE-SHIFT', 'TIP-DIA', 'DEPTH'] as const;

/**
 * Stands in for a spline that cannot be used. Nothing is computed from it: the
 * error on SPLINE refuses the note, and stands alone only if no value is missing.
 */
const standIn: RawValues = { MODULE: '1', TEETH: '20' };

/** The values of the note that a spline gives, in the program's units. */
export function splineValues(designation: string, units: Units): RawValues {
  const found = splineOf(designation, units);
  return 'values' in found ? found.values : standIn;
}

/** What is wrong with the spline, or with values beside it that say something else. */
export function splineProblems(designation: string, units: Units, beside: Readonly<Record<string, unknown>>): Problem[] {
  const found = splineOf(designation, units);
  if ('refusal' in found) return [wrong('SPLINE', `SPLINE: ${designation} is not allowed: it must be ${found.refusal}.`)];
  return [...givenNames.flatMap((name) => contradiction(name, beside[name], found.values, designation)), ...helixProblem(beside['HELIX'], designation)];
}

type SplineReading = { values: RawValues } | { refusal: string };

function splineOf(designation: string, units: Units): SplineReading {
  try {
    const gear = gearOf(designation.trim());
    return typeof gear === 'string' ? { refusal: gear } : { values: valuesOf(gear, units) };
  } catch (error) {
    if (!(error instanceof OutOfRange)) throw error;
    return { refusal: `${refusedPart(error.parameter)}${error.allowed}${error.reason ? ` (${error.reason})` : ''}` };
  }
}

/** The trade library names its own inputs; the reader of a note knows the parts of the designation. */
function refusedPart(input: string): string {
  const parts: Record<string, string> = { splineReferenceDiameter: 'of a reference diameter of ', module: 'of a module of ', teeth: 'of a number of teeth that is ', pitch: 'of a pitch of ' };
  return parts[input] ?? '';
}

/** The shaft as a gear, or in words what the designation must be instead. */
function gearOf(designation: string): GearInput | string {
  const din = din5480.exec(designation);
  if (din) return din5480Gear(din);
  const inch = b92.exec(designation);
  if (inch) return b92Gear(inch);
  return iso4156.test(designation) ? iso4156Spline() : splineDesignation.words;
}

function din5480Gear([, part, diameter, module, teeth]: RegExpExecArray): GearInput | string {
  if (part?.toUpperCase() === 'N') return 'a shaft, W: a hob cuts no hub';
  return din5480ShaftAsGear({ splineReferenceDiameter: Number(diameter), module: Number(module), teeth: Number(teeth), cutting: 'hobbed' });
}

/** By pressure angle and root. The two side and major diameter fits differ in the hub only, so one shaft serves both. */
const b92Forms: Readonly<Record<string, B92Form>> = { '30 FLAT': '30 degree flat root side fit', '30 FILLET': '30 degree fillet root', '37.5 FILLET': '37.5 degree fillet root' };

function b92Gear([, pitch, stubPitch, teeth, angle, root]: RegExpExecArray): GearInput | string {
  if (Number(stubPitch) !== 2 * Number(pitch)) return `of a second pitch figure twice the first: ${pitch}/${2 * Number(pitch)}`;
  const form = b92Forms[`${Number(angle)} ${root?.toUpperCase()}`];
  if (form === undefined) return 'of 30 degrees with FLAT or FILLET root, or of 37.5 degrees with FILLET root (the data of other forms are not verified)';
  return b92ShaftAsGear({ form, teeth: Number(teeth), pitch: Number(pitch) });
}

/** An inch spline is given by its pitch, which is exact; its module would not be. */
function valuesOf(gear: GearInput, units: Units): RawValues {
  const factor = gear.units === units ? 1 : gear.units === 'mm' ? 1 / MILLIMETRES_PER_INCH : MILLIMETRES_PER_INCH;
  const length = (value: number | undefined) => plain((value ?? NaN) * factor);
  return {
    ...(gear.units === 'mm' ? { MODULE: plain(gear.normalModule) } : { DP: plain(1 / gear.normalModule) }),
    TEETH: plain(gear.teeth),
    'PRESSURE-ANGLE': plain(gear.normalPressureAngleDegrees),
    'PROFILE-SHIFT': plain(gear.profileShift),
    'TIP-DIA': length(gear.tipDiameter),
    DEPTH: length(gear.depth),
  };
}

/** Ten decimals, without the trailing zeros and without an exponent, as a note writes a number. */
function plain(value: number): string {
  return value.toFixed(10).replace(/\.?0+$/, '').replace(/^-0$/, '0');
}

function contradiction(name: string, beside: unknown, values: RawValues, designation: string): Problem[] {
  if (beside === undefined) return [];
  const wanted = values[name];
  if (wanted !== undefined && Math.abs(Number(beside) - Number(wanted)) <= 1e-6) return [];
  const says = wanted === undefined ? 'needs none' : `gives ${wanted}`;
  return [wrong(name, `${name}: ${String(beside)} is not allowed: ${designation} ${says}. Leave ${name} out, or leave SPLINE out and give all sizes.`)];
}

function helixProblem(helix: unknown, designation: string): Problem[] {
  if (helix === undefined || helix === 0) return [];
  return [wrong('HELIX', `HELIX: ${String(helix)} is not allowed: the teeth of ${designation} are straight, so it must be 0.`)];
}

function wrong(parameter: string, message: string): Problem {
  return { parameter, rule: 'bad-value', severity: 'error', message };
}
