/**
 * The command that inserts a block: which process, where, the parameter sheet,
 * then one edit. The text comes from the server; this file only puts it in.
 */
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { BlockAnswer, BlockPlace, PlaceAnswer, ProcessDescription, SheetParameters, TypedValues } from '../../server/src/requests.ts';
import { ParameterSheet } from './parameter-sheet.ts';
import { TrackedLine } from './tracked-place.ts';

/** What a code action or a key binding may settle beforehand; values given here go before those of the last time. */
interface Request {
  process?: string;
  place?: BlockPlace;
  values?: TypedValues;
}

export async function insertBlock(client: BaseLanguageClient, memory: vscode.Memento, argument: unknown): Promise<void> {
  const request = (argument ?? {}) as Request;
  const place = request.place ?? placeOfCursor();
  if (!place) {
    void vscode.window.showInformationMessage('Open an NC program and place the cursor where the block shall go.');
    return;
  }
  const { refusal } = await client.sendRequest<PlaceAnswer>('blockwright/place', place);
  if (refusal !== undefined) {
    void refused('No block can go in here.', refusal);
    return;
  }
  const process = request.process ?? (await chooseProcess(client));
  if (process === undefined) return;
  const key = `values.${process}`;
  const tracked = new TrackedLine(place.uri, place.line);
  try {
    const sheet = new ParameterSheet(client, { process, place, values: { ...memory.get<TypedValues>(key, {}), ...request.values } }, (values) => void memory.update(key, values));
    const values = await sheet.run();
    if (values) await putIn(client, { process, place, values }, tracked);
  } finally {
    tracked.dispose();
  }
}

function placeOfCursor(): BlockPlace | undefined {
  const editor = vscode.window.activeTextEditor;
  if (editor?.document.languageId !== 'nc-program') return undefined;
  const { line, character } = editor.selection.active;
  return { uri: editor.document.uri.toString(), line, character };
}

async function chooseProcess(client: BaseLanguageClient): Promise<string | undefined> {
  const processes = await client.sendRequest<ProcessDescription[]>('blockwright/processes');
  const items = processes.map(({ id, title, summary }) => ({ label: title, detail: summary, id }));
  return (await vscode.window.showQuickPick(items, { placeHolder: 'Which block shall be inserted?', matchOnDetail: true }))?.id;
}

/**
 * One edit, so one undo step. The place moves with what is typed elsewhere while
 * the sheet is open. The server makes the text for one version of the document;
 * if somebody types in between, it is asked again.
 */
async function putIn(client: BaseLanguageClient, { process, place, values }: SheetParameters, tracked: TrackedLine): Promise<void> {
  const uri = vscode.Uri.parse(place.uri);
  const document = await vscode.workspace.openTextDocument(uri);
  if (tracked.line === undefined) {
    void vscode.window.showWarningMessage('The line where the block should go has been changed meanwhile. Your values are kept: place the cursor and insert again.');
    return;
  }
  const answer = await client.sendRequest<BlockAnswer>('blockwright/block', { process, place: { ...place, line: tracked.line }, values });
  if (answer.version !== document.version) return putIn(client, { process, place, values }, tracked);
  if (answer.text === '') {
    void refused('The block cannot be made.', answer.problems.join('\n'));
    return;
  }
  const edit = new vscode.WorkspaceEdit();
  edit.insert(uri, new vscode.Position(answer.line, answer.character), answer.text);
  const { subprogram } = answer;
  if (subprogram) edit.insert(uri, new vscode.Position(subprogram.line, subprogram.character), subprogram.text);
  await applied(edit);
  const editor = vscode.window.visibleTextEditors.find((each) => each.document.uri.toString() === uri.toString());
  editor?.revealRange(new vscode.Range(answer.line, 0, answer.line + answer.text.split('\n').length, 0), vscode.TextEditorRevealType.InCenterIfOutsideViewport);
}

/** Says why something was not done. A message in the corner would cut the reason off, and here it has to be read. */
export async function refused(what: string, why: string): Promise<void> {
  await vscode.window.showErrorMessage(what, { modal: true, detail: why });
}

/** Applies an edit, and says so when the editor refuses it, as for a file that is read-only. */
export async function applied(edit: vscode.WorkspaceEdit): Promise<void> {
  if (!(await vscode.workspace.applyEdit(edit))) void vscode.window.showErrorMessage('The editor did not take the block: the program may be read-only.');
}
