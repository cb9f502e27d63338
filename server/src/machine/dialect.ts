/**
 * Translates a machine card into the dialect that the program engine reads:
 * pure data, no card and no gear on the other side.
 */
import { isCarriedOut, openStandardDialect, type Dialect, type MachineLimits, type StartState, type WordPattern } from '../program/index.ts';
import type { CodeName, MachineCard } from './card.ts';
import { openStandardCard } from './open-standard.ts';
import { templateBlocks, templateWords, type Template, type TemplateWord } from './template.ts';

export function dialectOf(card: MachineCard): Dialect {
  return {
    ...openStandardDialect,
    units: card.units,
    diameterProgramming: card.diameterProgramming,
    xFeedOnDiameter: card.xFeedOnDiameter,
    incrementalAxes: card.incrementalAxes,
    meanings: card.meanings,
    patterns: Object.entries(card.codes).flatMap(([name, template]) => (isAsDefined(name, template) ? [] : [...patternsOf(name, template), ...callsWithoutRepeats(name, template, card)])),
    unitsWords: unitsWordsOf(card),
    replaced: { ...replacedWords(card), ...replacedUnits(card) },
    toolChange: card.toolChange,
    toolOffsetDigits: card.toolOffsetDigits,
    start: startOf(card),
    ...(card.rapids ? { rapid: rapidsOf(card.rapids) } : {}),
    toolDiameters: new Map(Object.entries(card.tools).map(([number, { diameter }]) => [Number(number), diameter])),
    ...(card.fixedFormat ? { fixedFormat: card.fixedFormat } : {}),
    ...(card.maxLineLength === undefined ? {} : { maxLineLength: card.maxLineLength }),
    ...limitsOf(card),
    ...(card.cycleAxisInZX === undefined ? {} : { cyclesDrillAlongZ: card.cycleAxisInZX === 'Z' }),
    cyclesTurnC: card.cyclesTurnC === true,
    ...(isSaid(card.codes.dwell) && !isAsDefined('dwell', card.codes.dwell) ? { dwellSeconds: {} } : {}),
  };
}

/** Nothing where the card gives no limits, so that its programs are not asked for them. */
function limitsOf(card: MachineCard): Pick<Dialect, 'limits'> {
  const { drivenToolRpm, syncHobRpm, x, y, z } = card.limits;
  const limits: MachineLimits = {
    ...given({ spindleRpm: mainWordRpm(card), syncDrivenRpm: syncHobRpm === undefined ? undefined : syncHobRpm * hobRatio(card) }),
    ...given({ x, y, z, subTravel: card.subSpindle?.travel }),
    rpmOf: given({ ...sameFor(['drivenStart', 'drivenReverse'], drivenToolRpm), ...sameFor(['subStart', 'subReverse'], card.subSpindle?.maxRpm), spindleSyncOn: coupledRpm(card), speedLimit: limitWordRpm(card) }),
  };
  return Object.keys(limits).length === 1 && Object.keys(limits.rpmOf ?? {}).length === 0 ? {} : { limits };
}

function sameFor(names: readonly CodeName[], most: number | undefined): Partial<Record<CodeName, number | undefined>> {
  return Object.fromEntries(names.map((name) => [name, most]));
}

/** Without the values that are not given. */
function given<V, K extends string>(values: Partial<Record<K, V | undefined>>): Partial<Record<K, V>> {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as Partial<Record<K, V>>;
}

/** M03 may turn either spindle where the sub-spindle has no word of its own: then only what neither reaches is too fast. */
function mainWordRpm(card: MachineCard): number | undefined {
  return card.subSpindle && !isSaid(card.codes.subStart) ? limitWordRpm(card) : card.limits.mainSpindleRpm;
}

/** The limit under constant surface speed is of the spindle that turns the work, which may be either. */
function limitWordRpm({ limits, subSpindle }: MachineCard): number | undefined {
  if (!subSpindle || limits.mainSpindleRpm === undefined) return limits.mainSpindleRpm;
  return subSpindle.maxRpm === undefined ? undefined : Math.max(limits.mainSpindleRpm, subSpindle.maxRpm);
}

function coupledRpm({ limits, subSpindle }: MachineCard): number | undefined {
  const most = Math.min(limits.mainSpindleRpm ?? Infinity, subSpindle?.maxRpm ?? Infinity);
  return most === Infinity ? undefined : most;
}

/** Revolutions of the drive for one of the hob; of several units the greatest, since nobody knows which is in use. */
function hobRatio({ toolUnits }: MachineCard): number {
  const ratios = toolUnits.flatMap((unit) => (unit.kind === 'hobbing' ? [unit.ratio] : []));
  return ratios.length === 0 ? 1 : Math.max(...ratios);
}

function startOf({ plane, feedMode, cycleReturn }: MachineCard): StartState {
  return {
    ...(plane === undefined ? {} : { plane }),
    ...(feedMode === undefined ? {} : { feedMode }),
    ...(cycleReturn === undefined ? {} : { returnLevel: cycleReturn }),
  };
}

/** Of these modes one is in force at a time, so a card that has a word of its own for one takes the open word's meaning away. */
const exclusiveModes = ['absolute', 'incremental', 'feedPerMinute', 'feedPerRevolution', 'inverseTime'] as const satisfies readonly CodeName[];

function replacedWords({ codes }: MachineCard): Record<string, string> {
  const replaced = exclusiveModes.filter((name) => isSaid(codes[name]) && !holdsOpenWord(codes[name], name));
  return Object.fromEntries(replaced.map((name) => [openWord(name), templateBlocks(codes[name]).join(', ')]));
}

function unitsWordsOf({ unitWords }: MachineCard): Dialect['unitsWords'] {
  if (unitWords === undefined) return openStandardDialect.unitsWords;
  return { inch: [numberOf(unitWords.inch)], mm: [numberOf(unitWords.mm)] };
}

/** The open words for units that a card with words of its own does not name, and what it names instead. */
function replacedUnits({ unitWords }: MachineCard): Record<string, string> {
  if (unitWords === undefined) return {};
  const own = [numberOf(unitWords.inch), numberOf(unitWords.mm)];
  const { inch, mm } = openStandardDialect.unitsWords;
  const pairs = [...inch.map((word) => [word, unitWords.inch] as const), ...mm.map((word) => [word, unitWords.mm] as const)];
  return Object.fromEntries(pairs.filter(([word]) => !own.includes(word)).map(([word, other]) => [`G${word}`, other]));
}

function numberOf(word: string): number {
  return Number(word.slice(1));
}

function holdsOpenWord(template: Template | undefined, name: CodeName): boolean {
  const [open] = templateWords(openStandardCard.codes[name]).flat();
  return templateWords(template).flat().some(({ letter, value }) => letter === open?.letter && value === open.value);
}

function openWord(name: CodeName): string {
  return templateBlocks(openStandardCard.codes[name]).join(' ');
}

function isSaid(template: Template | undefined): boolean {
  return templateBlocks(template).length > 0;
}

/**
 * Codes that the engine carries out by the open definitions. A pattern would take
 * their words away from it, so there is none where the card only repeats them.
 */
const definedCodes: readonly string[] = ['absolute', 'incremental', 'inverseTime', 'feedPerMinute', 'feedPerRevolution', 'dwell', 'coolantOn', 'coolantOff'] satisfies CodeName[];

function isAsDefined(name: string, template: Template | undefined): boolean {
  if (!definedCodes.includes(name)) return false;
  return JSON.stringify(templateWords(template)) === JSON.stringify(templateWords(openStandardCard.codes[name as CodeName]));
}

/**
 * One pattern stands for the whole template: the block with the most slots, since
 * its numbers are what is read; the other blocks of an array only go with it. Of
 * several it is one without a word that acts by the open definitions: in M05, M881
 * M05 stops the spindle, there as everywhere else in a program.
 */
function patternsOf(name: string, template: Template | undefined): WordPattern[] {
  const [best] = templateWords(template).sort((first, second) => slotsIn(second) - slotsIn(first) || Number(holdsDefinedWord(first)) - Number(holdsDefinedWord(second)) || second.length - first.length);
  return best ? [{ name, words: withoutSpindleStop(name, best) }] : [];
}

/** M05 beside the word that makes an axis of the main spindle stops it first, so it is left to be carried out. */
function withoutSpindleStop(name: string, words: readonly TemplateWord[]): readonly TemplateWord[] {
  const others = words.filter(({ letter, value }) => letter !== 'M' || value !== 5);
  return name === 'workAxisOn' && others.some(({ letter, value }) => value !== undefined && (letter === 'G' || letter === 'M')) ? others : words;
}

function slotsIn(words: readonly TemplateWord[]): number {
  return words.filter(({ slot }) => slot !== undefined).length;
}

function holdsDefinedWord(words: readonly TemplateWord[]): boolean {
  return words.some(({ letter, value }) => value !== undefined && isCarriedOut(letter, value));
}

/** A call that leaves out how often it runs: once where the card says so, else it is known as a call, and as one that nobody can follow. */
function callsWithoutRepeats(name: string, template: Template | undefined, { repeatsLeftOut }: MachineCard): WordPattern[] {
  if (name !== 'subprogramCall') return [];
  return patternsOf(name, template).flatMap(({ words }) => {
    const rest = words.filter(({ slot }) => slot !== 'repeats');
    return rest.length === words.length ? [] : [{ name, words: rest, ...(repeatsLeftOut === 'once' ? {} : { lacks: 'repeats' }) }];
  });
}

function rapidsOf(rapids: NonNullable<MachineCard['rapids']>): NonNullable<Dialect['rapid']> {
  return Object.fromEntries(Object.entries(rapids).filter(([, speed]) => speed !== undefined));
}
