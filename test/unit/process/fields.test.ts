import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { allowedRange, bounds, defaultText, fieldsJsonSchema, readNumber, readValues, unitOf, type NumberField } from '../../../server/src/process/fields.ts';
import { processes } from '../../../server/src/process/processes.ts';
import { inventedCard } from '../../invented-machine.ts';

describe('numbers as programs write them', () => {
  it.each<[string, number | undefined]>([
    ['20', 20], ['20.', 20], ['.5', 0.5], ['-.5', -0.5], ['+3', 3], [' 7 ', 7], ['007', 7],
    ['', undefined], ['.', undefined], ['-', undefined], ['1e3', undefined], ['0x10', undefined], ['1,5', undefined], ['NaN', undefined], ['Infinity', undefined], ['1 2', undefined],
  ])('"%s" is %s', (text, expected) => expect(readNumber(text)).toBe(expected));
});

const allFields = processes.flatMap((process) => Object.entries(process.fields).map(([name, field]) => ({ label: `${process.id} ${name}`, process, name, field })));

describe.each(['mm', 'inch'] as const)('every parameter in %s', (units) => {
  it.each(allFields.map(({ label, field }) => [label, field] as const))('%s: has a label, a help and a range in words', (_label, field) => {
    expect(field.label).toMatch(/^[A-Z]/);
    expect(field.help).toMatch(/[.]$/);
    expect(allowedRange(field, units)).not.toMatch(/undefined|NaN/);
  });

  it.each(allFields.filter(({ field }) => field.default !== undefined).map(({ label, name, field, process }) => [label, name, field, process] as const))('%s: its default is allowed', (_label, name, field, process) => {
    const text = defaultText(field, units) ?? '';
    expect(readValues(process.fields, { [name]: text }, units).problems.filter(({ parameter }) => parameter === name)).toEqual([]);
  });

  it.each(allFields.filter((each): each is typeof each & { field: NumberField } => each.field.kind === 'number').map(({ label, name, field, process }) => [label, name, field, process] as const))('%s: both bounds hold exactly', (_label, name, field, process) => {
    const { least, above, most } = bounds(field, units);
    const faulty = (value: number) => readValues(process.fields, { [name]: value.toFixed(9) }, units).problems.some(({ parameter, rule }) => parameter === name && rule === 'bad-value');
    expect(faulty(most), `${most}`).toBe(false);
    expect(faulty(most + 1), `${most} + 1`).toBe(true);
    if (least !== undefined) expect(faulty(least), `${least}`).toBe(false);
    if (above !== undefined) expect(faulty(above), `${above}`).toBe(true);
    expect(faulty((least ?? above ?? NaN) - 1)).toBe(true);
  });
});

describe('bounds in inch programs', () => {
  const length: NumberField = { kind: 'number', label: 'L', help: '', dimension: 'length', above: 0, most: 1000 };

  it('are the metric ones converted, rounded to four figures', () => {
    expect(allowedRange(length, 'inch')).toBe('more than 0, at most 39.37 inch');
    expect(allowedRange({ ...length, dimension: 'surfaceSpeed', most: 200 }, 'inch')).toBe('more than 0, at most 656.2 ft/min');
  });

  it('stay as they are for what is no length: module, angle, rpm, count', () => {
    for (const dimension of ['module', 'angle', 'rpm', 'count', 'number', 'diametralPitch'] as const) expect(bounds({ ...length, dimension }, 'inch').most).toBe(1000);
    expect(unitOf({ ...length, dimension: 'module' }, 'inch')).toBe('mm');
  });
});

describe('reading values', () => {
  const fields = { N: { kind: 'number', label: 'Count', help: '.', dimension: 'count', least: 1, most: 9, whole: true }, C: { kind: 'choice', label: 'Choice', help: '.', choices: ['A', 'B'], default: 'A' } } as const;

  it('fills in defaults, the fallback of the machine before them', () => {
    expect(readValues(fields, { N: '3' }, 'mm').values).toEqual({ N: 3, C: 'A' });
    expect(readValues(fields, { N: '3' }, 'mm', { C: 'B' }).values).toEqual({ N: 3, C: 'B' });
    expect(readValues(fields, { N: '3', C: 'a' }, 'mm', { C: 'B' }).values).toEqual({ N: 3, C: 'A' });
  });

  it('gives one problem for each thing that is wrong, and no values', () => {
    const { values, problems } = readValues(fields, { X: '1', C: 'Z' }, 'mm');
    expect(values).toBeUndefined();
    expect(problems.map(({ parameter, rule }) => [parameter, rule])).toEqual([['X', 'unknown-parameter'], ['N', 'missing-parameter'], ['C', 'bad-value']]);
  });

  it('takes any text without throwing', () => {
    fc.assert(fc.property(fc.constantFrom(...processes), fc.dictionary(fc.oneof(fc.constantFrom(...allFields.map(({ name }) => name)), fc.string()), fc.string()), ({ fields: own }, raw) => {
      const { values, problems } = readValues(own, raw, 'mm');
      expect(values === undefined).toBe(problems.length > 0);
    }));
  });
});

describe('the JSON schema of a process', () => {
  it.each(processes.map((process) => [process.id, process] as const))('%s: names every parameter and requires those without a default', (_id, { fields }) => {
    const schema = fieldsJsonSchema(fields, 'mm') as { properties: Record<string, { description: string }>; required: string[]; additionalProperties: boolean };
    expect(Object.keys(schema.properties)).toEqual(Object.keys(fields));
    expect(schema.required).toEqual(Object.entries(fields).filter(([, field]) => field.default === undefined && !field.optional).map(([name]) => name));
    expect(schema.additionalProperties).toBe(false);
    for (const { description } of Object.values(schema.properties)) expect(description).toMatch(/[.]$/);
  });
});

describe('wild values', () => {
  it.each(processes.map((process) => [process.id, process] as const))('%s: evaluate and compose answer with problems or finite figures, and never throw', (_id, process) => {
    const number = fc.oneof(fc.double({ noDefaultInfinity: true, noNaN: true, min: -1e4, max: 1e4 }).map((value) => value.toFixed(4)), fc.integer({ min: 0, max: 50 }).map(String), fc.constantFrom('0', '.0001', '1', '1000', '', 'x'));
    const raw = fc.record(Object.fromEntries(Object.entries(process.fields).map(([name, field]) => [name, field.kind === 'choice' ? fc.constantFrom(...field.choices) : field.kind === 'text' ? fc.constantFrom('JS9', 'P9', 'CLASS1', 'AB 1', '\u00e9') : number])), { requiredKeys: [] });
    fc.assert(fc.property(raw, fc.constantFrom('mm', 'inch'), (values, units) => {
      const setting = { units, card: inventedCard } as const;
      const { quantities, problems } = process.evaluate(values as Record<string, string>, setting);
      for (const { id, value, working } of quantities) {
        expect(Number.isFinite(value), id).toBe(true);
        expect(working, id).not.toMatch(/NaN|undefined|Infinity/);
      }
      expect(quantities.length > 0 || problems.length > 0).toBe(true);
      const { lines } = process.compose(values as Record<string, string>, setting);
      for (const line of lines) expect(line.kind === 'block' ? line.words : line.text).not.toMatch(/NaN|undefined|Infinity|e[+-]\d/);
    }), { numRuns: 300 });
  });
});
