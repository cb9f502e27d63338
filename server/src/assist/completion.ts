/**
 * Completion: shows what can be typed at the cursor.
 *
 * Lists of G and M words go only to a client that says it opens them on demand.
 * An editor that opens a list by itself while a programmer types `M3` and Enter
 * could put M30 there, and nobody would notice.
 */
import { CompletionItemKind, MarkupKind, type CompletionItem, type CompletionParams } from 'vscode-languageserver';
import { escaped } from './markdown.ts';
import { answered, type Service } from './service.ts';
import type { Session } from './session.ts';
import type { Suggestion } from './suggestion.ts';
import { suggestionsAt } from './suggestions.ts';

export const completionService: Service = {
  capabilities: { completionProvider: { triggerCharacters: ['(', ';', ':', '+', '=', ' '] } },
  register(connection, session) {
    connection.onCompletion((parameters, token) => answered(session, connection, 'completion', parameters.textDocument.uri, token, () => completionsAt(session, parameters), []));
  },
};

function completionsAt(session: Session, { textDocument, position: { line, character } }: CompletionParams): CompletionItem[] {
  const program = session.program(textDocument.uri);
  const suggestions = program ? suggestionsAt(program, line, character, session.cards.current) : [];
  const wanted = suggestions.filter(({ kind }) => kind !== 'code' || session.clientListsWordsOnDemand);
  return wanted.map((suggestion, index) => itemOf(suggestion, line, index));
}

const kinds = {
  process: CompletionItemKind.Module, parameter: CompletionItemKind.Property, value: CompletionItemKind.EnumMember, mark: CompletionItemKind.Snippet, code: CompletionItemKind.Keyword,
} as const satisfies Record<Suggestion['kind'], CompletionItemKind>;

function itemOf({ kind, text, start, end, title, about, opensValues }: Suggestion, line: number, index: number): CompletionItem {
  const label = text.trim();
  return {
    label: kind === 'parameter' ? label.replace('=', '') : label.replace(/:$/, ''),
    kind: kinds[kind],
    detail: title,
    ...(about === '' ? {} : { documentation: { kind: MarkupKind.Markdown, value: escaped(about) } }),
    filterText: label,
    // The order is that of the process, not of the alphabet.
    sortText: String(index).padStart(4, '0'),
    textEdit: { range: { start: { line, character: start }, end: { line, character: end } }, newText: text },
    ...(opensValues ? { command: { title: 'Show the values', command: 'editor.action.triggerSuggest' } } : {}),
  };
}
