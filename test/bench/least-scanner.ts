/**
 * The least work that any reader of a program must do: every letter with its
 * number, comments passed over, line starts noted. It knows no modes, finds no
 * mistakes and accepts any text. Speeds of the engine are given as ratios to it,
 * since it takes as long as the machine and its load make it.
 */
const LINE_FEED = 10;
const SPACE = 32;
const OPEN_PARENTHESIS = 40;
const CLOSE_PARENTHESIS = 41;
const MINUS = 45;
const POINT = 46;
const ZERO = 48;
const NINE = 57;
const LOWER_A = 97;
const LOWER_Z = 122;

export class LeastScanner {
  words = 0;
  lines = 0;
  readonly #letters: Uint8Array;
  readonly #places: Int32Array;
  readonly #values: Float64Array;
  readonly #lineStarts: Int32Array;

  /** For texts of up to `length` characters. */
  constructor(length: number) {
    this.#letters = new Uint8Array(length);
    this.#places = new Int32Array(length);
    this.#values = new Float64Array(length);
    this.#lineStarts = new Int32Array(length);
  }

  /** Answers how many words the text has. */
  scan(text: string): number {
    this.words = this.lines = 0;
    for (let at = 0; at < text.length;) at = this.#item(text, at);
    return this.words;
  }

  #item(text: string, at: number): number {
    const code = text.charCodeAt(at);
    if (code === SPACE) return at + 1;
    if (code === LINE_FEED) return (this.#lineStarts[this.lines++] = at + 1);
    if (code === OPEN_PARENTHESIS) return this.#comment(text, at);
    const letter = code | 32;
    return letter >= LOWER_A && letter <= LOWER_Z ? this.#word(text, letter, at) : at + 1;
  }

  #comment(text: string, at: number): number {
    let end = at + 1;
    for (let code = 0; end < text.length && (code = text.charCodeAt(end)) !== CLOSE_PARENTHESIS && code !== LINE_FEED;) end++;
    return end;
  }

  #word(text: string, letter: number, at: number): number {
    let end = at + 1;
    const isNegative = text.charCodeAt(end) === MINUS;
    if (isNegative) end++;
    let value = 0;
    let scale = 0;
    for (; end < text.length; end++) {
      const code = text.charCodeAt(end);
      if (code === POINT && scale === 0) scale = 1;
      else if (code < ZERO || code > NINE) break;
      else {
        value = value * 10 + (code - ZERO);
        scale *= 10;
      }
    }
    this.#letters[this.words] = letter;
    this.#places[this.words] = at;
    this.#values[this.words++] = (isNegative ? -value : value) / (scale > 1 ? scale : 1);
    return end;
  }
}
