/**
 * The JSON schema of the machine card, generated from the one zod schema.
 *
 * Two forms are made. The strict one is for anybody's tools. The editor's form
 * helps to write a card (keys, descriptions, choices) and leaves the judging to
 * the language server, so that a mistake is marked once and with one wording.
 */
import * as z from 'zod';
import { machineCardSchema } from './card.ts';

type Schema = Record<string, unknown>;

export function strictCardSchema(): Schema {
  return z.toJSONSchema(machineCardSchema, { io: 'input', unrepresentable: 'any' }) as Schema;
}

const judging = ['type', 'enum', 'const', 'required', 'additionalProperties', 'minimum', 'maximum', 'exclusiveMinimum', 'exclusiveMaximum', 'minLength', 'maxLength', 'minItems', 'maxItems', 'pattern', 'propertyNames', 'format'];

export function editorCardSchema(): Schema {
  return { ...(soften(strictCardSchema()) as Schema), title: 'Machine card', allowComments: true, allowTrailingCommas: true };
}

function soften(node: unknown): unknown {
  if (Array.isArray(node)) return node.map(soften);
  if (typeof node !== 'object' || node === null) return node;
  const schema = node as Schema;
  const kept = Object.fromEntries(Object.entries(schema).filter(([key]) => !judging.includes(key)).map(([key, value]) => [key, key === 'properties' ? softenEach(value as Schema) : soften(value)]));
  const choices = choicesOf(schema);
  return choices.length > 0 ? { ...kept, examples: choices } : kept;
}

/** Under `properties` the keys are names of the card and never keywords of the schema language. */
function softenEach(properties: Schema): Schema {
  return Object.fromEntries(Object.entries(properties).map(([name, schema]) => [name, soften(schema)]));
}

function choicesOf(schema: Schema): unknown[] {
  if (schema['const'] !== undefined) return [schema['const']];
  if (schema['type'] === 'boolean') return [true, false];
  return (schema['enum'] as unknown[] | undefined) ?? [];
}
