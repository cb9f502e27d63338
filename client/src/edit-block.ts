/**
 * The commands that change a block in place: its parameters in the sheet, or the
 * block made anew from its note. What the user had written into the block and
 * would go is shown first.
 */
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { NoteAnswer, RemakeAnswer, RemakeParameters, TypedValues } from '../../server/src/requests.ts';
import { applied, refused } from './insert-block.ts';
import { ParameterSheet } from './parameter-sheet.ts';
import { TrackedLine } from './tracked-place.ts';

type BlockRequest = Partial<RemakeParameters>;

/** Opens the sheet with the values of the note at the place, then makes the block anew. */
export async function editBlock(client: BaseLanguageClient, argument: unknown): Promise<void> {
  const request = requestFrom(argument);
  const note = request && (await client.sendRequest<NoteAnswer | null>('blockwright/note', { ...request, character: 0 }));
  if (!request || !note) {
    void vscode.window.showInformationMessage('Place the cursor in a block that a process note opens.');
    return;
  }
  const place = { uri: request.uri, line: note.line, character: 0 };
  const key = JSON.stringify([request.uri, note.process, note.values]);
  const tracked = new TrackedLine(request.uri, note.line);
  try {
    const sheet = new ParameterSheet(client, { process: note.process, place, values: drafts.get(key) ?? note.values }, (values) => drafts.set(key, values), 'Put the block in place');
    const values = await sheet.run();
    if (!values) return;
    if (tracked.line === undefined) void vscode.window.showWarningMessage('The note of the block has been changed meanwhile. Your values are kept: edit the block again.');
    else if (await replaceBlock(client, { uri: request.uri, line: tracked.line, values })) drafts.delete(key);
  } finally {
    tracked.dispose();
  }
}

/** What was typed into the sheet of a block and then left: it comes back as long as the note says what it said. */
const drafts = new Map<string, TypedValues>();

/** Makes the block anew from its own note, or from the values of a quick fix. */
export async function remakeBlock(client: BaseLanguageClient, argument: unknown): Promise<void> {
  const request = requestFrom(argument);
  if (request) await replaceBlock(client, request);
}

function requestFrom(argument: unknown): RemakeParameters | undefined {
  const given = (argument ?? {}) as BlockRequest;
  if (given.uri !== undefined && given.line !== undefined) return { ...given, uri: given.uri, line: given.line };
  const editor = vscode.window.activeTextEditor;
  if (editor?.document.languageId !== 'nc-program') return undefined;
  return { uri: editor.document.uri.toString(), line: editor.selection.active.line };
}

/** One edit, so one undo step. If somebody typed in between, the server is asked again. Answers whether the block was made. */
async function replaceBlock(client: BaseLanguageClient, request: RemakeParameters): Promise<boolean> {
  const uri = vscode.Uri.parse(request.uri);
  const document = await vscode.workspace.openTextDocument(uri);
  const answer = await client.sendRequest<RemakeAnswer>('blockwright/remake', request);
  if (answer.text === '') {
    void refused('The block cannot be made anew.', answer.problems.join('\n'));
    return false;
  }
  if (answer.dropped.length > 0 && !(await agreed(answer.dropped))) return false;
  if (answer.version !== document.version) return replaceBlock(client, request);
  const edit = new vscode.WorkspaceEdit();
  edit.replace(uri, new vscode.Range(answer.fromLine, 0, answer.toLine, 0), answer.text);
  const { subprogram } = answer;
  if (subprogram) edit.replace(uri, new vscode.Range(subprogram.from.line, subprogram.from.character, subprogram.to.line, subprogram.to.character), subprogram.text);
  await applied(edit);
  return true;
}

async function agreed(dropped: readonly string[]): Promise<boolean> {
  const replace = 'Make it anew';
  const detail = `These differences go: ${dropped.join('; ')}. Undo brings them back.`;
  return (await vscode.window.showWarningMessage('The block differs from what its note gives.', { modal: true, detail }, replace)) === replace;
}
