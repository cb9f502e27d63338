/**
 * A second small interpreter, of programs for turning centres, to check the
 * engine against. It shares no code with it: words by regular expressions, plain
 * objects, times by adding up a path in small steps.
 *
 * Written from the words of ISO 6983 as NISTIR 6556 and common practice explain
 * them: G0 to G4, planes, units, G90 and G91, feed modes 93 to 95, constant
 * surface speed with a limit, X as a diameter, the C axis, work offsets. What the
 * machine builder adds comes as data: the word, the letters that go with it, and
 * what it does. Anything else throws.
 */

export type Axis = 'x' | 'y' | 'z' | 'c';
type Place = Record<Axis, number>;

export interface TurningMove {
  line: number;
  kind: 'rapid' | 'feed' | 'arc' | 'dwell' | 'unknown';
  start: Place;
  end: Place;
  /** NaN for rapids and dwells. */
  feed: number;
  length: number;
  seconds: number;
}

/** A word that the machine builder chose, and the letters on its line that belong to it. */
export interface OwnWord {
  word: string;
  takes?: string;
  /** `limit`, `driven` and `sub` take the speed from their S; `sync` the ratio from their P over Q. */
  does: 'nothing' | 'limit' | 'driven' | 'drivenStop' | 'sub' | 'subStop' | 'sync' | 'syncOff';
}

export interface TurningMachine {
  inch: boolean;
  diameter: boolean;
  plane: 17 | 18;
  /** Length units of the machine (degrees for C) a minute. */
  rapids: Partial<Place>;
  own: OwnWord[];
}

interface Modes {
  inch: boolean;
  plane: number;
  offset: number;
  incremental: boolean;
  motion: number;
  feedMode: number;
  feed: number;
  surface: boolean;
  speed: number;
  limit: number;
  turns: boolean;
  driven: number;
  sub: number;
  sync: number;
}

type Words = Map<string, number>;

export function interpretTurning(text: string, machine: TurningMachine): TurningMove[] {
  const at: Place = { x: NaN, y: NaN, z: NaN, c: NaN };
  const modes: Modes = {
    inch: machine.inch, plane: machine.plane, offset: 54, incremental: false, motion: NaN, feedMode: 94, feed: NaN, surface: false, speed: NaN, limit: NaN, turns: false, driven: NaN, sub: NaN, sync: NaN,
  };
  const moves: TurningMove[] = [];
  for (const [line, source] of text.split(/\r\n|\n|\r/).entries()) {
    if (execute(line, source, machine, at, modes, moves)) break;
  }
  return moves;
}

/** Answers whether the program ends. */
function execute(line: number, source: string, machine: TurningMachine, at: Place, modes: Modes, moves: TurningMove[]): boolean {
  const { codes, words } = wordsOf(source, machine, modes);
  setModes(codes, words, at, modes);
  const add = (kind: TurningMove['kind'], start: Place, length: number, seconds: number): void => {
    const feeds = kind === 'feed' || kind === 'arc';
    moves.push({ line, kind, start, end: { ...at }, feed: feeds ? modes.feed : NaN, length, seconds });
  };
  if (codes.includes('g4')) add('dwell', { ...at }, 0, words.get('p')!);
  const moved = (['x', 'y', 'z', 'c'] as const).filter((axis) => words.has(axis));
  if (moved.length > 0) {
    const start = { ...at };
    for (const axis of moved) at[axis] = words.get(axis)! + (modes.incremental ? at[axis] : 0);
    if (modes.motion === 0) add('rapid', start, straightLength(start, at, moved, machine), rapidSeconds(start, at, moved, machine, modes));
    else if (modes.motion === 1) add('feed', start, straightLength(start, at, moved, machine), feedSeconds(straightPath(start, at, moved, machine), turned(start, at, moved), modes));
    else if (Number.isNaN(modes.motion)) add('unknown', start, NaN, NaN);
    else {
      const path = arcPath(start, at, words, machine, modes);
      add('arc', start, lengthOf(path), feedSeconds(path, 0, modes));
    }
  }
  return codes.includes('m2') || codes.includes('m30');
}

// ---------------------------------------------------------------- words

function wordsOf(source: string, machine: TurningMachine, modes: Modes): { codes: string[]; words: Words } {
  const plain = source.replace(/\([^)]*\)/g, '').replace(/\s/g, '').toLowerCase().replace(/^%.*/, '');
  const all = [...plain.matchAll(/([a-z])([+-]?(?:\d+\.?\d*|\.\d+))/g)].map(([, letter, value]) => [letter!, Number(value)] as [string, number]);
  if (all.map(([letter]) => letter).length !== (plain.match(/[a-z]/g) ?? []).length) throw new Error(`not read: ${source}`);
  const codes = all.filter(([letter]) => letter === 'g' || letter === 'm').map(([letter, value]) => letter + String(value));
  const words = new Map(all.filter(([letter]) => !'gmnot'.includes(letter)));
  const own = machine.own.filter(({ word }) => codes.includes(word));
  for (const { takes, does } of own) {
    obeyOwn(does, words, modes);
    for (const letter of takes ?? '') words.delete(letter);
  }
  return { codes: codes.filter((code) => !own.some(({ word }) => word === code)), words };
}

function obeyOwn(does: OwnWord['does'], words: Words, modes: Modes): void {
  const speed = words.get('s') ?? NaN;
  if (does === 'limit') modes.limit = speed;
  if (does === 'driven') modes.driven = speed;
  if (does === 'drivenStop') modes.driven = NaN;
  if (does === 'sub') modes.sub = speed;
  if (does === 'subStop') modes.sub = NaN;
  if (does === 'sync') modes.sync = Math.abs(words.get('p')! / words.get('q')!);
  if (does === 'syncOff') modes.sync = NaN;
}

function setModes(codes: string[], words: Words, at: Place, modes: Modes): void {
  for (const code of codes) {
    const [letter, number] = [code[0], Number(code.slice(1))];
    if (letter === 'm') setByM(number, modes);
    else if (number <= 3) modes.motion = number;
    else if (number === 17 || number === 18) modes.plane = number;
    else if (number === 20 || number === 21) changeUnits(number === 20, at, modes);
    else if (number === 54 || number === 55) changeOffset(number, at, modes);
    else if (number === 90 || number === 91) modes.incremental = number === 91;
    else if (number >= 93 && number <= 95) modes.feedMode = number;
    else if (number === 96 || number === 97) modes.surface = number === 96;
    else if (![4, 40, 80].includes(number)) throw new Error(`${code} is not covered`);
  }
  modes.feed = words.get('f') ?? modes.feed;
  modes.speed = words.get('s') ?? modes.speed;
}

function setByM(number: number, modes: Modes): void {
  if (number >= 3 && number <= 5) modes.turns = number !== 5;
  else if (![0, 1, 2, 7, 8, 9, 30].includes(number)) throw new Error(`M${number} is not covered`);
}

/** How far the zeros are apart is not in the program. */
function changeOffset(number: number, at: Place, modes: Modes): void {
  if (number !== modes.offset) for (const axis of ['x', 'y', 'z', 'c'] as const) at[axis] = NaN;
  modes.offset = number;
}

function changeUnits(inch: boolean, at: Place, modes: Modes): void {
  if (inch !== modes.inch) for (const axis of ['x', 'y', 'z'] as const) at[axis] *= inch ? 1 / 25.4 : 25.4;
  modes.inch = inch;
}

// ---------------------------------------------------------------- paths and times

/** A point of a path: its true distance off the axis of the spindle, or NaN, and the length of path that it stands for. */
interface Bit {
  radius: number;
  length: number;
}

const PARTS = 4000;

const radiusOf = (x: number, machine: TurningMachine): number => (machine.diameter ? x / 2 : x);

function straightLength(start: Place, end: Place, moved: readonly Axis[], machine: TurningMachine): number {
  const gaps = moved.filter((axis) => axis !== 'c').map((axis) => (axis === 'x' ? radiusOf(end.x - start.x, machine) : end[axis] - start[axis]));
  return gaps.some(Number.isNaN) ? NaN : Math.hypot(...gaps);
}

function straightPath(start: Place, end: Place, moved: readonly Axis[], machine: TurningMachine): Bit[] {
  const length = straightLength(start, end, moved, machine);
  const from = radiusOf(start.x, machine);
  const to = radiusOf(end.x, machine);
  return Array.from({ length: PARTS }, (_, part) => ({ radius: Math.abs(from + ((to - from) * (part + 0.5)) / PARTS), length: length / PARTS }));
}

/** In the plane of X and Y, or of Z and X, both seen with the first axis to the right and the second one up. */
function arcPath(start: Place, end: Place, words: Words, machine: TurningMachine, modes: Modes): Bit[] {
  const [first, second, across] = modes.plane === 17 ? (['x', 'y', 'z'] as const) : (['z', 'x', 'y'] as const);
  const point = (place: Place, axis: Axis): number => (axis === 'x' ? radiusOf(place.x, machine) : place[axis]);
  const from = [point(start, first), point(start, second)] as const;
  const to = [point(end, first), point(end, second)] as const;
  const way = modes.motion === 3 ? 1 : -1;
  const letterOf = { x: 'i', y: 'j', z: 'k', c: '' };
  const centre = words.has('r') ? centreOf(from, to, words.get('r')!, way) : [from[0] + (words.get(letterOf[first]) ?? 0), from[1] + (words.get(letterOf[second]) ?? 0)] as const;
  const radius = Math.hypot(from[0] - centre[0], from[1] - centre[1]);
  const angle = Math.atan2(from[1] - centre[1], from[0] - centre[0]);
  let turn = way * (Math.atan2(to[1] - centre[1], to[0] - centre[0]) - angle);
  while (turn <= 1e-12) turn += 2 * Math.PI;
  while (turn > 2 * Math.PI + 1e-12) turn -= 2 * Math.PI;
  const length = Math.hypot(radius * turn, words.has(across) ? end[across] - start[across] : 0);
  const along = (part: number): number => angle + (way * turn * (part + 0.5)) / PARTS;
  return Array.from({ length: PARTS }, (_, part) => {
    const places = { [first]: centre[0] + radius * Math.cos(along(part)), [second]: centre[1] + radius * Math.sin(along(part)) };
    return { radius: Math.abs(places['x']!), length: length / PARTS };
  });
}

/** Of both centres at the distance R from both ends the one on the left of the chord for a short way counter-clockwise or a long way clockwise. */
function centreOf(from: readonly [number, number], to: readonly [number, number], r: number, way: number): readonly [number, number] {
  const chord = [to[0] - from[0], to[1] - from[1]] as const;
  const half = Math.hypot(...chord) / 2;
  const off = Math.sqrt(Math.max(0, r * r - half * half)) * way * Math.sign(r);
  return [from[0] + chord[0] / 2 - (off * chord[1]) / (2 * half), from[1] + chord[1] / 2 + (off * chord[0]) / (2 * half)];
}

function lengthOf(path: readonly Bit[]): number {
  return path.reduce((sum, { length }) => sum + length, 0);
}

function turned(start: Place, end: Place, moved: readonly Axis[]): number {
  return moved.includes('c') ? Math.abs(end.c - start.c) : 0;
}

/** Where nothing but the C axis moves, the feed counts degrees. */
function feedSeconds(path: readonly Bit[], degrees: number, modes: Modes): number {
  if (modes.feedMode === 93) return 60 / modes.feed;
  const length = lengthOf(path);
  const counted = length === 0 ? [{ radius: path[0]!.radius, length: degrees }] : path;
  if (modes.feedMode === 94) return (60 * lengthOf(counted)) / modes.feed;
  return counted.reduce((sum, bit) => sum + (60 * bit.length) / (modes.feed * revolutionsPerMinute(bit.radius, modes)), 0);
}

function revolutionsPerMinute(radius: number, modes: Modes): number {
  if (!Number.isNaN(modes.sync)) return modes.driven * modes.sync;
  if (!Number.isNaN(modes.driven)) return modes.driven;
  if (!modes.turns) return modes.sub;
  if (!modes.surface) return modes.speed;
  const wanted = (modes.speed * (modes.inch ? 12 : 1000)) / (2 * Math.PI * radius);
  return Number.isNaN(modes.limit) ? wanted : Math.min(wanted, modes.limit);
}

function rapidSeconds(start: Place, end: Place, moved: readonly Axis[], machine: TurningMachine, modes: Modes): number {
  const unit = modes.inch === machine.inch ? 1 : modes.inch ? 25.4 : 1 / 25.4;
  const times = moved.map((axis) => {
    const way = Math.abs(end[axis] - start[axis]);
    if (way === 0) return 0;
    return (60 * (axis === 'c' ? way : (axis === 'x' ? radiusOf(way, machine) : way) * unit)) / (machine.rapids[axis] ?? NaN);
  });
  return times.some(Number.isNaN) ? NaN : Math.max(...times);
}
