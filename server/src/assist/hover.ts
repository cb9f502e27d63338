/** Hover: explains the word under the mouse. */
import { MarkupKind, type Hover } from 'vscode-languageserver';
import { explain } from './explain.ts';
import { explanationMarkdown } from './markdown.ts';
import { answered, type Service } from './service.ts';
import type { Session } from './session.ts';

export const hoverService: Service = {
  capabilities: { hoverProvider: true },
  register(connection, session) {
    connection.onHover(({ textDocument, position }, token) =>
      answered(session, connection, 'hover', textDocument.uri, token, () => hoverAt(session, textDocument.uri, position), null),
    );
  },
};

export function hoverAt(session: Session, uri: string, { line, character }: { line: number; character: number }): Hover | null {
  const program = session.program(uri);
  const explanation = program && explain(program, line, character, session.cards.current);
  if (!explanation) return null;
  return {
    contents: { kind: MarkupKind.Markdown, value: explanationMarkdown(explanation) },
    range: { start: { line, character: explanation.start }, end: { line, character: explanation.end } },
  };
}
