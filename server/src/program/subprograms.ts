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

const PROGRAM_NUMBER = /[\t ]*\/?\d?[\t ]*[Oo:][\t ]*(\d+)/y;
const MARKS = new Set([79, 111, 58]);

export class SubprogramIndex {
  readonly #found = new WeakMap<Piece, ReadonlyMap<number, number>>();

  constructor(private readonly store: TextStore) {}

  /** The first line with this program number, or undefined. */
  find(program: number): TextPlace | undefined {
    const { pieces } = this.store;
    for (let piece = 0; piece < pieces.length; piece++) {
      const row = this.#rowsOf(pieces[piece]!).get(program);
      if (row !== undefined) return { piece, row };
    }
    return undefined;
  }

  /** The rows of a piece that open with a program number, in order; of equal numbers the first row. */
  rowsIn(piece: number): number[] {
    return [...this.#rowsOf(this.store.pieces[piece]!).values()].sort((first, second) => first - second);
  }

  #rowsOf(piece: Piece): ReadonlyMap<number, number> {
    const known = this.#found.get(piece);
    if (known !== undefined) return known;
    const rows = programNumbersIn(piece);
    this.#found.set(piece, rows);
    return rows;
  }
}

function programNumbersIn(piece: Piece): ReadonlyMap<number, number> {
  const rows = new Map<number, number>();
  for (let row = piece.lineStarts.length - 1; row >= 0; row--) {
    const start = piece.from + piece.lineStarts[row]!;
    if (!mayBegin(piece, start)) continue;
    PROGRAM_NUMBER.lastIndex = start;
    const match = PROGRAM_NUMBER.exec(piece.source);
    if (match !== null) rows.set(Number(match[1]), row);
  }
  return rows;
}

/** Looks at the first character that is not white space. */
function mayBegin(piece: Piece, start: number): boolean {
  const limit = piece.from + piece.length;
  let at = start;
  while (at < limit && isWhite(piece.source.charCodeAt(at))) at++;
  const code = at < limit ? piece.source.charCodeAt(at) : 0;
  return MARKS.has(code) || code === 47;
}
