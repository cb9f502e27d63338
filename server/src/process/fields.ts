/**
 * The parameters of a process as data: name, label, unit, help, bounds, default.
 * The parameter sheet, the note, its checks, completion and the JSON schema all
 * derive from these definitions; nothing else lists a process's parameters.
 *
 * This module knows what a value may be, not what it is for.
 */
import * as z from 'zod';
import { MILLIMETRES_PER_INCH } from '../trade/lengths.ts';
import type { Units } from '../trade/quantity.ts';

/** What a number measures. It decides the unit shown, and whether bounds scale with inch programs. */
export type Dimension = 'length' | 'feedPerRevolution' | 'feedPerMinute' | 'feedPerStroke' | 'chipLoad' | 'module' | 'diametralPitch' | 'angle' | 'rpm' | 'surfaceSpeed' | 'seconds' | 'count' | 'number';

/** A figure that is the same everywhere, or one for each unit system where a plain conversion would give an odd number. */
export type PerUnits = number | { readonly mm: number; readonly inch: number };

interface Described {
  readonly label: string;
  readonly help: string;
  /** May be left out although it has no default: then it is computed, or another parameter stands for it. */
  readonly optional?: true;
  /** What stands in the sheet where nothing is given and there is no default. */
  readonly absent?: string;
}

export interface NumberField extends Described {
  readonly kind: 'number';
  readonly dimension: Dimension;
  /** Bounds in mm (or m/min) for the dimensions that scale; plain otherwise. */
  readonly least?: number;
  readonly above?: number;
  readonly most: number;
  readonly whole?: true;
  readonly default?: PerUnits;
}

export interface ChoiceField extends Described {
  readonly kind: 'choice';
  readonly choices: readonly string[];
  readonly default?: string;
}

export interface TextField extends Described {
  readonly kind: 'text';
  readonly longest: number;
  /** For texts that must have a form: the form and its description in words. */
  readonly form?: { readonly pattern: RegExp; readonly words: string };
  readonly default?: string;
}

export type Field = NumberField | ChoiceField | TextField;
export type Fields = Readonly<Record<string, Field>>;

type Raw<F extends Field> = F extends { kind: 'number' } ? number : F extends { kind: 'choice'; choices: readonly (infer C)[] } ? C : string;
/** The values of a field list after checking: defaults filled in, optional ones possibly undefined. */
export type Values<F extends Fields> = { [K in keyof F]: F[K] extends { optional: true } ? Raw<F[K]> | undefined : Raw<F[K]> };

/** Values as a note, a command line or the sheet gives them: text, not yet checked. */
export type RawValues = Readonly<Record<string, string>>;

export interface FieldProblem {
  parameter: string;
  rule: 'unknown-parameter' | 'missing-parameter' | 'bad-value';
  message: string;
}

const metresPerMinutePerFoot = 0.3048;

const unitNames: Record<Dimension, Record<Units, string>> = {
  length: { mm: 'mm', inch: 'inch' },
  feedPerRevolution: { mm: 'mm/rev', inch: 'inch/rev' },
  feedPerMinute: { mm: 'mm/min', inch: 'inch/min' },
  feedPerStroke: { mm: 'mm/stroke', inch: 'inch/stroke' },
  chipLoad: { mm: 'mm/tooth', inch: 'inch/tooth' },
  module: { mm: 'mm', inch: 'mm' },
  diametralPitch: { mm: '1/inch', inch: '1/inch' },
  angle: { mm: 'deg', inch: 'deg' },
  rpm: { mm: 'rev/min', inch: 'rev/min' },
  surfaceSpeed: { mm: 'm/min', inch: 'ft/min' },
  seconds: { mm: 's', inch: 's' },
  count: { mm: '', inch: '' },
  number: { mm: '', inch: '' },
};

export function unitOf(field: Field, units: Units): string {
  return field.kind === 'number' ? unitNames[field.dimension][units] : '';
}

/** Dimensions whose bounds scale with the unit of length. */
const lengthDimensions: readonly Dimension[] = ['length', 'feedPerRevolution', 'feedPerMinute', 'feedPerStroke', 'chipLoad'];

/** A bound in the program's units. Inch bounds are the converted metric ones, rounded to four figures so that they read well. */
function inUnits(bound: number, dimension: Dimension, units: Units): number {
  if (units === 'mm') return bound;
  if (dimension === 'surfaceSpeed') return Number((bound / metresPerMinutePerFoot).toPrecision(4));
  return lengthDimensions.includes(dimension) ? Number((bound / MILLIMETRES_PER_INCH).toPrecision(4)) : bound;
}

export function bounds(field: NumberField, units: Units): { least?: number; above?: number; most: number } {
  const scale = (bound: number) => inUnits(bound, field.dimension, units);
  return {
    ...(field.least === undefined ? {} : { least: scale(field.least) }),
    ...(field.above === undefined ? {} : { above: scale(field.above) }),
    most: scale(field.most),
  };
}

/** The allowed range in words, as every message about a value gives it. */
export function allowedRange(field: Field, units: Units): string {
  if (field.kind === 'choice') return field.choices.join(' or ');
  if (field.kind === 'text') return field.form?.words ?? `a text of 1 to ${field.longest} characters`;
  const { least, above, most } = bounds(field, units);
  const from = above === undefined ? `from ${least} ` : `more than ${above}, `;
  const to = above === undefined ? `to ${most}` : `at most ${most}`;
  return `${field.whole ? 'a whole number ' : ''}${from}${to}${unitSuffix(field, units)}`;
}

function unitSuffix(field: Field, units: Units): string {
  const unit = unitOf(field, units);
  return unit === '' ? '' : ` ${unit}`;
}

/** The default in the program's units, as text; undefined where the field has none. */
export function defaultText(field: Field, units: Units): string | undefined {
  if (field.default === undefined) return undefined;
  if (typeof field.default === 'object') return String(field.default[units]);
  return String(field.default);
}

const schemas: Readonly<Record<Units, WeakMap<Field, z.ZodType>>> = { mm: new WeakMap(), inch: new WeakMap() };

/** The zod schema of one field, made once: making one takes far longer than using it. */
export function fieldSchema(field: Field, units: Units): z.ZodType {
  const known = schemas[units].get(field);
  if (known) return known;
  const schema = schemaOf(field, units);
  schemas[units].set(field, schema);
  return schema;
}

function schemaOf(field: Field, units: Units): z.ZodType {
  if (field.kind === 'choice') return z.enum(field.choices as [string, ...string[]]);
  if (field.kind === 'text') return textSchema(field);
  const { least, above, most } = bounds(field, units);
  let schema = field.whole ? z.int().max(most) : z.number().max(most);
  if (least !== undefined) schema = schema.min(least);
  if (above !== undefined) schema = schema.gt(above);
  return schema;
}

function textSchema(field: TextField): z.ZodType {
  const schema = z.string().min(1).max(field.longest);
  return field.form ? schema.regex(field.form.pattern) : schema;
}

const numeral = /^[-+]?(?:\d+\.?\d*|\.\d+)$/;

/** Reads a number as programs write it: a leading or a trailing zero may be missing. Undefined when it is none. */
export function readNumber(text: string): number | undefined {
  const trimmed = text.trim();
  return numeral.test(trimmed) ? Number(trimmed) : undefined;
}

/**
 * Checks raw values against the fields and fills in defaults. `fallback` gives
 * defaults that the machine card knows better than the field list.
 * Values are present only when there is no problem; `readable` holds those that
 * could be read in any case.
 */
export function readValues<F extends Fields>(
  fields: F,
  raw: RawValues,
  units: Units,
  fallback: RawValues = {},
): { values?: Values<F>; readable: Partial<Values<F>>; problems: FieldProblem[] } {
  const problems: FieldProblem[] = unknownNames(fields, raw);
  const values: Record<string, unknown> = {};
  for (const [name, field] of Object.entries(fields)) {
    const text = raw[name] ?? fallback[name] ?? defaultText(field, units);
    if (text === undefined) {
      if (!field.optional) problems.push(missing(name, field, units));
      continue;
    }
    const value = readField(field, text, units);
    if (value === undefined) problems.push(badValue(name, text, allowedRange(field, units)));
    else values[name] = value;
  }
  const readable = values as Partial<Values<F>>;
  return problems.length === 0 ? { values: values as Values<F>, readable, problems } : { readable, problems };
}

function readField(field: Field, text: string, units: Units): string | number | undefined {
  const value = field.kind === 'number' ? readNumber(text) : field.kind === 'choice' ? text.trim().toUpperCase() : text;
  const parsed = fieldSchema(field, units).safeParse(value);
  return parsed.success ? (parsed.data as string | number) : undefined;
}

function unknownNames(fields: Fields, raw: RawValues): FieldProblem[] {
  return Object.keys(raw)
    .filter((name) => !(name in fields))
    .map((name) => ({ parameter: name, rule: 'unknown-parameter', message: `${name} is not a parameter here. Allowed: ${Object.keys(fields).join(', ')}.` }));
}

function missing(name: string, field: Field, units: Units): FieldProblem {
  return { parameter: name, rule: 'missing-parameter', message: `${name} is missing: ${field.label.toLowerCase()}, ${allowedRange(field, units)}.` };
}

export function badValue(name: string, value: string | number, allowed: string): FieldProblem {
  const fault = String(value).trim() === '' ? `${name} has no value` : `${name}: ${value} is not allowed`;
  return { parameter: name, rule: 'bad-value', message: `${fault}: it must be ${allowed}.` };
}

/** The JSON schema of a field list, for documentation and other tools. */
export function fieldsJsonSchema(fields: Fields, units: Units): object {
  const shape = Object.entries(fields).map(([name, field]) => {
    const schema = fieldSchema(field, units).describe(`${field.label}${unitSuffix(field, units) && `,${unitSuffix(field, units)}`}. ${field.help}`);
    return [name, field.optional || field.default !== undefined ? schema.optional() : schema] as const;
  });
  return z.toJSONSchema(z.strictObject(Object.fromEntries(shape)));
}
