/**
 * The characters around a line as bytes: looking at a byte is several times
 * faster than asking a long string for a character, and the characters of a
 * million lines are looked at one by one.
 *
 * Every character beyond ASCII stands as one and the same byte, since none of
 * them belongs to a word; whoever wants to know which it is asks the text.
 */
const USUAL_SIZE = 4096;
export const BEYOND_ASCII = 255;
/** Stands behind the last character, so that a reader of digits need not look where the text ends. */
const NOTHING = 0;

const encoder = new TextEncoder();

export class CharacterWindow {
  /** The character at `offset` of the text is `bytes[offset - start]`. */
  bytes: Uint8Array = new Uint8Array(USUAL_SIZE + 2);
  start = 0;
  readonly #usual = this.bytes;
  #text = '';
  #end = 0;

  /** Makes sure that `text` from `from` up to `limit` is in the window, with some of what follows. */
  show(text: string, from: number, limit: number): void {
    if (text !== this.#text || from < this.start || limit > this.#end) this.#move(text, from, limit);
  }

  #move(text: string, from: number, limit: number): void {
    const size = Math.max(USUAL_SIZE, limit - from);
    this.bytes = size === USUAL_SIZE ? this.#usual : new Uint8Array(size + 2);
    this.#text = text;
    this.start = from;
    this.#end = Math.min(text.length, from + size);
    const { read, written } = encoder.encodeInto(text.slice(from, this.#end), this.bytes);
    if (read !== this.#end - from || written !== read) this.#copy(text, from);
    this.bytes[this.#end - from] = NOTHING;
  }

  /** For text with characters beyond ASCII, which the encoder writes as several bytes. */
  #copy(text: string, from: number): void {
    for (let offset = from; offset < this.#end; offset++) {
      const code = text.charCodeAt(offset);
      this.bytes[offset - from] = code < 128 ? code : BEYOND_ASCII;
    }
  }
}
