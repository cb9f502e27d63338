/**
 * Counts the steps that a backtracking matcher takes, so that a test can tell a
 * linear pattern from one that grows faster, without a clock.
 *
 * It reads only the part of the pattern language that the grammar needs. It
 * refuses a repeated group: an unbounded repeat of anything but one character is
 * what makes matching explode, and the grammar does without.
 */
type Next = (position: number) => number;
type Node = (line: string, position: number, next: Next) => number;

/** No match; otherwise a matcher gives the position behind the match. */
const NONE = -1;

export interface Counted {
  readonly matches: readonly (readonly [start: number, end: number])[];
  readonly steps: number;
}

/** Finds all matches from left to right, as an editor does that remembers where each pattern matches next. */
export function countSteps(pattern: string, line: string): Counted {
  const counter = { steps: 0 };
  const root = new PatternReader(pattern, counter).read();
  const matches: [number, number][] = [];
  for (let start = 0; start <= line.length; start++) {
    const end = root(line, start, (position) => position);
    if (end === NONE) continue;
    matches.push([start, end]);
    start = Math.max(start, end - 1);
  }
  return { matches, steps: counter.steps };
}

class PatternReader {
  #at = 0;
  readonly #pattern: string;
  readonly #counter: { steps: number };

  constructor(pattern: string, counter: { steps: number }) {
    this.#pattern = pattern;
    this.#counter = counter;
  }

  read(): Node {
    const node = this.#alternatives();
    if (this.#at < this.#pattern.length) throw this.#unsupported();
    return node;
  }

  #alternatives(): Node {
    const choices = [this.#sequence()];
    while (this.#take('|')) choices.push(this.#sequence());
    return (line, position, next) => {
      for (const choice of choices) {
        const end = choice(line, position, next);
        if (end !== NONE) return end;
      }
      return NONE;
    };
  }

  #sequence(): Node {
    const items: Node[] = [];
    while (this.#at < this.#pattern.length && !'|)'.includes(this.#peek())) items.push(this.#item());
    return items.reduceRight<Node>(
      (rest, item) => (line, position, next) => item(line, position, (middle) => rest(line, middle, next)),
      (_line, position, next) => next(position),
    );
  }

  #item(): Node {
    if (this.#take('(')) return this.#optional(this.#group());
    if (this.#take('^')) return (_line, position, next) => (this.#step(), position === 0 ? next(position) : NONE);
    if (this.#take('$')) return (line, position, next) => (this.#step(), position === line.length ? next(position) : NONE);
    const accepts = this.#character();
    if (this.#take('*')) return this.#repeat(accepts, 0);
    if (this.#take('+')) return this.#repeat(accepts, 1);
    return this.#optional((line, position, next) => (this.#step(), accepts(line[position]) ? next(position + 1) : NONE));
  }

  #group(): Node {
    const kind = ['?:', '?=', '?!', '?<!'].find((prefix) => this.#take(prefix)) ?? '';
    const body = this.#alternatives();
    if (!this.#take(')')) throw this.#unsupported();
    if ('*+'.includes(this.#peek() || ' ')) throw this.#unsupported();
    const here: Next = (position) => position;
    if (kind === '?=') return (line, position, next) => (body(line, position, here) === NONE ? NONE : next(position));
    if (kind === '?!') return (line, position, next) => (body(line, position, here) === NONE ? next(position) : NONE);
    // The grammar looks back at one character only.
    if (kind === '?<!') return (line, position, next) => (position > 0 && body(line, position - 1, here) === position ? NONE : next(position));
    return body;
  }

  #optional(node: Node): Node {
    if (!this.#take('?')) return node;
    return (line, position, next) => {
      const end = node(line, position, next);
      return end === NONE ? next(position) : end;
    };
  }

  #repeat(accepts: (character: string | undefined) => boolean, least: number): Node {
    return (line, position, next) => {
      let last = position;
      while ((this.#step(), accepts(line[last]))) last++;
      for (; last >= position + least; last--) {
        const end = next(last);
        if (end !== NONE) return end;
      }
      return NONE;
    };
  }

  #character(): (character: string | undefined) => boolean {
    const source = /\\.|\[(?:\\.|[^\\\]])*\]|[^\\[\](){}?*+|^$.]/y;
    source.lastIndex = this.#at;
    const found = source.exec(this.#pattern)?.[0];
    if (found === undefined) throw this.#unsupported();
    this.#at += found.length;
    const single = new RegExp(`^${found}$`);
    return (character) => character !== undefined && single.test(character);
  }

  #step(): void {
    this.#counter.steps++;
  }

  #peek(): string {
    return this.#pattern[this.#at] ?? '';
  }

  #take(text: string): boolean {
    if (!this.#pattern.startsWith(text, this.#at)) return false;
    this.#at += text.length;
    return true;
  }

  #unsupported(): Error {
    return new Error(`Not in the part of the pattern language that the grammar keeps to, at ${this.#at}: ${this.#pattern}`);
  }
}
