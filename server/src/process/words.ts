/**
 * Writes words of a composed block: numbers with the card's decimals, codes from
 * the card's templates with their holes. It knows how a word looks, not when it
 * is due.
 */
import { keyOfHole, toolUnit, type CodeName, type MachineCard, type ToolUnitKind } from '../machine/card.ts';
import { templateBlocks, writeTemplate, type Figures } from '../machine/template.ts';
import type { Units } from '../trade/quantity.ts';
import type { BlockLine, Problem, Setting } from './process.ts';

const millimetresPerInch = 25.4;

/** Converts a length of the card into the program's units. */
export function cardLength(length: number, card: MachineCard, units: Units): number {
  if (card.units === units) return length;
  return units === 'inch' ? length / millimetresPerInch : length * millimetresPerInch;
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

/** Collects the lines of a block and the problems that arise on the way. */
export class BlockWriter {
  readonly lines: BlockLine[] = [];
  readonly problems: Problem[] = [];

  constructor(private readonly setting: Setting) {}

  comment(text: string): void {
    this.lines.push({ kind: 'comment', text: text.toUpperCase() });
  }

  block(...words: string[]): void {
    this.lines.push({ kind: 'block', words: words.join(' ') });
  }

  /** Absolute dimensions and feed per minute, whatever is in force where the block goes in. */
  takeModes(): void {
    if (this.setting.modes?.incremental) this.code('absolute');
    this.code('feedPerMinute');
  }

  /** Puts back what `takeModes` changed, so that the program behind the block runs as before. */
  restoreModes(): void {
    if (this.setting.modes?.feedPerRevolution) this.code('feedPerRevolution');
    if (this.setting.modes?.incremental) this.code('incremental');
  }

  /** Writes a code of the machine card, or a hole and the error that belongs to it. */
  code(name: CodeName, figures: Figures = {}): void {
    for (const words of this.codeBlocks(name, figures)) this.block(words);
  }

  /** A code that a machine may do without: nothing is written where the card leaves it out. */
  optionalCode(name: CodeName, figures: Figures = {}): void {
    if (templateBlocks(this.setting.card.codes[name]).length > 0) this.code(name, figures);
  }

  private codeBlocks(name: CodeName, figures: Figures): string[] {
    const template = this.setting.card.codes[name];
    const blocks = writeTemplate(name, template, figures);
    const open = blocks.flatMap((words) => words.match(/<[^>]*>/g) ?? []);
    if (open.length > 0) this.problems.push(holeProblem(name, open, templateBlocks(template).length === 0));
    return blocks;
  }
}

function holeProblem(name: CodeName, open: string[], empty: boolean): Problem {
  const message = empty
    ? `The machine card does not say codes.${name}: the block holds <${name}>, which a control refuses.`
    : `codes.${name} needs ${open.join(' ')}, which neither the parameters nor the machine card give: the block holds it as a hole, which a control refuses.`;
  const cardKey = open.map((each) => keyOfHole(each.slice(1, -1))).find((each) => each !== undefined) ?? `codes.${name}`;
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
