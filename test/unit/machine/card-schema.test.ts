import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { editorCardSchema, strictCardSchema } from '../../../server/src/machine/card-schema.ts';
import { machineCardSchema } from '../../../server/src/machine/card.ts';
import { readCard } from '../../../server/src/machine/read-card.ts';

interface Schema {
  properties?: Record<string, Schema>;
  additionalProperties?: unknown;
  description?: string;
  examples?: unknown[];
  items?: Schema;
  oneOf?: Schema[];
  [keyword: string]: unknown;
}

const strict = strictCardSchema() as Schema;
const forEditors = editorCardSchema() as Schema;

/** Every schema inside, by its path of keys. */
function* within(schema: Schema, path = ''): Generator<[string, Schema]> {
  yield [path, schema];
  for (const [name, inner] of Object.entries(schema.properties ?? {})) yield* within(inner, path === '' ? name : `${path}.${name}`);
  for (const inner of schema.oneOf ?? []) yield* within(inner, path);
  if (schema.items && !Array.isArray(schema.items)) yield* within(schema.items, `${path}[]`);
}

/** The keys that zod itself accepts at the top and in each group. */
const keysOfZod = {
  '': Object.keys(machineCardSchema.shape),
  codes: Object.keys(machineCardSchema.shape.codes.unwrap().shape),
  limits: Object.keys(machineCardSchema.shape.limits.unwrap().shape),
  senses: Object.keys(machineCardSchema.shape.senses.unwrap().shape),
};

describe.each([['strict', strict], ['for editors', forEditors]])('the JSON schema, %s', (_name, schema) => {
  it.each(Object.entries(keysOfZod))('has at "%s" the keys of the card, no more and no less', (path, keys) => {
    const [, found] = [...within(schema)].find(([each]) => each === path) ?? [];
    expect(Object.keys(found?.properties ?? {}).sort()).toEqual([...keys].sort());
  });

  it('describes every key', () => {
    const bare = [...within(schema)].filter(([path, { description }]) => path !== '' && path !== '$schema' && !/\.(kind)$/.test(path) && path !== 'toolUnits[]' && description === undefined && !path.includes('[]'));
    expect(bare.map(([path]) => path)).toEqual([]);
  });
});

describe('the JSON schema', () => {
  it('for tools refuses what the reader refuses: unknown keys everywhere', () => {
    const objects = [...within(strict)].filter(([, { properties }]) => properties !== undefined);
    expect(objects.length).toBeGreaterThan(6);
    for (const [path, { additionalProperties }] of objects) expect(additionalProperties, path).toBe(false);
  });

  it('for editors judges nothing, so that a mistake is marked once', () => {
    const judging = ['required', 'additionalProperties', 'minimum', 'maximum', 'enum', 'const', 'pattern', 'type', 'minItems', 'maxLength'];
    for (const [path, schema] of within(forEditors)) expect(Object.keys(schema).filter((keyword) => judging.includes(keyword)), path).toEqual([]);
  });

  it('for editors offers the choices and allows comments, as the reader does', () => {
    expect(forEditors.properties?.['units']?.examples).toEqual(['mm', 'inch']);
    expect(forEditors.properties?.['diameterProgramming']?.examples).toEqual([true, false]);
    expect(forEditors).toMatchObject({ allowComments: true, allowTrailingCommas: true });
    expect(readCard('{ "name": "M", /* here */ }').problems).toEqual([]);
  });

  it('that the build wrote is the one of the source', () => {
    const built: unknown = JSON.parse(readFileSync(new URL('../../../server/dist/machine-card.schema.json', import.meta.url), 'utf8'));
    expect(built).toEqual(JSON.parse(JSON.stringify(forEditors)));
  });

  it('is what the extension contributes for machine cards', () => {
    const { contributes } = JSON.parse(readFileSync(new URL('../../../package.json', import.meta.url), 'utf8')) as { contributes: { jsonValidation: unknown } };
    expect(contributes.jsonValidation).toEqual([{ fileMatch: '*.machine.json', url: './server/dist/machine-card.schema.json' }]);
  });
});
