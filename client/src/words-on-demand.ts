/**
 * Keeps lists of G and M words out of the way of somebody who types. A list that
 * opens by itself could put another word in place of the one that was meant when
 * Enter is pressed, so such words are shown only where the editor opens no lists
 * by itself: the key that asks for a list still brings them.
 */
import * as vscode from 'vscode';
import type { Middleware } from 'vscode-languageclient';

type QuickSuggestions = boolean | { readonly other?: boolean | string } | undefined;

export const wordsOnDemand: Pick<Middleware, 'provideCompletionItem'> = {
  provideCompletionItem: async (document, position, context, token, next) => {
    const found = await next(document, position, context, token);
    if (!found || !opensListsByItself(document)) return found;
    const notes = (items: readonly vscode.CompletionItem[]) => items.filter(({ kind }) => kind !== vscode.CompletionItemKind.Keyword);
    return Array.isArray(found) ? notes(found) : new vscode.CompletionList(notes(found.items), found.isIncomplete);
  },
};

function opensListsByItself(document: vscode.TextDocument): boolean {
  const setting = vscode.workspace.getConfiguration('editor', document).get<QuickSuggestions>('quickSuggestions');
  const other = typeof setting === 'object' ? setting.other : setting;
  return other !== false && other !== 'off';
}
