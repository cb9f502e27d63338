/**
 * A small interpreter written from NISTIR 6556 alone, to check the engine
 * against. It shares no code with it and works the other way round: whole file,
 * regular expressions, plain objects, no increments of anything.
 *
 * It covers what the published programs use: expressions and parameters, G0 to
 * G4, planes, units, distance modes, feed modes 93 and 94, G43/G49, G40 to G42
 * without the offset path, G81 to G89, G98/G99, G92 and M2. Anything else throws.
 */

export interface ReportMove {
  line: number;
  /** `unknown` where an axis word comes before any motion code, or after G80, which the report refuses (§3.5.15). */
  kind: 'rapid' | 'feed' | 'arc' | 'dwell' | 'unknown';
  start: [x: number, y: number, z: number];
  end: [x: number, y: number, z: number];
  /** NaN for rapids and dwells. */
  feed: number;
  length: number;
  seconds: number;
}

interface Machine {
  at: [number, number, number];
  offset: [number, number, number];
  plane: number;
  inch: boolean;
  incremental: boolean;
  inverse: boolean;
  feed: number;
  motion: number;
  returnLevel: 98 | 99;
  sticky: Record<string, number>;
  parameters: Map<number, number>;
}

export interface ReportOptions {
  start?: [number, number, number];
  returnLevel?: 98 | 99;
}

export function interpretByReport(text: string, options: ReportOptions = {}): ReportMove[] {
  const machine: Machine = {
    at: [...(options.start ?? [0, 0, 0])], offset: [0, 0, 0], plane: 17, inch: false, incremental: false, inverse: false, feed: NaN,
    motion: NaN, returnLevel: options.returnLevel ?? 98, sticky: {}, parameters: new Map(),
  };
  const moves: ReportMove[] = [];
  for (const [line, source] of text.split(/\r\n|\n|\r/).entries()) {
    if (obey(machine, parse(source, machine.parameters), (move) => moves.push({ line, feed: move.kind === 'feed' || move.kind === 'arc' ? machine.feed : NaN, ...move }))) break;
  }
  return moves;
}

type Emit = (move: Omit<ReportMove, 'line' | 'feed'>) => void;

interface Line {
  words: Array<[letter: string, value: number]>;
  settings: Array<[index: number, value: number]>;
}

// ---------------------------------------------------------------- reading

function parse(source: string, parameters: Map<number, number>): Line {
  let rest = source.replace(/\([^)]*\)/g, '').replace(/[ \t]/g, '').toLowerCase().replace(/^\/?(n\d{1,5})?/, '');
  const line: Line = { words: [], settings: [] };
  const value = (): number => {
    const [number, after] = realValue(rest, parameters);
    rest = after;
    return number;
  };
  while (rest !== '' && rest !== '%') {
    const letter = rest[0]!;
    rest = rest.slice(1);
    if (letter === '#') {
      const index = value();
      if (rest[0] !== '=') throw new Error(`no = in ${source}`);
      rest = rest.slice(1);
      line.settings.push([index, value()]);
    } else {
      line.words.push([letter, value()]);
    }
  }
  return line;
}

/** Shunting yard: no recursion over levels, so that it cannot share a mistake of a recursive reader. */
function expression(text: string, parameters: Map<number, number>): [value: number, rest: string] {
  const strength: Record<string, number> = { '**': 3, '*': 2, '/': 2, 'mod': 2, '+': 1, '-': 1, 'or': 1, 'xor': 1, 'and': 1 };
  const values: number[] = [];
  const operators: string[] = [];
  const reduce = (): void => {
    const right = values.pop()!;
    const left = values.pop()!;
    values.push(calculate(operators.pop()!, left, right));
  };
  let rest = text.slice(1);
  for (;;) {
    const [value, after] = realValue(rest, parameters);
    values.push(value);
    rest = after;
    if (rest[0] === ']') break;
    const operator = /^(\*\*|\*|\/|mod|\+|-|or|xor|and)/.exec(rest)![0];
    rest = rest.slice(operator.length);
    while (operators.length > 0 && strength[operators.at(-1)!]! >= strength[operator]!) reduce();
    operators.push(operator);
  }
  while (operators.length > 0) reduce();
  return [values[0]!, rest.slice(1)];
}

function calculate(operator: string, a: number, b: number): number {
  const table: Record<string, () => number> = {
    '**': () => Math.pow(a, b), '*': () => a * b, '/': () => a / b, 'mod': () => a - b * Math.floor(a / b), '+': () => a + b, '-': () => a - b,
    'or': () => Number(Boolean(a) || Boolean(b)), 'xor': () => Number(Boolean(a) !== Boolean(b)), 'and': () => Number(Boolean(a) && Boolean(b)),
  };
  return table[operator]!();
}

function realValue(text: string, parameters: Map<number, number>): [value: number, rest: string] {
  if (text[0] === '[') return expression(text, parameters);
  if (text[0] === '#') {
    const [index, rest] = realValue(text.slice(1), parameters);
    return [parameters.get(index) ?? NaN, rest];
  }
  const number = /^[+-]?(\d+\.?\d*|\.\d+)/.exec(text);
  if (number !== null) return [parseFloat(number[0]), text.slice(number[0].length)];
  const name = /^(abs|acos|asin|atan|cos|exp|fix|fup|ln|round|sin|sqrt|tan)(?=\[)/.exec(text)?.[0];
  if (name === undefined) throw new Error(`no value in ${text}`);
  const [argument, rest] = expression(text.slice(name.length), parameters);
  if (name !== 'atan') return [functionValue(name, argument), rest];
  const [second, last] = expression(rest.slice(1), parameters);
  return [(Math.atan2(argument, second) * 180) / Math.PI, last];
}

function functionValue(name: string, x: number): number {
  const turn = Math.PI / 180;
  const table: Record<string, number> = {
    abs: Math.abs(x), acos: Math.acos(x) / turn, asin: Math.asin(x) / turn, cos: Math.cos(x * turn), exp: Math.exp(x), fix: Math.floor(x),
    fup: Math.ceil(x), ln: Math.log(x), round: Math.round(x), sin: Math.sin(x * turn), sqrt: Math.sqrt(x), tan: Math.tan(x * turn),
  };
  return table[name]!;
}

// ---------------------------------------------------------------- obeying

const MOTIONS = [0, 1, 2, 3, 80, 81, 82, 83, 84, 85, 86, 87, 88, 89];

/** Answers whether the program ends. */
function obey(machine: Machine, line: Line, emit: Emit): boolean {
  const g = line.words.filter(([letter]) => letter === 'g').map(([, value]) => value);
  const m = line.words.filter(([letter]) => letter === 'm').map(([, value]) => value);
  const word = (letter: string): number | undefined => line.words.find(([name]) => name === letter)?.[1];
  setModes(machine, g, word);
  if (g.includes(4)) emit({ kind: 'dwell', start: [...machine.at], end: [...machine.at], length: 0, seconds: word('p')! });
  const motion = g.find((code) => MOTIONS.includes(code));
  if (motion !== undefined) {
    if (motion < 81) machine.sticky = {};
    machine.motion = motion;
  }
  if (g.includes(92)) preset(machine, word);
  else if (['x', 'y', 'z'].some((axis) => word(axis) !== undefined)) go(machine, word, emit);
  for (const [index, value] of line.settings) machine.parameters.set(index, value);
  return m.includes(2) || m.includes(30);
}

function setModes(machine: Machine, g: number[], word: (letter: string) => number | undefined): void {
  const known = [...MOTIONS, 4, 17, 18, 19, 20, 21, 40, 41, 42, 43, 49, 54, 61, 64, 90, 91, 92, 93, 94, 98, 99];
  const stranger = g.find((code) => !known.includes(code));
  if (stranger !== undefined) throw new Error(`G${stranger} is not covered`);
  for (const code of g) {
    if (code >= 17 && code <= 19) machine.plane = code;
    if (code === 20 || code === 21) changeUnits(machine, code === 20);
    if (code === 90 || code === 91) machine.incremental = code === 91;
    if (code === 93 || code === 94) machine.inverse = code === 93;
    if (code === 98 || code === 99) machine.returnLevel = code;
  }
  machine.feed = word('f') ?? machine.feed;
}

function changeUnits(machine: Machine, inch: boolean): void {
  if (inch !== machine.inch) machine.at = machine.at.map((value) => (inch ? value / 25.4 : value * 25.4)) as Machine['at'];
  machine.inch = inch;
}

function preset(machine: Machine, word: (letter: string) => number | undefined): void {
  ['x', 'y', 'z'].forEach((axis, index) => {
    const value = word(axis);
    if (value === undefined) return;
    machine.offset[index]! += machine.at[index]! - value;
    machine.at[index] = value;
  });
}

function go(machine: Machine, word: (letter: string) => number | undefined, emit: Emit): void {
  if (machine.motion >= 81) return cycle(machine, word, emit);
  const target = machine.at.map((from, index) => {
    const value = word('xyz'[index]!);
    return value === undefined ? from : machine.incremental ? from + value : value;
  }) as Machine['at'];
  if (machine.motion === 2 || machine.motion === 3) arc(machine, target, word, emit);
  else if (machine.motion !== 0 && machine.motion !== 1) unknown(machine, target, emit);
  else straight(machine, machine.motion === 1 ? 'feed' : 'rapid', target, [0, 1, 2].filter((axis) => word('xyz'[axis]!) !== undefined), emit);
}

function unknown(machine: Machine, target: Machine['at'], emit: Emit): void {
  const start = machine.at;
  machine.at = target;
  emit({ kind: 'unknown', start, end: [...target], length: NaN, seconds: NaN });
}

/** An axis that is not moved adds nothing to the path, wherever it stands. */
function straight(machine: Machine, kind: 'rapid' | 'feed', target: Machine['at'], moved: readonly number[], emit: Emit): void {
  const length = Math.hypot(...moved.map((axis) => target[axis]! - machine.at[axis]!));
  const start = machine.at;
  machine.at = target;
  emit({ kind, start, end: [...target], length, seconds: kind === 'rapid' ? NaN : time(machine, length) });
}

function time(machine: Machine, length: number): number {
  return machine.inverse ? 60 / machine.feed : (60 * length) / machine.feed;
}

/** By complex numbers: the centre, then the angle of end over start. */
function arc(machine: Machine, target: Machine['at'], word: (letter: string) => number | undefined, emit: Emit): void {
  const [a, b, n] = machine.plane === 17 ? [0, 1, 2] : machine.plane === 18 ? [2, 0, 1] : [1, 2, 0];
  const from = [machine.at[a!]!, machine.at[b!]!] as const;
  const to = [target[a!]!, target[b!]!] as const;
  const sign = machine.motion === 3 ? 1 : -1;
  const radius = word('r');
  const centre = radius === undefined
    ? [from[0] + (word('ijk'[a!]!) ?? 0), from[1] + (word('ijk'[b!]!) ?? 0)] as const
    : centreByRadius(from, to, radius, sign);
  const first = [from[0] - centre[0], from[1] - centre[1]] as const;
  const last = [to[0] - centre[0], to[1] - centre[1]] as const;
  let turn = sign * Math.atan2(first[0] * last[1] - first[1] * last[0], first[0] * last[0] + first[1] * last[1]);
  if (turn <= 0) turn += 2 * Math.PI;
  if (from[0] === to[0] && from[1] === to[1]) turn = 2 * Math.PI;
  const length = Math.hypot(Math.hypot(...first) * turn, target[n!]! - machine.at[n!]!);
  const start = machine.at;
  machine.at = target;
  emit({ kind: 'arc', start, end: [...target], length, seconds: time(machine, length) });
}

/** Of the two circles through both points, the one whose sweep in the wanted direction has the wanted size. */
function centreByRadius(from: readonly [number, number], to: readonly [number, number], radius: number, sign: number): readonly [number, number] {
  const middle = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2] as const;
  const half = [(to[0] - from[0]) / 2, (to[1] - from[1]) / 2] as const;
  const ratio = Math.sqrt(Math.max(0, (radius * radius) / (half[0] ** 2 + half[1] ** 2) - 1));
  const left = [middle[0] - half[1] * ratio, middle[1] + half[0] * ratio] as const;
  const right = [middle[0] + half[1] * ratio, middle[1] - half[0] * ratio] as const;
  return (sign > 0) === (radius > 0) ? left : right;
}

function cycle(machine: Machine, word: (letter: string) => number | undefined, emit: Emit): void {
  const [a, b, n] = (machine.plane === 17 ? [0, 1, 2] : machine.plane === 18 ? [2, 0, 1] : [1, 2, 0]) as [number, number, number];
  const deep = 'xyz'[n]!;
  for (const letter of ['r', deep, 'p', 'q', 'i', 'j', 'k']) machine.sticky[letter] = word(letter) ?? machine.sticky[letter] ?? NaN;
  const { sticky } = machine;
  const old = machine.at[n]!;
  const level = machine.incremental ? old + sticky['r']! : sticky['r']!;
  const bottom = machine.incremental ? level + sticky[deep]! : sticky[deep]!;
  const clear = machine.returnLevel === 98 && old > level ? old : level;
  const to = (kind: 'rapid' | 'feed', changes: Record<number, number>): void => straight(machine, kind, machine.at.map((value, axis) => changes[axis] ?? value) as Machine['at'], Object.keys(changes).map(Number), emit);
  const dwell = (): void => emit({ kind: 'dwell', start: [...machine.at], end: [...machine.at], length: 0, seconds: sticky['p']! });
  if (!(old >= level)) to('rapid', { [n]: level });
  for (let count = word('l') ?? 1; count > 0; count--) {
    const hole = [a, b].map((axis) => {
      const value = word('xyz'[axis]!);
      return value === undefined ? machine.at[axis]! : machine.incremental ? machine.at[axis]! + value : value;
    }) as [number, number];
    to('rapid', { [a]: hole[0], [b]: hole[1] });
    if (machine.at[n] !== level) to('rapid', { [n]: level });
    oneHole(machine, { a, b, n, hole, level, bottom, clear, to, dwell });
  }
}

interface HoleWork {
  a: number;
  b: number;
  n: number;
  hole: [number, number];
  level: number;
  bottom: number;
  clear: number;
  to: (kind: 'rapid' | 'feed', changes: Record<number, number>) => void;
  dwell: () => void;
}

function oneHole(machine: Machine, { a, b, n, hole, level, bottom, clear, to, dwell }: HoleWork): void {
  const { sticky, motion, incremental } = machine;
  if (motion === 87) {
    const aside = { [a]: hole[0] + sticky['ijk'[a]!]!, [b]: hole[1] + sticky['ijk'[b]!]! };
    const above = { [a]: hole[0], [b]: hole[1] };
    const stop = sticky['ijk'[n]!]!;
    to('rapid', aside);
    to('rapid', { [n]: bottom });
    to('rapid', above);
    to('feed', { [n]: incremental ? bottom + stop : stop });
    to('feed', { [n]: bottom });
    to('rapid', aside);
    to('rapid', { [n]: clear });
    to('rapid', above);
    return;
  }
  if (motion === 83) {
    for (let depth = level - sticky['q']!; depth > bottom + 1e-9; depth -= sticky['q']!) {
      to('feed', { [n]: depth });
      to('rapid', { [n]: clear });
      to('rapid', { [n]: depth });
    }
  }
  to('feed', { [n]: bottom });
  if ([82, 86, 88, 89].includes(motion)) dwell();
  if (motion === 88) machine.at[n] = NaN;
  else to([84, 85, 89].includes(motion) ? 'feed' : 'rapid', { [n]: clear });
}
