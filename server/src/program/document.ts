/**
 * An open program as the editor sees it: text that is edited in places.
 *
 * It has the shape of `TextDocument` of the language server libraries and agrees
 * with it in every answer, but an edit costs the same in a short and in a very
 * long program. It knows nothing of the protocol beyond that shape.
 */
import { type Dialect, openStandardDialect } from './dialect.ts';
import { EditableProgram, type Program } from './program.ts';
import { TextStore } from './store.ts';

export interface TextPosition {
  line: number;
  character: number;
}

export interface TextRange {
  start: TextPosition;
  end: TextPosition;
}

/** A change of a stretch of the text, or of all of it where there is no range. */
export type TextChange = { range: TextRange; text: string } | { text: string };

export class ProgramDocument {
  #store: TextStore;
  #version: number;
  #program: EditableProgram | undefined;

  /** For `TextDocuments`: makes a document. */
  static create(uri: string, languageId: string, version: number, content: string): ProgramDocument {
    return new ProgramDocument(uri, languageId, version, content);
  }

  /** For `TextDocuments`: applies changes one after the other and answers the same document. */
  static update(document: ProgramDocument, changes: readonly TextChange[], version: number): ProgramDocument {
    for (const change of changes) document.#apply(change);
    document.#version = version;
    return document;
  }

  private constructor(readonly uri: string, readonly languageId: string, version: number, content: string) {
    this.#version = version;
    this.#store = new TextStore(content);
  }

  get version(): number {
    return this.#version;
  }

  get lineCount(): number {
    return this.#store.lineCount;
  }

  /** The text in `range`, or all of it, which costs a copy after each edit. */
  getText(range?: TextRange): string {
    if (range === undefined) return this.#store.text();
    const start = this.offsetAt(range.start);
    const end = this.offsetAt(range.end);
    return this.#store.slice(Math.min(start, end), Math.max(start, end));
  }

  /** A position on a line; an offset inside a line end gives the end of its line. */
  positionAt(offset: number): TextPosition {
    const within = Math.max(0, Math.min(offset, this.#store.length));
    const line = this.#store.lineAt(within);
    const start = this.#store.lineStart(line);
    return { line, character: this.#store.beforeLineEnd(within, start) - start };
  }

  /** A character beyond the line gives the end of the line, a line beyond the text the end of the text. */
  offsetAt(position: TextPosition): number {
    const store = this.#store;
    if (position.line >= store.lineCount) return store.length;
    if (position.line < 0) return 0;
    const start = store.lineStart(position.line);
    if (position.character <= 0) return start;
    return store.beforeLineEnd(Math.min(start + position.character, store.lineStart(position.line + 1)), start);
  }

  /** The range of a line without its line end; beyond the last line an empty one at the end of the text. */
  getLineRange(line: number): TextRange {
    if (line < 0) return { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };
    const { lineCount } = this.#store;
    if (line >= lineCount) return { start: { line: lineCount - 1, character: 0 }, end: this.positionAt(this.#store.length) };
    const length = this.#store.lineEnd(line) - this.#store.lineStart(line);
    return { start: { line, character: 0 }, end: { line, character: length } };
  }

  /** The characters that end a line; empty on the last one. */
  getEOLCharacters(line: number): string {
    if (line < 0 || line >= this.#store.lineCount) return '';
    return this.#store.slice(this.#store.lineEnd(line), this.#store.lineStart(line + 1));
  }

  /**
   * The program in this document, read with `dialect`. It follows the edits of
   * the document; it is read anew only when another dialect is given.
   */
  program(dialect: Dialect = openStandardDialect): Program {
    if (this.#program === undefined || this.#program.dialect !== dialect) this.#program = new EditableProgram(this.#store, dialect);
    return this.#program;
  }

  #apply(change: TextChange): void {
    if (!('range' in change) || change.range === undefined) {
      this.#store = new TextStore(change.text);
      this.#program = undefined;
      return;
    }
    const { start, end } = change.range;
    const from = this.offsetAt(start);
    const to = this.offsetAt(end);
    const splice = this.#store.replace(Math.min(from, to), Math.max(from, to), change.text);
    this.#program?.spliced(splice);
  }
}
