/**
 * What a word means by the open definitions or by the machine's own list.
 *
 * Every letter and every G and M number has an entry here, because "unassigned"
 * and "free for the machine builder" are meanings too. The source says how far
 * the entry can be trusted. No control maker's codes are known.
 */
import type { Dialect } from './dialect.ts';
import type { Comment, Item, Word } from './scan.ts';
import type { ModalState } from './state.ts';

export interface Meaning {
  /** A few words for a headline. */
  readonly title: string;
  /** One or two sentences; may be empty. */
  readonly detail: string;
  readonly source: string;
}

const HANDBOOK = "Mechanical Engineers' Handbook vol. 2, table of address characters";
const TEXTBOOK = 'textbook notes to GOST 20999-83, counterpart of ISO 6983-1';
const JB = 'published copy of the JB 3208-83 tables, counterpart of ISO 6983-1';
const EIA = 'published table of EIA RS-274-D functions';
const MEMORY = 'ISO 6983-1, from memory';
const OWN = 'machine card';
const PRACTICE = 'common practice, no source';
const nist = (section: string): string => `NISTIR 6556 ${section}`;

/**
 * What the item means where it stands. `state` is the state before its line;
 * it decides what S, F and the like are counted in.
 */
export function meaningOf(item: Item, state: ModalState, dialect: Dialect): Meaning {
  switch (item.kind) {
    case 'word': return wordMeaning(item, state, dialect);
    case 'sequence': return meaning('Sequence number', 'Names the block. It may repeat, skip, or be out of order; it does nothing.', nist('§3.3.1'));
    case 'skip': return meaning('Block skip', 'The line is checked, and left out when the skip switch is on.', nist('§2.2.2'));
    case 'percent': return meaning('Program start or end', 'Alone on the first line it opens the program; the second one closes it, and everything after is ignored.', nist('§3.1'));
    case 'programNumber': return item.mark === ':'
      ? meaning('Alignment block', 'Stands for N on a block that holds everything needed to start there; in use also a program number.', MEMORY)
      : meaning('Program number', 'Names the program or subprogram that begins here. The letter tables leave O unused.', PRACTICE);
    case 'comment': return commentMeaning(item);
    case 'assignment': return meaning('Parameter setting', 'Takes effect after the whole line has been read; on this line the old value counts.', nist('§3.3.3'));
    case 'hole': return meaning('Missing word', `The machine card does not say the word for ${item.name}. A control refuses this line.`, 'own rule: nothing is guessed');
    case 'junk': return meaning('Not a word', 'These characters belong to no word of the format.', nist('§3.3'));
  }
}

/** The numbers of a letter that the open definitions or the machine's own list give a meaning, in ascending order. */
export function codesWithMeaning(letter: 'G' | 'M', { meanings, unitsWords }: Dialect): number[] {
  const open = letter === 'G' ? [...G_MEANINGS.keys(), ...unitsWords.inch, ...unitsWords.mm] : [...M_MEANINGS.keys()];
  const own = Object.keys(meanings).filter((word) => word.startsWith(letter)).map((word) => Number(word.slice(1)));
  return [...new Set([...open, ...own])].sort((first, second) => first - second);
}

/** A message opens with MSG and a comma, in either case and with white space anywhere (NISTIR 6556 §3.3.4). */
export function commentMeaning({ style, text }: Pick<Comment, 'style' | 'text'>): Meaning {
  const isMessage = style === 'parenthesis' && /^\s*m\s*s\s*g\s*,/i.test(text);
  if (isMessage) return meaning('Message', 'What follows the comma is shown to the operator. Of several comments on a line only the last one acts.', nist('§3.3.4, §3.3.5'));
  if (style === 'semicolon') return meaning('Comment', 'Text for people, to the end of the line. Neither RS274/NGC nor ISO 6983 has this form.', PRACTICE);
  return meaning('Comment', 'Text for people; the control passes it over.', 'ISO 6983-1 (control out, control in), from memory; NISTIR 6556 §3.3.4');
}

function wordMeaning(word: Word, state: ModalState, dialect: Dialect): Meaning {
  const own = ownMeaning(word, dialect);
  if (own !== undefined) return own;
  if (word.letter === 'G') return gMeaning(word.value, dialect);
  if (word.letter === 'M') return mMeaning(word.value);
  const axis = dialect.incrementalAxes[word.letter];
  if (axis !== undefined) return meaning(`Incremental ${axis}`, `Moves ${axis} by this much from where it stands.`, OWN);
  return letterMeaning(word.letter, state, dialect);
}

function ownMeaning(word: Word, dialect: Dialect): Meaning | undefined {
  if (word.value === undefined) return undefined;
  const text = dialect.meanings[`${word.letter}${word.value}`] ?? dialect.meanings[`${word.letter}${String(word.value).padStart(2, '0')}`];
  return text === undefined ? undefined : meaning(text, '', OWN);
}

function gMeaning(value: number | undefined, dialect: Dialect): Meaning {
  if (value === undefined) return meaning('Preparatory function', 'Its number is not known here.', HANDBOOK);
  const other = dialect.replaced?.[`G${value}`];
  if (other !== undefined) return meaning('Sets nothing on this machine', `${G_MEANINGS.get(value)?.title ?? ''} by the open definitions, for which the machine card has ${other}.`, OWN);
  if (dialect.unitsWords.inch.includes(value)) return unitsMeaning('Inch', value);
  if (dialect.unitsWords.mm.includes(value)) return unitsMeaning('Millimetre', value);
  return G_MEANINGS.get(value) ?? DISPUTED_G.get(value) ?? unassigned('G', value, isFreeG(value));
}

function unitsMeaning(unit: string, value: number): Meaning {
  const source = value < 70 ? nist('§3.5') : value === 70 || value === 71 ? EIA : OWN;
  return meaning(`${unit} programming`, 'Lengths are counted in it from here on. Stored feeds and offsets keep their figures.', source);
}

function mMeaning(value: number | undefined): Meaning {
  if (value === undefined) return meaning('Miscellaneous function', 'Its number is not known here.', HANDBOOK);
  return M_MEANINGS.get(value) ?? unassigned('M', value, isFreeM(value));
}

function unassigned(letter: string, value: number, free: boolean): Meaning {
  if (free) return meaning(`Free for the machine builder`, `${letter}${value} is permanently unassigned: only the machine's own list can say what it does.`, letter === 'G' ? EIA : JB);
  if (value >= 100) return meaning('Outside the two-digit tables', `${letter}${value}: only the machine's own list can say what it does.`, MEMORY);
  if (!Number.isInteger(value) || value < 0) return meaning('Not in the tables', `${letter}${value} stands in none of the open tables.`, nist('App. A.4'));
  return meaning('Unassigned', `The open tables give ${letter}${value} no meaning; a builder may use it. Only the machine's own list can say what it does.`, letter === 'G' ? TEXTBOOK : JB);
}

const isFreeG = (value: number): boolean => (value >= 25 && value <= 29 && value !== 28) || (value >= 36 && value <= 39);
const isFreeM = (value: number): boolean => (value >= 20 && value <= 29) || (value >= 90 && value <= 99);

function letterMeaning(letter: string, state: ModalState, dialect: Dialect): Meaning {
  const length = state.units === 'inch' ? 'inch' : 'mm';
  switch (letter) {
    case 'F': return feedMeaning(state, length);
    case 'S': return speedMeaning(state);
    case 'X': return meaning('Position in X', `${dialect.diameterProgramming ? 'A diameter' : 'A radius or distance'}, in ${length}.`, HANDBOOK);
    case 'T': return toolMeaning(dialect);
    case 'Q': return dialect.diameterProgramming ? peckOnDiameter : LETTERS['Q']!;
    default: return LETTERS[letter] ?? meaning('Not assigned', '', HANDBOOK);
  }
}

function toolMeaning({ toolChange, toolOffsetDigits = 0 }: Dialect): Meaning {
  const does = toolChange === 'T' ? 'Changes to this tool.' : 'Selects the tool that the next M06 brings.';
  if (toolOffsetDigits === 0) return meaning('Tool', does, nist('§3.7'));
  return meaning('Tool and offset', `${does} The last ${toolOffsetDigits === 1 ? 'digit is' : `${toolOffsetDigits} digits are`} the number of the offset.`, OWN);
}

function feedMeaning(state: ModalState, length: string): Meaning {
  if (state.feedMode === 'perRevolution') return meaning('Feed per revolution', `In ${length} per revolution.`, TEXTBOOK);
  if (state.feedMode === 'inverseTime') return meaning('Inverse time feed', 'The move takes 1/F minutes.', nist('§3.5.19'));
  return meaning('Feed per minute', `In ${length} per minute along the path; degrees per minute for a rotary axis alone.`, nist('§2.1.2.5'));
}

function speedMeaning(state: ModalState): Meaning {
  if (state.speedMode === 'rpm') return meaning('Spindle speed', 'In revolutions per minute.', nist('§3.7'));
  return meaning('Cutting speed', `Constant: in ${state.units === 'inch' ? 'feet' : 'metres'} per minute at the X in force.`, TEXTBOOK);
}

function meaning(title: string, detail: string, source: string): Meaning {
  return { title, detail, source };
}

const LETTERS: Readonly<Record<string, Meaning>> = {
  A: meaning('Angle about X', 'In degrees, counter-clockwise positive seen from the plus end.', nist('§2.1.2.2')),
  B: meaning('Angle about Y', 'In degrees, counter-clockwise positive seen from the plus end.', nist('§2.1.2.2')),
  C: meaning('Angle about Z', 'In degrees, counter-clockwise positive seen from the plus end.', nist('§2.1.2.2')),
  D: meaning('Number of a tool radius', 'With G41 or G42.', nist('§3.5.10')),
  E: meaning('Angle about a special axis, or second feed', '', HANDBOOK),
  G: meaning('Preparatory function', '', HANDBOOK),
  H: meaning('Number of a tool length', 'With G43. The ISO letter table leaves H unassigned.', nist('§3.5.11')),
  I: meaning('Arc centre in X, or thread lead', 'Counted from the start of the arc.', nist('§3.5.3')),
  J: meaning('Arc centre in Y, or thread lead', 'Counted from the start of the arc.', nist('§3.5.3')),
  K: meaning('Arc centre in Z, or thread lead', 'Counted from the start of the arc.', nist('§3.5.3')),
  L: meaning('Repeats of a cycle', 'A whole number of at least 1; also a key of G10.', nist('§3.5.16')),
  M: meaning('Miscellaneous function', '', HANDBOOK),
  N: meaning('Sequence number', 'It must stand first on its line.', nist('§3.3.1')),
  O: meaning('Not used', 'The letter tables leave O unused; in use a program number.', PRACTICE),
  P: meaning('Dwell time, or a key', 'Seconds with G04 and with cycles that dwell; a key of G10. In the ISO letter table a third motion parallel to X.', nist('§3.5.4')),
  Q: meaning('Depth of one peck', 'With G83. In the ISO letter table a third motion parallel to Y.', nist('§3.5.16')),
  R: meaning('Arc radius, or retract level of a cycle', 'A negative radius means the arc of more than 180 degrees.', nist('§3.5.3, §3.5.16')),
  U: meaning('Secondary motion parallel to X', 'Incremental X only if the machine card says so.', HANDBOOK),
  V: meaning('Secondary motion parallel to Y', '', HANDBOOK),
  W: meaning('Secondary motion parallel to Z', 'Incremental Z only if the machine card says so.', HANDBOOK),
  Y: meaning('Position in Y', '', HANDBOOK),
  Z: meaning('Position in Z', '', HANDBOOK),
};

/** A level such as R is a place and counts as X words do; a peck is a length. */
const peckOnDiameter = meaning(LETTERS['Q']!.title, `${LETTERS['Q']!.detail} Along X (G19) it is read as the way that the tool moves, not as a change of the diameter (derived; no definition says it).`, LETTERS['Q']!.source);

const CYCLE = nist('§3.5.16');
const ISO_OFFSET = 'One of the tool offset sign combinations; free for other use where the control has no such offsets.';

const OWN_LIST = "Only the machine's own list can say what it does.";

/** Codes of which one table says something and the others nothing. They set nothing here, and are not suggested. */
const DISPUTED_G = new Map<number, Meaning>([
  ...[68, 69].map((code): [number, Meaning] => [code, meaning('Unassigned, or a tool offset', `GOST 20999 leaves it open; JB 3208 and ISO 1056 (from memory) have a tool offset at an ${code === 68 ? 'inside' : 'outside'} corner. ${OWN_LIST}`, JB)]),
  ...[72, 73].map((code): [number, Meaning] => [code, meaning('Unassigned, or an arc in space', `GOST 20999 and JB 3208 leave it open; EIA RS-274-D has three-dimensional arcs. ${OWN_LIST}`, EIA)]),
  [74, meaning('Unassigned, or arcs within one quadrant', `GOST 20999 and JB 3208 leave it open; EIA RS-274-D ends arcs over several quadrants by it, DIN 66025 (from memory) goes to the reference point. ${OWN_LIST}`, EIA)],
  [75, meaning('Unassigned, or arcs over several quadrants', `GOST 20999 and JB 3208 leave it open; EIA RS-274-D allows arcs over several quadrants by it. ${OWN_LIST}`, EIA)],
]);

const G_MEANINGS = new Map<number, Meaning>([
  [0, meaning('Rapid positioning', '', nist('§3.5.1'))],
  [1, meaning('Linear interpolation', 'A straight move at the feed.', nist('§3.5.2'))],
  [2, meaning('Arc, clockwise', 'Seen from the plus end of the axis that stands on the plane.', nist('§3.5.3'))],
  [3, meaning('Arc, counter-clockwise', 'Seen from the plus end of the axis that stands on the plane.', nist('§3.5.3'))],
  [4, meaning('Dwell', 'P in seconds. ISO 6983 leaves address and unit to the format (from memory).', nist('§3.5.4'))],
  [6, meaning('Parabolic interpolation', 'Not computed here.', JB)],
  [8, meaning('Acceleration', 'In this block only.', TEXTBOOK)],
  [9, meaning('Deceleration', 'In this block only; in use an exact stop.', TEXTBOOK)],
  [10, meaning('Set a coordinate system', 'L2 with P1 to P9. Unassigned in the ISO tables.', nist('§3.5.5'))],
  [17, meaning('Plane XY', '', nist('§3.5'))],
  [18, meaning('Plane ZX', '', nist('§3.5'))],
  [19, meaning('Plane YZ', '', nist('§3.5'))],
  [28, meaning('Return to home', 'Through the point given. Permanently unassigned in RS-274-D.', nist('§3.5'))],
  [30, meaning('Return to second home', 'Through the point given. Unassigned in the ISO tables.', nist('§3.5'))],
  [33, meaning('Thread cutting, constant lead', 'The feed is tied to the spindle; I or K is the lead (from memory).', JB)],
  [34, meaning('Thread cutting, increasing lead', 'Its time is not computed here.', JB)],
  [35, meaning('Thread cutting, decreasing lead', 'Its time is not computed here.', JB)],
  [38.2, meaning('Straight probe', '', nist('§3.5.9'))],
  [40, meaning('Tool radius compensation off', '', nist('§3.5.10'))],
  [41, meaning('Tool radius compensation, tool on the left', '', nist('§3.5.10'))],
  [42, meaning('Tool radius compensation, tool on the right', '', nist('§3.5.10'))],
  [43, meaning('Tool length offset on', 'H names the offset. ISO: tool offset, plus.', nist('§3.5.11'))],
  [44, meaning('Tool offset, minus', '', MEMORY)],
  ...[45, 46, 47, 48, 50, 51, 52].map((code): [number, Meaning] => [code, meaning('Tool offset, or free', ISO_OFFSET, TEXTBOOK)]),
  [49, meaning('Tool length offset off', 'ISO: one of the tool offset sign combinations.', nist('§3.5.11'))],
  [53, meaning('Move in machine coordinates', 'In this block, with G00 or G01. ISO: linear shift cancelled.', nist('§3.5.12'))],
  ...[54, 55, 56, 57, 58, 59].map((code): [number, Meaning] => [code, meaning(`Work offset ${code - 53}`, 'Selects a coordinate system. ISO: linear shift.', nist('§3.5'))]),
  ...[59.1, 59.2, 59.3].map((code, at): [number, Meaning] => [code, meaning(`Work offset ${at + 7}`, 'Selects a coordinate system.', nist('§3.5'))]),
  [60, meaning('Exact positioning, fine', '', JB)],
  [61, meaning('Exact path', 'ISO: exact positioning, medium.', nist('§3.5'))],
  [61.1, meaning('Exact stop', '', nist('§3.5'))],
  [62, meaning('Fast positioning, coarse', '', JB)],
  [63, meaning('Tapping', 'In this block only.', TEXTBOOK)],
  [64, meaning('Continuous path', 'Unassigned in the ISO tables.', nist('§3.5'))],
  [80, meaning('Cycle off', '', nist('§3.5.15'))],
  [81, meaning('Drilling cycle', 'Feed to depth, rapid out.', CYCLE)],
  [82, meaning('Drilling cycle with dwell', 'Feed to depth, dwell P seconds, rapid out.', CYCLE)],
  [83, meaning('Peck drilling cycle', 'Feed by Q, rapid out and back, until the depth is reached.', CYCLE)],
  [84, meaning('Tapping cycle', 'Feed in synchronised, reverse, feed out.', CYCLE)],
  [85, meaning('Boring cycle', 'Feed in, feed out.', CYCLE)],
  [86, meaning('Boring cycle with spindle stop', 'Feed in, dwell, stop the spindle, rapid out.', CYCLE)],
  [87, meaning('Back boring cycle', '', CYCLE)],
  [88, meaning('Boring cycle with manual retract', 'Feed in, dwell, stop the spindle, program stop.', CYCLE)],
  [89, meaning('Boring cycle with dwell', 'Feed in, dwell, feed out.', CYCLE)],
  [90, meaning('Absolute positions', '', nist('§3.5.17'))],
  [91, meaning('Incremental positions', '', nist('§3.5.17'))],
  [92, meaning('Preset the position', 'Gives the place where the axes stand these numbers; nothing moves.', nist('§3.5.18'))],
  [92.1, meaning('Axis offsets off, and forgotten', '', nist('§3.5.18'))],
  [92.2, meaning('Axis offsets off, and kept', '', nist('§3.5.18'))],
  [92.3, meaning('Axis offsets on again', '', nist('§3.5.18'))],
  [93, meaning('Inverse time feed', 'The move takes 1/F minutes.', nist('§3.5.19'))],
  [94, meaning('Feed per minute', '', nist('§3.5.19'))],
  [95, meaning('Feed per revolution', '', TEXTBOOK)],
  [96, meaning('Constant cutting speed', 'S is m/min, in an inch program ft/min. Without a speed limit the spindle speed grows without bound towards X0.', TEXTBOOK)],
  [97, meaning('Constant spindle speed', 'S is revolutions per minute.', TEXTBOOK)],
  [98, meaning('Cycles return to the level before', 'Unassigned in the ISO tables.', nist('§3.5'))],
  [99, meaning('Cycles return to the R level', 'Unassigned in the ISO tables.', nist('§3.5'))],
]);

const M_MEANINGS = new Map<number, Meaning>([
  [0, meaning('Program stop', 'Until cycle start.', nist('§3.6.1'))],
  [1, meaning('Optional stop', 'If its switch is on.', nist('§3.6.1'))],
  [2, meaning('End of program', 'Puts modes back: XY plane, absolute, feed per minute, spindle and coolant off.', nist('§3.6.1'))],
  [3, meaning('Spindle clockwise', '', nist('§3.6'))],
  [4, meaning('Spindle counter-clockwise', '', nist('§3.6'))],
  [5, meaning('Spindle stop', 'Here before the motion of its block; by ISO after it (from memory).', nist('§3.6'))],
  [6, meaning('Tool change', 'To the tool that T selected.', nist('§3.6'))],
  [7, meaning('Coolant 2 on', 'Mist in RS274/NGC.', nist('§3.6'))],
  [8, meaning('Coolant 1 on', 'Flood in RS274/NGC.', nist('§3.6'))],
  [9, meaning('Coolant off', '', nist('§3.6'))],
  [10, meaning('Clamp', 'Slide, work, fixture or spindle.', JB)],
  [11, meaning('Unclamp', 'Slide, work, fixture or spindle.', JB)],
  [13, meaning('Spindle clockwise and coolant', '', JB)],
  [14, meaning('Spindle counter-clockwise and coolant', '', JB)],
  [15, meaning('Motion in the plus direction', 'In this block only.', JB)],
  [16, meaning('Motion in the minus direction', 'In this block only.', JB)],
  [19, meaning('Oriented spindle stop', '', JB)],
  [30, meaning('End of program with reset', 'As M02; the program goes back to its start.', nist('§3.6.1'))],
  [31, meaning('Interlock bypass', 'In this block only.', JB)],
  [36, meaning('Feed range 1', '', JB)],
  [37, meaning('Feed range 2', '', JB)],
  [38, meaning('Spindle speed range 1', '', JB)],
  [39, meaning('Spindle speed range 2', '', JB)],
  ...[40, 41, 42, 43, 44, 45].map((code): [number, Meaning] => [code, meaning('Gear change, or unassigned', '', JB)]),
  [48, meaning('Overrides on', '', nist('§3.6'))],
  [49, meaning('Overrides off', '', nist('§3.6'))],
  [50, meaning('Coolant 3 on', '', JB)],
  [51, meaning('Coolant 4 on', '', JB)],
  [55, meaning('Linear tool shift, position 1', '', JB)],
  [56, meaning('Linear tool shift, position 2', '', JB)],
  [60, meaning('Workpiece change', 'In RS274/NGC a stop with pallet change.', JB)],
  [61, meaning('Linear workpiece shift, position 1', '', JB)],
  [62, meaning('Linear workpiece shift, position 2', '', JB)],
  [71, meaning('Angular workpiece shift, position 1', '', JB)],
  [72, meaning('Angular workpiece shift, position 2', '', JB)],
]);
