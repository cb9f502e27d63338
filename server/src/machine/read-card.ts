/**
 * Reads a machine card from text. The result is a card, or problems that each
 * name a place in the text; it never throws. Whoever calls keeps the last good
 * card: this module keeps nothing.
 */
import { findNodeAtLocation, parse, parseTree, printParseErrorCode, type Node, type ParseError } from 'jsonc-parser';
import type * as z from 'zod';
import { machineCardSchema, type MachineCard } from './card.ts';

export interface CardProblem {
  /** 'syntax': not JSON; 'content': JSON that is no machine card. */
  kind: 'syntax' | 'content';
  /** Offsets in the text. */
  start: number;
  end: number;
  /** The key path, as in `codes.syncOn`; empty for the whole card. */
  path: string;
  message: string;
}

export type CardReading = { card: MachineCard; problems: [] } | { card?: undefined; problems: CardProblem[] };

/** Reads and checks a card. Only the first syntax problem is given: those behind it follow from it. */
export function readCard(text: string): CardReading {
  const errors: ParseError[] = [];
  const data: unknown = parse(text, errors, { allowTrailingComma: true });
  const [first] = errors;
  if (first) return { problems: [syntaxProblem(first)] };
  const parsed = machineCardSchema.safeParse(data);
  if (parsed.success) return { card: parsed.data, problems: [] };
  const root = parseTree(text, [], { allowTrailingComma: true });
  return { problems: parsed.error.issues.flatMap((issue) => contentProblems(issue, data, root)) };
}

function syntaxProblem(error: ParseError): CardProblem {
  const what = printParseErrorCode(error.error).replace(/([a-z])([A-Z])/g, '$1 $2').toLowerCase();
  const end = error.offset + Math.max(1, error.length);
  return { kind: 'syntax', start: error.offset, end, path: '', message: `The card is not valid JSON here: ${what}.` };
}

function contentProblems(issue: z.core.$ZodIssue, data: unknown, root: Node | undefined): CardProblem[] {
  if (issue.code === 'unrecognized_keys') return issue.keys.map((key) => unknownKey(key, issue.path, data, root));
  if (issue.code === 'invalid_key') return issue.issues.map((inner) => problemAt([...issue.path], `${describe(issue.path)} ${inner.message}`, root, true));
  return [problemAt(issue.path, explain(issue, data), root, false)];
}

function unknownKey(key: string, path: readonly PropertyKey[], data: unknown, root: Node | undefined): CardProblem {
  const where = path.length === 0 ? 'a machine card' : describe(path);
  const known = knownKeys(path, data);
  const hint = known.length === 0 ? '' : ` Allowed: ${known.join(', ')}.`;
  return problemAt([...path, key], `"${key}" is not a key of ${where}.${hint}`, root, true);
}

/** The keys that may stand at a path. The schema itself is asked, so the list cannot go stale. */
function knownKeys(path: readonly PropertyKey[], data: unknown): string[] {
  const { shape } = schemaAt(path, data);
  return shape ? Object.keys(shape).filter((key) => key !== '$schema') : [];
}

function schemaAt(path: readonly PropertyKey[], data: unknown): Definition {
  let schema: unknown = machineCardSchema;
  let value = data;
  for (const step of path) {
    value = (value as Record<PropertyKey, unknown> | undefined)?.[step];
    schema = unwrap(childSchema(schema, step), value);
  }
  return schema as Definition;
}

interface Definition {
  description?: string;
  def?: { innerType?: unknown; element?: unknown; options?: unknown[]; type?: string };
  shape?: Record<PropertyKey, unknown>;
}

function childSchema(schema: unknown, step: PropertyKey): unknown {
  const { def, shape } = (schema ?? {}) as Definition;
  return typeof step === 'number' ? def?.element : shape?.[step];
}

/** Takes off defaults and optionals, and picks the member of a union that `kind` names. */
function unwrap(schema: unknown, value?: unknown): unknown {
  const definition = (schema as Definition | undefined)?.def;
  if (definition?.innerType !== undefined) return unwrap(definition.innerType, value);
  if (definition?.options === undefined) return schema ?? {};
  const kind = (value as { kind?: unknown } | undefined)?.kind;
  return definition.options.find((option) => kindOf(option) === kind) ?? {};
}

function kindOf(schema: unknown): unknown {
  const kind = (schema as Definition).shape?.['kind'] as { value?: unknown } | undefined;
  return kind?.value;
}

function problemAt(path: readonly PropertyKey[], message: string, root: Node | undefined, onKey: boolean): CardProblem {
  const node = root && nodeAt(root, path);
  const marked = onKey ? (node?.parent?.children?.[0] ?? node) : node;
  const start = marked?.offset ?? 0;
  return { kind: 'content', start, end: start + (marked?.length ?? 1), path: path.map(String).join('.'), message };
}

/** The node at a path, or the nearest one above it that exists (for a key that is missing). */
function nodeAt(root: Node, path: readonly PropertyKey[]): Node {
  const steps = path.filter((step): step is string | number => typeof step !== 'symbol');
  for (let length = steps.length; length > 0; length -= 1) {
    const node = findNodeAtLocation(root, steps.slice(0, length));
    if (node) return node;
  }
  return root;
}

function describe(path: readonly PropertyKey[]): string {
  return path.map(String).join('.');
}

function explain(issue: z.core.$ZodIssue, data: unknown): string {
  const name = describe(issue.path) || 'the card';
  const value = valueAt(data, issue.path);
  if (issue.code === 'too_small' || issue.code === 'too_big') return `${name}: ${JSON.stringify(value)} is not allowed: ${sentence(issue)} ${schemaAt(issue.path, data).description ?? ''}`.trim();
  return value === undefined ? `${name} is missing: ${sentence(issue)}` : `${name}: ${JSON.stringify(value)} is not allowed: ${sentence(issue)}`;
}

function valueAt(data: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>((value, step) => (value as Record<PropertyKey, unknown> | undefined)?.[step], data);
}

/** The allowed range in words. Union problems speak for their last member: the one that a plain value was meant to be. */
function sentence(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case 'too_small':
      return `it must be ${issue.inclusive === false ? 'more than' : 'at least'} ${issue.minimum}${unitOf(issue.origin)}.`;
    case 'too_big':
      return `it must be ${issue.inclusive === false ? 'less than' : 'at most'} ${issue.maximum}${unitOf(issue.origin)}.`;
    case 'invalid_value':
      return `it must be ${issue.values.map((each) => JSON.stringify(each)).join(' or ')}.`;
    case 'invalid_type':
      return `it must be ${articleFor(issue.expected)}.`;
    case 'invalid_union':
      return issue.discriminator === 'kind' ? 'its kind must be "hobbing" or "stroke" or "highSpeed".' : unionSentence(issue);
    default:
      return `${issue.message}.`;
  }
}

function unionSentence(issue: z.core.$ZodIssueInvalidUnion): string {
  const members = issue.errors.map((errors) => errors[0]).filter((each) => each !== undefined);
  return members.map((each) => sentence({ ...each, path: [] } as z.core.$ZodIssue).replace(/\.$/, '')).join(', or ') + '.';
}

function unitOf(origin: string): string {
  return origin === 'string' ? ' characters long' : origin === 'array' ? ' entries long' : '';
}

function articleFor(type: string): string {
  const names: Record<string, string> = { int: 'a whole number', number: 'a number', string: 'a text', boolean: 'true or false', object: 'an object in braces', array: 'a list in brackets', tuple: 'a list of two numbers', record: 'an object in braces' };
  return names[type] ?? type;
}
