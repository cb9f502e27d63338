/**
 * A line of a document that stays with its text while somebody types elsewhere.
 * The sheet leaves the program open to edits, so the place of a block must move
 * with them; when the line itself is changed or taken away, the place is lost.
 */
import * as vscode from 'vscode';

export class TrackedLine implements vscode.Disposable {
  #line: number | undefined;
  readonly #subscription: vscode.Disposable;

  constructor(uri: string, line: number) {
    this.#line = line;
    this.#subscription = vscode.workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
      if (document.uri.toString() !== uri) return;
      // The last change of the text comes first, so each is seen with the lines as they were before it.
      for (const change of contentChanges) this.#follow(change);
    });
  }

  /** Where the line is now; undefined when it was changed. */
  get line(): number | undefined {
    return this.#line;
  }

  dispose(): void {
    this.#subscription.dispose();
  }

  #follow({ range, text }: vscode.TextDocumentContentChangeEvent): void {
    if (this.#line === undefined || range.start.line > this.#line) return;
    const endsBefore = range.end.line < this.#line || (range.end.line === this.#line && range.end.character === 0);
    if (endsBefore) this.#line += text.split(/\r\n|\r|\n/).length - 1 - (range.end.line - range.start.line);
    else this.#line = undefined;
  }
}
