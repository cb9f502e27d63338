/**
 * Word templates of a machine card, used both ways: to write a block with
 * figures filled in, and to recognise such a block in a program.
 *
 * A template is what the user's control says; this module knows its form and
 * nothing of its meaning. What cannot be filled in becomes a hole: `<name>` is
 * no word of any control, so a control refuses the block instead of guessing.
 */

/** The names that may stand in braces. `sense` is a sign and stands directly before another placeholder. */
export const placeholderNames = [
  'rpm', 'starts', 'teeth', 'sense', 'helix', 'hand', 'lead', 'phase', 'ratio', 'angle', 'tool', 'offset', 'seconds', 'milliseconds', 'z', 'feed', 'program', 'repeats', 'target',
] as const;
export type PlaceholderName = (typeof placeholderNames)[number];

/** What the figure in a slot is. */
export const placeholderTitles: Readonly<Record<PlaceholderName, string>> = {
  rpm: 'Speed in rev/min',
  starts: 'Starts of the hob',
  teeth: 'Teeth of the gear',
  sense: 'Sign of the work rotation',
  helix: 'Helix angle of the gear',
  hand: 'Hand of the gear',
  lead: 'Lead of the gear',
  phase: 'Angle of the work, as C counts, at which it is coupled to the hob',
  ratio: 'Revolutions of the work for one of the drive',
  angle: 'Setting angle of the hob, or phase of the spindles',
  tool: 'Number of the tool',
  offset: 'Number of the offset',
  seconds: 'Time in seconds',
  milliseconds: 'Time in milliseconds',
  z: 'Place along the axis of the sub-spindle',
  feed: 'Feed per minute',
  program: 'Number of the subprogram',
  repeats: 'How often the subprogram runs',
  target: 'Where the program goes on',
};

export type Template = string | readonly string[];
/** Figures as the block shall show them; a missing one becomes a hole. */
export type Figures = Partial<Record<PlaceholderName, string>>;

/** One word of a template: a literal number, or a slot whose number is read from the program. */
export interface TemplateWord {
  letter: string;
  value?: number;
  slot?: PlaceholderName;
}

const placeholder = /\{([^{}]*)\}/g;

/** The blocks of a template, without empty ones. An empty template has none. */
export function templateBlocks(template: Template | undefined): string[] {
  const blocks = template === undefined ? [] : typeof template === 'string' ? [template] : template;
  return blocks.map((block) => block.trim()).filter((block) => block !== '');
}

/** What is wrong with a template, in words; undefined when it is well formed. An empty one is well formed: it is a hole. */
export function templateFault(template: Template): string | undefined {
  for (const block of templateBlocks(template)) {
    const fault = blockFault(block);
    if (fault !== undefined) return fault;
  }
  return undefined;
}

function blockFault(block: string): string | undefined {
  for (const [whole, name] of block.matchAll(placeholder)) {
    if (!isPlaceholder(name ?? '')) {
      return `${whole} is not known; allowed are ${placeholderNames.map((each) => `{${each}}`).join(' ')}`;
    }
  }
  if (/[{}]/.test(block.replace(placeholder, ''))) return 'a brace stands alone; figures are written as {name}';
  if (/[-+]\s*\{/.test(block)) return 'a fixed sign before a placeholder is not allowed; {sense} writes the sign that the machine needs';
  if (/\{sense\}(?!\{)/.test(block)) return '{sense} must stand directly before another placeholder, as in {sense}{teeth}';
  if (/[<>\r\n]/.test(block)) return 'the characters < and > and line ends are not allowed';
  return undefined;
}

function isPlaceholder(name: string): name is PlaceholderName {
  return (placeholderNames as readonly string[]).includes(name);
}

/** The placeholders that a template uses. */
export function placeholdersOf(template: Template | undefined): Set<PlaceholderName> {
  const names = templateBlocks(template).flatMap((block) => [...block.matchAll(placeholder)].map((match) => match[1] ?? ''));
  return new Set(names.filter(isPlaceholder));
}

/** A hole: a word that no control accepts, named after what is missing. */
export function hole(name: string): string {
  return `<${name}>`;
}

/**
 * Writes a template's blocks. A template that the card leaves empty gives one
 * block that is a hole of the template's name; a figure that is not given gives
 * a hole inside its block. Behind a letter whose numbers have an implied point
 * on this control a whole figure gets one of its own, or P1000 would be 1.
 */
export function writeTemplate(name: string, template: Template | undefined, figures: Figures, impliedLetters = ''): string[] {
  const blocks = templateBlocks(template);
  if (blocks.length === 0) return [hole(name)];
  return blocks.map((block) => block.replace(placeholder, (_whole, slot: string, at: number) => {
    const figure = figureOf(slot as PlaceholderName, figures) ?? hole(slot);
    return isWhole(figure) && [...impliedLetters].includes(letterBefore(block, at)) ? `${figure}.` : figure;
  }));
}

function isWhole(figure: string): boolean {
  return /^-?\d+$/.test(figure);
}

/** The letter of the word whose figure stands at a place; between them there may be its sign. */
function letterBefore(block: string, at: number): string {
  return block.slice(0, at).replace('{sense}', '').trimEnd().slice(-1).toUpperCase();
}

/** A time is given in seconds, whichever of both its template asks for; milliseconds are whole, and written as whole numbers. */
function figureOf(slot: PlaceholderName, figures: Figures): string | undefined {
  if (slot !== 'milliseconds' || figures.seconds === undefined) return figures[slot];
  return String(Math.round(Number(figures.seconds) * 1000));
}

/**
 * The words by which a template's block is recognised in a program, one list a
 * block. A block with text that is not a plain word is written but never
 * recognised, and is left out.
 */
export function templateWords(template: Template | undefined): TemplateWord[][] {
  return templateBlocks(template)
    .map(wordsOfBlock)
    .filter((words): words is TemplateWord[] => words !== undefined && words.length > 0);
}

/** The code by which a template is known, as the card writes it, such as M28; undefined where it has none. */
export function codeWord(template: Template | undefined): string | undefined {
  return /[A-Za-z]\s*\d+(?:\.\d+)?/.exec(templateBlocks(template).join(' ').replace(placeholder, ''))?.[0];
}

const word = /^\s*([A-Za-z])\s*(?:(?:\{sense\})?\{([a-z]+)\}|([-+]?(?:\d+\.?\d*|\.\d+)))/;

function wordsOfBlock(block: string): TemplateWord[] | undefined {
  const words: TemplateWord[] = [];
  let rest = block;
  while (rest.trim() !== '') {
    const match = word.exec(rest);
    if (!match) return undefined;
    const letter = (match[1] ?? '').toUpperCase();
    words.push(match[2] !== undefined ? { letter, slot: match[2] as PlaceholderName } : { letter, value: Number(match[3]) });
    rest = rest.slice(match[0].length);
  }
  return words;
}
