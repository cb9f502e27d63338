// Programs for the checks inside the editor, and waiting for what the extension does with them.
import * as vscode from 'vscode';

/** Opens a text as an unsaved program in an editor of its own. */
export async function showProgram(lines: readonly string[]): Promise<vscode.TextEditor> {
  const document = await vscode.workspace.openTextDocument({ language: 'nc-program', content: lines.join('\n') });
  return vscode.window.showTextDocument(document);
}

/** Opens a file of the workspace, chosen by a pattern over its path and one over its text. */
export async function showWorkspaceProgram(textPattern: RegExp): Promise<vscode.TextEditor> {
  for (const file of await vscode.workspace.findFiles('**/*.nc')) {
    const document = await vscode.workspace.openTextDocument(file);
    if (textPattern.test(document.getText())) return vscode.window.showTextDocument(document);
  }
  throw new Error(`no program of the workspace matches ${textPattern}`);
}

/** The position of the first character that a pattern matches. */
export function positionOf(document: vscode.TextDocument, pattern: RegExp): vscode.Position {
  const match = pattern.exec(document.getText());
  if (match === null) throw new Error(`the program holds nothing like ${pattern}`);
  return document.positionAt(match.index);
}

/** Looks again and again until there is something; the limit of the check ends a wait that has no end. */
export async function eventually<Found>(look: () => PromiseLike<Found | undefined> | Found | undefined): Promise<Found> {
  for (;;) {
    const found = await look();
    if (found !== undefined) return found;
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}

/** The hover's text at a position, as soon as the extension has one. */
export function hoverAt(document: vscode.TextDocument, position: vscode.Position): Promise<string> {
  return eventually(async () => {
    const hovers = await vscode.commands.executeCommand<vscode.Hover[]>('vscode.executeHoverProvider', document.uri, position);
    const text = hovers.flatMap(({ contents }) => contents).map((each) => (typeof each === 'string' ? each : each.value)).join('\n');
    return text === '' ? undefined : text;
  });
}
