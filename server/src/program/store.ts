/**
 * The text of a program in pieces of some hundred lines.
 *
 * An edit rebuilds the pieces it touches and nothing else; what is proportional
 * to the file is a sum over the pieces, some eight thousand for a million lines.
 * A piece is a stretch of some larger string, so opening a file copies nothing.
 * A line belongs to the piece it starts in, and a piece ends where a line ends,
 * except that the last one holds the last line, which may be empty.
 */

export interface Piece {
  /** The string that holds the text of the piece. */
  readonly source: string;
  readonly from: number;
  readonly length: number;
  /** Where lines start, counted from `from`. Never empty. */
  readonly lineStarts: Uint32Array;
  /** No carriage return is in it, so that each of its lines but the last ends with one line feed. */
  readonly feedsOnly: boolean;
}

/** What an edit did to the list of pieces. */
export interface Splice {
  readonly first: number;
  readonly removed: number;
  readonly inserted: number;
}

export const LINES_PER_PIECE = 384;
/** A piece with fewer lines is joined with the next one when an edit touches it. */
const FEWEST_LINES = 64;
/** A piece may grow to this many lines before an edit splits it. */
const MOST_LINES = 768;
/** So many lines tell how many the text will have. */
const LINES_THAT_TELL = 4096;
/** A line table may have some spare room. */
const FULLNESS = 0.9;
const LINE_FEED = 10;
const CARRIAGE_RETURN = 13;

export class TextStore {
  #pieces: Piece[];
  #length: number;
  #whole: string | undefined;
  /** Lines and characters before each piece, right up to the piece `#summed`. */
  #linesBefore = new Float64Array(0);
  #lengthBefore = new Float64Array(0);
  #summed = 0;

  constructor(text: string) {
    this.#pieces = piecesOf(text);
    this.#length = text.length;
    this.#whole = text;
  }

  get pieces(): readonly Piece[] {
    return this.#pieces;
  }

  get length(): number {
    return this.#length;
  }

  get lineCount(): number {
    this.#sum();
    return this.#linesBefore[this.#pieces.length]!;
  }

  /** The whole text. Copies it if there was an edit since the last call. */
  text(): string {
    return (this.#whole ??= this.#pieces.map(pieceText).join(''));
  }

  slice(start: number, end: number): string {
    if (this.#whole !== undefined) return this.#whole.slice(start, end);
    let text = '';
    for (let index = this.pieceAtOffset(start); index < this.#pieces.length; index++) {
      const before = this.lengthBefore(index);
      if (before >= end) break;
      const piece = this.#pieces[index]!;
      text += piece.source.slice(piece.from + Math.max(0, start - before), piece.from + Math.min(piece.length, end - before));
    }
    return text;
  }

  /** The piece that holds `line`, which must be less than `lineCount`. */
  pieceAtLine(line: number): number {
    this.#sum();
    return lastNotAbove(this.#linesBefore, this.#pieces.length, line);
  }

  pieceAtOffset(offset: number): number {
    this.#sum();
    return lastNotAbove(this.#lengthBefore, this.#pieces.length, offset);
  }

  /** Lines before a piece. */
  linesBefore(piece: number): number {
    this.#sum();
    return this.#linesBefore[piece]!;
  }

  /** Characters before a piece. */
  lengthBefore(piece: number): number {
    this.#sum();
    return this.#lengthBefore[piece]!;
  }

  /** Where `line` starts, with the length of the text for a line beyond the last. */
  lineStart(line: number): number {
    if (line >= this.lineCount) return this.#length;
    const piece = this.pieceAtLine(line);
    return this.lengthBefore(piece) + this.#pieces[piece]!.lineStarts[line - this.linesBefore(piece)]!;
  }

  /** The line that holds `offset`, which must lie within the text. */
  lineAt(offset: number): number {
    const index = this.pieceAtOffset(offset);
    const piece = this.#pieces[index]!;
    return this.linesBefore(index) + lastNotAbove(piece.lineStarts, piece.lineStarts.length, offset - this.lengthBefore(index));
  }

  /** Where the text of `line` ends, without its line end. */
  lineEnd(line: number): number {
    const start = this.lineStart(line);
    return this.beforeLineEnd(this.lineStart(line + 1), start);
  }

  lineText(line: number): string {
    if (line < 0 || line >= this.lineCount) return '';
    const index = this.pieceAtLine(line);
    const piece = this.#pieces[index]!;
    const row = line - this.linesBefore(index);
    return piece.source.slice(piece.from + piece.lineStarts[row]!, lineEndInPiece(piece, row));
  }

  /** Steps back from `offset` over line end characters, not below `floor`. Both lie on one line. */
  beforeLineEnd(offset: number, floor: number): number {
    let end = offset;
    while (end > floor && isLineEnd(this.#charCodeAt(end - 1))) end--;
    return end;
  }

  /** Replaces a stretch of the text; answers what happened to the pieces. */
  replace(start: number, end: number, text: string): Splice {
    let first = this.pieceAtOffset(start);
    let last = this.pieceAtOffset(end);
    const head = this.slice(this.lengthBefore(first), start);
    const lastPiece = this.#pieces[last]!;
    const tail = lastPiece.source.slice(lastPiece.from + end - this.lengthBefore(last), lastPiece.from + lastPiece.length);
    let changed = head + text + tail;
    while (last + 1 < this.#pieces.length && !this.#mayEndPiece(changed, last)) changed += pieceText(this.#pieces[++last]!);
    if (first > 0 && changed.charCodeAt(0) === LINE_FEED) changed = pieceText(this.#pieces[--first]!) + changed;
    this.#length += text.length - (end - start);
    return this.#splice(first, last, changed);
  }

  /** A piece must end with a whole line end and should not be tiny. The last piece may be anything. */
  #mayEndPiece(text: string, last: number): boolean {
    if (text.length === 0 || !isLineEnd(text.charCodeAt(text.length - 1))) return false;
    const next = this.#pieces[last + 1]!;
    if (text.charCodeAt(text.length - 1) === CARRIAGE_RETURN && next.source.charCodeAt(next.from) === LINE_FEED) return false;
    return hasLines(text, FEWEST_LINES);
  }

  #splice(first: number, last: number, text: string): Splice {
    const isLast = last + 1 === this.#pieces.length;
    const fresh = piecesOf(flat(text), isLast, MOST_LINES);
    const removed = last - first + 1;
    this.#pieces.splice(first, removed, ...fresh);
    this.#whole = undefined;
    this.#summed = Math.min(this.#summed, first);
    return { first, removed, inserted: fresh.length };
  }

  #charCodeAt(offset: number): number {
    const index = this.pieceAtOffset(offset);
    const piece = this.#pieces[index]!;
    return piece.source.charCodeAt(piece.from + offset - this.lengthBefore(index));
  }

  /** Sums up what an edit left open; from the first changed piece on. */
  #sum(): void {
    const count = this.#pieces.length;
    if (this.#summed === count) return;
    if (this.#linesBefore.length <= count) this.#growSums(count);
    for (let index = this.#summed; index < count; index++) {
      const piece = this.#pieces[index]!;
      this.#linesBefore[index + 1] = this.#linesBefore[index]! + piece.lineStarts.length;
      this.#lengthBefore[index + 1] = this.#lengthBefore[index]! + piece.length;
    }
    this.#summed = count;
  }

  #growSums(count: number): void {
    const lines = new Float64Array(count * 2 + 1);
    const lengths = new Float64Array(count * 2 + 1);
    lines.set(this.#linesBefore);
    lengths.set(this.#lengthBefore);
    this.#linesBefore = lines;
    this.#lengthBefore = lengths;
  }
}

export const isLineEnd = (code: number): boolean => code === LINE_FEED || code === CARRIAGE_RETURN;

export function pieceText(piece: Piece): string {
  return piece.source.slice(piece.from, piece.from + piece.length);
}

/** Where the text of a line of a piece ends in the piece's source, without the line end. */
export function lineEndInPiece(piece: Piece, row: number): number {
  const end = piece.from + (row + 1 < piece.lineStarts.length ? piece.lineStarts[row + 1]! : piece.length);
  return beforeLineEnd(piece.source, end, piece.from + piece.lineStarts[row]!);
}

/** Steps back from `offset` over line end characters, not below `floor`. */
export function beforeLineEnd(text: string, offset: number, floor: number): number {
  let end = offset;
  while (end > floor && isLineEnd(text.charCodeAt(end - 1))) end--;
  return end;
}

/** Cuts a text at line ends. Unless it is the end of the program, an empty line after the last line end is not its own. */
function piecesOf(text: string, isLast = true, mostLines = LINES_PER_PIECE): Piece[] {
  const feedsOnly = !text.includes('\r');
  const starts = lineStartsOf(text, isLast, feedsOnly);
  const size = starts.length <= mostLines ? mostLines : LINES_PER_PIECE;
  const pieces: Piece[] = [];
  for (let line = 0; line < starts.length; line += size) {
    const from = starts[line]!;
    const next = line + size < starts.length ? starts[line + size]! : text.length;
    const lineStarts = starts.subarray(line, Math.min(line + size, starts.length));
    pieces.push({ source: text, from, length: next - from, lineStarts: relativeTo(from, lineStarts), feedsOnly });
  }
  return pieces;
}

function relativeTo(from: number, starts: Uint32Array): Uint32Array {
  for (let i = 0; i < starts.length; i++) starts[i]! -= from;
  return starts;
}

/** CRLF, LF and a lone CR end a line each. */
function lineStartsOf(text: string, isLast: boolean, feedsOnly: boolean): Uint32Array {
  const starts = feedsOnly ? startsAfterLineFeeds(text) : startsAfterAnyEnd(text);
  const endsWithEmptyLine = starts.length > 1 && starts[starts.length - 1] === text.length;
  return endsWithEmptyLine && !isLast ? starts.subarray(0, -1) : starts;
}

function startsAfterLineFeeds(text: string): Uint32Array {
  const found = new StartList(text.length);
  for (let start = text.indexOf('\n') + 1; start > 0; start = text.indexOf('\n', start) + 1) found.add(start);
  return found.done();
}

function startsAfterAnyEnd(text: string): Uint32Array {
  const found = new StartList(text.length);
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code !== LINE_FEED && code !== CARRIAGE_RETURN) continue;
    if (code === CARRIAGE_RETURN && text.charCodeAt(at + 1) === LINE_FEED) at++;
    found.add(at + 1);
  }
  return found.done();
}

/** Grows by what the text seen so far lets expect. */
class StartList {
  #starts = new Uint32Array(64);
  #count = 1;

  constructor(private readonly textLength: number) {}

  add(start: number): void {
    if (this.#count === this.#starts.length) this.#resize(this.#capacityAt(start));
    this.#starts[this.#count++] = start;
  }

  /** The starts without much spare room, so that a file does not hold twice its line table. */
  done(): Uint32Array {
    if (this.#count < this.#starts.length * FULLNESS) this.#resize(this.#count);
    return this.#starts.subarray(0, this.#count);
  }

  /** Twice as many, or once the text has shown what its lines are like, enough for all of it. */
  #capacityAt(start: number): number {
    const expected = Math.ceil((this.#count * this.textLength) / start / FULLNESS) + 1;
    return Math.max(this.#count + 64, this.#count < LINES_THAT_TELL ? Math.min(this.#count * 2, expected) : expected);
  }

  #resize(capacity: number): void {
    const resized = new Uint32Array(capacity);
    resized.set(this.#starts.subarray(0, this.#count));
    this.#starts = resized;
  }
}

function hasLines(text: string, wanted: number): boolean {
  let count = 0;
  for (let at = 0; at < text.length && count < wanted; at++) {
    if (isLineEnd(text.charCodeAt(at))) count++;
  }
  return count >= wanted;
}

/** The last index of the first `count` sorted numbers whose number is not above `wanted`. */
function lastNotAbove(sorted: Float64Array | Uint32Array, count: number, wanted: number): number {
  let low = 0;
  let high = count;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (sorted[middle]! > wanted) high = middle;
    else low = middle + 1;
  }
  return Math.max(0, low - 1);
}

/** Joins what concatenation left in parts, because reading single characters of a joined string is much faster. */
function flat(text: string): string {
  text.charCodeAt(0);
  return text;
}
