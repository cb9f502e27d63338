/**
 * What every process is: a field list, a computation, a composition and checks,
 * all in one file of its own beside this one. Editor services, command line and
 * documentation see processes only through this interface.
 */
import type { MachineCard } from '../machine/card.ts';
import { OutOfRange, type Quantity, type Units } from '../trade/quantity.ts';
import { readValues, type Fields, type RawValues, type Values } from './fields.ts';
import type { ProcessRuleId } from './rules.ts';

export type Severity = 'error' | 'warning' | 'information';

export interface Problem {
  /** The parameter that carries the problem; undefined when it is none of one parameter. */
  parameter?: string;
  /** The key of the machine card that would settle it, as in `codes.syncOn`. */
  cardKey?: string;
  rule: ProcessRuleId;
  severity: Severity;
  message: string;
}

/** Where a process is evaluated: the program's units and the machine. */
export interface Setting {
  units: Units;
  card: MachineCard;
  /** Modes in force where a block goes in; without them the block assumes absolute dimensions and restores nothing. */
  modes?: ModesInForce;
  /** Given where a block is made for the first time. */
  fresh?: FreshPlace;
}

/** What a new block must know of the program that it goes into. */
export interface FreshPlace {
  /** The numbers of programs that this file holds or calls. */
  programNumbers: ReadonlySet<number>;
  /** It may call a subprogram of its own accord: it goes into the main program, which has an end behind which that can stand. */
  mayCall: boolean;
}

/** What a program has set before the place of a block. */
export interface ModesInForce {
  incremental: boolean;
  feedPerRevolution: boolean;
  inverseTime?: boolean;
  /** The tool in use and its offset, as far as the program says them. */
  tool?: number;
  toolOffset?: number;
  /** The words that a block cannot live with; one that is not in force is left out. */
  compensation?: ModeWord;
  surfaceSpeed?: ModeWord;
  /** The main spindle turns, and is not under position control. */
  spindle?: ModeWord;
  /** The same of the sub-spindle, where the machine card has a word that starts it. */
  subSpindle?: ModeWord;
  /** Both spindles are coupled and turn. */
  coupled?: ModeWord;
  /** The word that ended the coupling, and the spindles that turned until then and that nothing has stopped since. */
  leftTurning?: ModeWord & { main: boolean; sub: boolean };
}

/** A modal word of the program. */
export interface ModeWord {
  word: string;
  /** The 0-based line that set it; undefined where that is not known. */
  line?: number | undefined;
}

/** A line of a composed block before it gets its number, comment style and line end. */
export type BlockLine = { kind: 'comment'; text: string } | { kind: 'block'; words: string; /** A comment behind the words. */ remark?: string };

export interface Evaluation {
  quantities: Quantity[];
  problems: Problem[];
}

export interface Composition {
  lines: BlockLine[];
  /** What stands elsewhere in the program and belongs to the block, which calls it. */
  subprogram?: Subprogram;
  problems: Problem[];
}

/** Lines that run only when they are called: from the program number to the return. */
export interface Subprogram {
  number: number;
  lines: BlockLine[];
}

/** All lines of a composition: those of the block, then those of its subprogram. */
export function allLines({ lines, subprogram }: Pick<Composition, 'lines' | 'subprogram'>): BlockLine[] {
  return [...lines, ...(subprogram?.lines ?? [])];
}

export interface Process {
  /** Lower case, as on the command line. */
  readonly id: string;
  /** Upper case, as in the note. */
  readonly keyword: string;
  readonly title: string;
  readonly summary: string;
  readonly fields: Fields;
  /** The quantities that a word (S, F, T, sync; `F along X` where that is another feed) or a parameter governs, the leading one first. */
  readonly governs: Readonly<Record<string, readonly string[]>>;
  /** The quantities that the parameter sheet keeps in view. */
  readonly keyQuantities: readonly string[];
  /** The checked values by name, with all defaults filled in; undefined where a value is missing or wrong. */
  valuesOf(raw: RawValues, setting: Setting): Readonly<Record<string, unknown>> | undefined;
  /** Defaults that the machine card, or another value, knows better than the field list. */
  betterDefaults(raw: RawValues, setting: Setting): RawValues;
  /** What is usual for a parameter, in a sentence, by its name. Nothing follows from it. */
  hints(raw: RawValues, setting: Setting): Readonly<Record<string, string>>;
  /** The values with what a new block settles once, and its note then keeps, such as the number of its subprogram. */
  settled(raw: RawValues, setting: Setting): RawValues;
  evaluate(raw: RawValues, setting: Setting): Evaluation;
  compose(raw: RawValues, setting: Setting): Composition;
}

interface Definition<F extends Fields> {
  id: string;
  keyword: string;
  title: string;
  summary: string;
  fields: F;
  governs: Record<string, readonly string[]>;
  keyQuantities: readonly string[];
  /** Which note parameter stands for an input field of the trade functions; of several, the one that is given. */
  parameterOf: Record<string, string | readonly string[]>;
  /** Defaults that this machine's card, or another value that is given, knows better than the field list. */
  cardDefaults?(setting: Setting, given: RawValues): RawValues;
  /** What is usual for a parameter, from the values that can be read so far. */
  hints?(values: Partial<Values<F>>, setting: Setting): Readonly<Record<string, string>>;
  /** Values that a new block settles once. Nothing is settled where a value is missing or wrong. */
  settle?(values: Values<F>, setting: Setting): RawValues;
  /**
   * Rules between parameters that a single field cannot know. They run before
   * anything is computed, also on values that are not complete yet.
   */
  rules(values: Partial<Values<F>>, setting: Setting): Problem[];
  compute(values: Values<F>, setting: Setting): Quantity[];
  /** What is wrong or risky on this machine. */
  checks(values: Values<F>, quantities: QuantityLookup, setting: Setting): Problem[];
  compose(values: Values<F>, setting: Setting): Composition;
}

export type QuantityLookup = (id: string) => number | undefined;

/** Makes a process of its definition. All bad input ends as problems; nothing throws but a defect. */
export function defineProcess<F extends Fields>(definition: Definition<F>): Process {
  const { id, keyword, title, summary, fields, governs, keyQuantities } = definition;
  return {
    id, keyword, title, summary, fields, governs, keyQuantities,
    valuesOf: (raw, setting) => read(definition, raw, setting).values,
    betterDefaults: (raw, setting) => definition.cardDefaults?.(setting, raw) ?? {},
    hints: (raw, setting) => definition.hints?.(readValues(fields, raw, setting.units).readable, setting) ?? {},
    settled: (raw, setting) => settled(definition, raw, setting),
    evaluate: (raw, setting) => evaluate(definition, raw, setting),
    compose: (raw, setting) => compose(definition, raw, setting),
  };
}

/** Values are present only where nothing is wrong with them. */
interface Reading<F extends Fields> {
  values?: Values<F>;
  problems: Problem[];
}

function read<F extends Fields>(definition: Definition<F>, raw: RawValues, setting: Setting): Reading<F> {
  const { values, readable, problems } = readValues(definition.fields, raw, setting.units, definition.cardDefaults?.(setting, raw));
  const ofFields = problems.map((problem): Problem => ({ ...problem, severity: 'error' }));
  const ofRules = definition.rules(readable, setting).filter(({ parameter }) => !ofFields.some((problem) => problem.parameter === parameter));
  const all = [...ofFields, ...ofRules];
  return !values || all.some(isError) ? { problems: all } : { values, problems: all };
}

function settled<F extends Fields>(definition: Definition<F>, raw: RawValues, setting: Setting): RawValues {
  const { settle } = definition;
  const { values } = settle ? read(definition, raw, setting) : {};
  if (!settle || !values) return raw;
  return guarded(definition, raw, [], { all: raw, problems: [] }, () => ({ all: { ...raw, ...settle(values, setting) }, problems: [] })).all;
}

function evaluate<F extends Fields>(definition: Definition<F>, raw: RawValues, setting: Setting): Evaluation {
  return evaluateValues(definition, raw, setting, read(definition, raw, setting));
}

function evaluateValues<F extends Fields>(definition: Definition<F>, raw: RawValues, setting: Setting, { values, problems }: Reading<F>): Evaluation {
  if (!values) return { quantities: [], problems };
  return guarded(definition, raw, problems, { quantities: [], problems: [] }, () => {
    const quantities = definition.compute(values, setting);
    const byId = new Map(quantities.map((each) => [each.id, each.value]));
    return { quantities, problems: [...problems, ...definition.checks(values, (id) => byId.get(id), setting)] };
  });
}

function compose<F extends Fields>(definition: Definition<F>, raw: RawValues, setting: Setting): Composition {
  const reading = read(definition, raw, setting);
  const { problems } = evaluateValues(definition, raw, setting, reading);
  const { values } = reading;
  if (!values || problems.some(isError)) return { lines: [], problems };
  return guarded(definition, raw, problems, { lines: [], problems: [] }, () => {
    const composed = definition.compose(values, setting);
    return { ...composed, problems: [...problems, ...composed.problems] };
  });
}

/** Turns a refusal of the trade library into a problem on the parameter that caused it. */
function guarded<F extends Fields, R extends { problems: Problem[] }>(definition: Definition<F>, raw: RawValues, before: Problem[], nothing: R, work: () => R): R {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof OutOfRange)) throw error;
    return { ...nothing, problems: [...before, refusal(definition, raw, error)] };
  }
}

function refusal<F extends Fields>({ parameterOf }: Definition<F>, raw: RawValues, error: OutOfRange): Problem {
  const candidates = [parameterOf[error.parameter] ?? []].flat();
  const parameter = candidates.find((name) => name in raw) ?? candidates[0];
  const reason = error.reason ? ` (${error.reason})` : '';
  if (parameter === undefined) return { rule: 'bad-value', severity: 'error', message: `${error.message}.` };
  const value = raw[parameter] ?? String(error.value);
  return { parameter, rule: 'bad-value', severity: 'error', message: `${parameter}: ${value} is not allowed: it must be ${error.allowed}${reason}.` };
}

export function isError(problem: Problem): boolean {
  return problem.severity === 'error';
}

/** A value beyond what the machine card allows. */
export function beyondMachine(parameter: string, value: string, allowed: string): Problem {
  return { parameter, rule: 'machine-limit', severity: 'error', message: `${parameter}: ${value} is beyond the machine: it must be ${allowed}.` };
}

/** Two parameters of which exactly one must be given. */
export function exactlyOne(values: Readonly<Record<string, unknown>>, first: string, second: string): Problem[] {
  const given = [first, second].filter((name) => values[name] !== undefined);
  if (given.length === 1) return [];
  const both = given.length === 2;
  const message = both ? `${first} and ${second} are both given: give one of them.` : `${first} or ${second} is missing: give one of them.`;
  return [{ parameter: both ? second : first, rule: both ? 'bad-value' : 'missing-parameter', severity: 'error', message }];
}
