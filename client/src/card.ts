/** Opens the machine card in use at a key, or offers to start one where there is none. */
import * as vscode from 'vscode';
import { findNodeAtLocation, parseTree } from 'jsonc-parser';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { CardAnswer } from '../../server/src/requests.ts';

export async function openMachineCard(client: BaseLanguageClient, key: string | undefined): Promise<void> {
  const { uri } = await client.sendRequest<CardAnswer>('blockwright/card');
  const card = uri === undefined ? await startCard() : vscode.Uri.parse(uri);
  if (!card) return;
  const document = await vscode.workspace.openTextDocument(card);
  const editor = await vscode.window.showTextDocument(document);
  if (key !== undefined) showKey(editor, key);
}

/** Selects the value at a key; the nearest key above it where the card does not have it. */
function showKey(editor: vscode.TextEditor, key: string): void {
  const { document } = editor;
  const root = parseTree(document.getText());
  const steps = key.split('.');
  for (let length = steps.length; root && length > 0; length -= 1) {
    const node = findNodeAtLocation(root, steps.slice(0, length));
    if (!node) continue;
    const range = new vscode.Range(document.positionAt(node.offset), document.positionAt(node.offset + node.length));
    editor.selection = new vscode.Selection(range.start, range.end);
    editor.revealRange(range, vscode.TextEditorRevealType.InCenterIfOutsideViewport);
    return;
  }
}

/** A card with every code empty: each is a hole until the user fills it in from the machine's own manual. */
const emptyCard = {
  name: 'My machine',
  units: 'mm',
  diameterProgramming: true,
  limits: {},
  senses: {},
  codes: {
    feedPerMinute: 'G94', feedPerRevolution: 'G95', syncOn: '', syncOff: '', workAxisOn: '', workAxisOff: '',
    workClamp: '', workUnclamp: '', drivenStart: '', drivenReverse: '', drivenStop: '', coolantOn: 'M08', coolantOff: 'M09',
  },
  meanings: {},
  toolUnits: [],
};

async function startCard(): Promise<vscode.Uri | undefined> {
  const folder = vscode.workspace.workspaceFolders?.[0];
  if (!folder) {
    void vscode.window.showInformationMessage('No machine card is in use, and without a folder there is no place for one. Open the folder of your programs first.');
    return undefined;
  }
  const start = 'Start a machine card';
  const chosen = await vscode.window.showInformationMessage('No machine card is in use: only open-standard words are known. Start one in this folder?', start);
  return chosen === start ? writeEmptyCard(folder.uri) : undefined;
}

/** Never overwrites a file: an existing card of this name is taken into use instead. */
async function writeEmptyCard(folder: vscode.Uri): Promise<vscode.Uri> {
  const name = 'my.machine.json';
  const card = vscode.Uri.joinPath(folder, name);
  const exists = await vscode.workspace.fs.stat(card).then(() => true, () => false);
  if (!exists) await vscode.workspace.fs.writeFile(card, new TextEncoder().encode(`${JSON.stringify(emptyCard, undefined, 2)}\n`));
  await vscode.workspace.getConfiguration('blockwright').update('machineCard', name, vscode.ConfigurationTarget.Workspace);
  return card;
}
