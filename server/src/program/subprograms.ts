/**
 * Finds where subprograms begin: lines that open with a program number.
 *
 * This looks at the text alone, so what it found in a piece holds until that
 * piece is edited.
 */
import { isWhite } from './characters.ts';
import type { Piece, TextStore } from './store.ts';

export interface TextPlace {
  readonly piece: number;
  readonly row: number;
}

/** The lines of a piece that open with a program number. */
interface NumberedRows {
  readonly rows: readonly number[];
  /** The first row of each number. */
  readonly firstOf: ReadonlyMap<number, number>;
}

const PROGRAM_NUMBER = /[\t ]*\/?\d?[\t ]*[Oo:][\t ]*(\d+)/y;
const MARKS = new Set([79, 111, 58]);

export class SubprogramIndex {
  readonly #found = new WeakMap<Piece, NumberedRows>();

  constructor(private readonly store: TextStore) {}

  /** The first line with this program number, or undefined. */
  find(program: number): TextPlace | undefined {
    const { pieces } = this.store;
    for (let piece = 0; piece < pieces.length; piece++) {
      const row = this.#numberedRowsOf(pieces[piece]!).firstOf.get(program);
      if (row !== undefined) return { piece, row };
    }
    return undefined;
  }

  /** The rows of a piece that open with a program number, in order. */
  rowsIn(piece: number): readonly number[] {
    return this.#numberedRowsOf(this.store.pieces[piece]!).rows;
  }

  #numberedRowsOf(piece: Piece): NumberedRows {
    const known = this.#found.get(piece);
    if (known !== undefined) return known;
    const rows = numberedRowsOf(piece);
    this.#found.set(piece, rows);
    return rows;
  }
}

function numberedRowsOf(piece: Piece): NumberedRows {
  const rows: number[] = [];
  const firstOf = new Map<number, number>();
  for (let row = 0; row < piece.lineStarts.length; row++) {
    const start = piece.from + piece.lineStarts[row]!;
    if (!mayBegin(piece, start)) continue;
    PROGRAM_NUMBER.lastIndex = start;
    const match = PROGRAM_NUMBER.exec(piece.source);
    if (match === null) continue;
    rows.push(row);
    if (!firstOf.has(Number(match[1]))) firstOf.set(Number(match[1]), row);
  }
  return { rows, firstOf };
}

/** Looks at the first character that is not white space. */
function mayBegin(piece: Piece, start: number): boolean {
  const limit = piece.from + piece.length;
  let at = start;
  while (at < limit && isWhite(piece.source.charCodeAt(at))) at++;
  const code = at < limit ? piece.source.charCodeAt(at) : 0;
  return MARKS.has(code) || code === 47;
}
