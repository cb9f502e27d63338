/**
 * Writes words of a composed block: numbers with the card's decimals, codes from
 * the card's templates with their holes. It knows how a word looks, not when it
 * is due.
 */
import { keyOfHole, toolUnit, type CodeName, type MachineCard, type ToolUnitKind } from '../machine/card.ts';
import { placeholdersOf, templateBlocks, writeTemplate, type Figures } from '../machine/template.ts';
import { MILLIMETRES_PER_INCH } from '../trade/lengths.ts';
import { shown, type Units } from '../trade/quantity.ts';
import { modeProblems, type SpindleUse } from './modes-in-force.ts';
import type { BlockLine, Problem, Setting } from './process.ts';
import type { SpeedRange } from './unit-speeds.ts';

/** No speed is written finer than this. */
const speedDecimals = 5;

/** Limits are rounded at times. */
const slack = 1e-9;

/** Converts a length of the card into the program's units. */
export function cardLength(length: number, card: MachineCard, units: Units): number {
  if (card.units === units) return length;
  return units === 'inch' ? length / MILLIMETRES_PER_INCH : length * MILLIMETRES_PER_INCH;
}

/**
 * A number as a word carries it. It always has a decimal point: without one, a
 * control with an implied point would read another value.
 */
export function decimal(value: number, decimals: number): string {
  const text = value.toFixed(decimals).replace(/0+$/, '');
  const padded = text.endsWith('.') ? `${text}0` : text;
  if (decimals === 0) return `${value.toFixed(0)}.`;
  return padded === '-0.0' ? '0.0' : padded;
}

/** One more decimal in inch programs than the card gives for millimetres, so that a word keeps its fineness. */
export function lengthDecimals({ card, units }: Setting): number {
  return card.decimals + (units === 'inch' && card.units === 'mm' ? 1 : 0);
}

export function lengthWord(letter: string, value: number, setting: Setting): string {
  return letter + decimal(value, lengthDecimals(setting));
}

export function feedWord(feed: number, setting: Setting): string {
  return lengthWord('F', feed, setting);
}

export function angleWord(letter: string, degrees: number, { card }: Setting): string {
  return letter + decimal(degrees, card.angleDecimals);
}

/** X as the machine wants it: a diameter or a radius. */
export function xWord(radius: number, setting: Setting): string {
  return lengthWord('X', setting.card.diameterProgramming ? 2 * radius : radius, setting);
}

/**
 * A speed as its word carries it, rev/min: whole from 100 on, three figures
 * below. That is never off by more than half a per cent, and so is what follows
 * from it: feeds and times come of the exact speed, so a stroke or a tooth takes
 * that much more or less. Within the range it stays within: where the nearest
 * figure lies outside, the next one inside is written.
 */
export function speedFigure(rpm: number, { least, most }: SpeedRange): string {
  const nearest = Number(rpm >= 100 ? rpm.toFixed(0) : rpm.toPrecision(3));
  const step = rpm >= 100 ? 1 : 10 ** (Math.floor(Math.log10(rpm)) - 2);
  if (nearest > most + slack) return shown(Math.floor(rpm / step) * step, speedDecimals);
  return shown(nearest < least - slack ? Math.ceil(rpm / step) * step : nearest, speedDecimals);
}

/** The parameters that decide feed and speed of a block, for what must be said of those words. */
export interface GoverningParameters {
  feed?: string;
  speed?: string;
}

/** Keys of the machine card by the names of holes. */
export type HoleKeys = Readonly<Record<string, string>>;

/** Collects the lines of a block and the problems that arise on the way. */
export class BlockWriter {
  readonly lines: BlockLine[] = [];
  readonly problems: Problem[] = [];

  constructor(private readonly setting: Setting, private readonly governing: GoverningParameters = {}) {}

  comment(text: string): void {
    this.lines.push({ kind: 'comment', text: text.toUpperCase() });
  }

  block(...words: string[]): void {
    this.blockFedBy(this.governing.feed, ...words);
  }

  /** A block whose feed is given by another parameter than that of the other feeds. */
  blockFedBy(parameter: string | undefined, ...words: string[]): void {
    words.forEach((word) => this.refuseZero(word, parameter));
    this.lines.push({ kind: 'block', words: words.join(' ') });
  }

  /** Absolute dimensions and feed per minute, whatever is in force where the block goes in; what it cannot run under is a problem. */
  takeModes(use: SpindleUse): void {
    this.problems.push(...modeProblems(this.setting, use));
    this.takeAbsolute();
    this.code('feedPerMinute');
  }

  /** Absolute dimensions alone, for a block that feeds nothing. */
  takeAbsolute(): void {
    if (this.setting.modes?.incremental) this.code('absolute');
  }

  /** Puts back what `takeModes` changed, so that the program behind the block runs as before. */
  restoreModes(): void {
    if (this.setting.modes?.feedPerRevolution) this.code('feedPerRevolution');
    if (this.setting.modes?.inverseTime) this.code('inverseTime');
    this.restoreIncremental();
  }

  /** Puts back what `takeAbsolute` changed. */
  restoreIncremental(): void {
    if (this.setting.modes?.incremental) this.code('incremental');
  }

  /**
   * Writes a code of the machine card, or a hole and the error that belongs to it.
   * `keys` names the key of the card that would fill a figure, where that depends
   * on more than the figure.
   */
  code(name: CodeName, figures: Figures = {}, keys: HoleKeys = {}): void {
    for (const words of this.codeBlocks(name, figures, keys)) this.block(words);
  }

  /**
   * One of two codes that undo each other, such as clamp and release: a machine
   * may have neither, but where the card says one, the other is a hole.
   */
  codeOfPair(name: CodeName, other: CodeName): void {
    if (this.states(name) || this.states(other)) this.code(name);
  }

  /** Coolant, where the card says both how to turn it on and how to turn it off. */
  coolant(name: 'coolantOn' | 'coolantOff'): void {
    if (this.states('coolantOn') && this.states('coolantOff')) this.code(name);
  }

  private states(name: CodeName): boolean {
    return templateBlocks(this.setting.card.codes[name]).length > 0;
  }

  private refuseZero(word: string, parameter: string | undefined): void {
    if (/^F-?0*\.?0*$/.test(word)) this.addOnce(zeroProblem('feed', `the word ${word}`, parameter, lengthDecimals(this.setting)));
  }

  /** The figures of a template, which may stand behind any letter. */
  private refuseZeroFigures(name: CodeName, { rpm, feed }: Figures): void {
    const used = placeholdersOf(this.setting.card.codes[name]);
    if (used.has('rpm') && Number(rpm) === 0) this.addOnce(zeroProblem('speed', `the word of codes.${name}, ${rpm}`, this.governing.speed, speedDecimals));
    if (used.has('feed') && Number(feed) === 0) this.addOnce(zeroProblem('feed', `the word of codes.${name}, ${feed}`, this.governing.feed, decimalsOf(feed)));
  }

  private addOnce(problem: Problem): void {
    if (!this.problems.some(({ message }) => message === problem.message)) this.problems.push(problem);
  }

  private codeBlocks(name: CodeName, figures: Figures, keys: HoleKeys): string[] {
    const { codes, fixedFormat } = this.setting.card;
    const template = codes[name];
    const blocks = writeTemplate(name, template, { ...toolFigures(this.setting), ...figures }, fixedFormat?.letters);
    this.refuseZeroFigures(name, figures);
    const open = blocks.flatMap((words) => words.match(/<[^>]*>/g) ?? []);
    if (open.length > 0) this.problems.push(holeProblem(name, open, templateBlocks(template).length === 0, keys));
    return blocks;
  }
}

/** The tool in use, for templates that ask for it. */
function toolFigures({ modes, card }: Setting): Figures {
  return {
    ...(modes?.tool === undefined ? {} : { tool: String(modes.tool) }),
    ...(modes?.toolOffset === undefined ? {} : { offset: String(modes.toolOffset).padStart(card.toolOffsetDigits, '0') }),
  };
}

function decimalsOf(figure: string | undefined): number {
  return figure?.split('.')[1]?.length ?? 0;
}

/** A word that says nothing moves or turns stops the program, or the tool in the cut. */
function zeroProblem(what: 'feed' | 'speed', where: string, parameter: string | undefined, decimals: number): Problem {
  const subject = parameter === undefined ? '' : `${parameter} is too small: `;
  const message = `${subject}the ${what} comes to nothing in ${where}, rounded to ${decimals} ${decimals === 1 ? 'decimal' : 'decimals'}.`;
  return { ...(parameter === undefined ? {} : { parameter }), rule: 'zero-word', severity: 'error', message };
}

function holeProblem(name: CodeName, open: string[], empty: boolean, keys: HoleKeys): Problem {
  const message = empty
    ? `The machine card does not say codes.${name}: the block holds <${name}>, which a control refuses.`
    : `codes.${name} needs ${open.join(' ')}, which neither the parameters nor the machine card give: the block holds it as a hole, which a control refuses.`;
  const cardKey = open.map((each) => each.slice(1, -1)).map((each) => keys[each] ?? keyOfHole(each)).find((each) => each !== undefined) ?? `codes.${name}`;
  return { rule: 'hole', severity: 'error', cardKey, message };
}

/** The caution that every block carries. */
export const caution = [
  'Prove by simulation and dry run before cutting.',
  'Guards, local codes and qualified practice decide.',
];

/** What the operator must mount: the name of the card's unit, where it has one. */
export function unitName(card: MachineCard, kind: ToolUnitKind): string {
  return toolUnit(card, kind)?.name ?? '';
}
