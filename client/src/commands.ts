/** Commands and the status item: the same for every host. */
import * as vscode from 'vscode';
import type { BaseLanguageClient, LanguageClientOptions } from 'vscode-languageclient';
import type { InitializationOptions, ReadTextParameters } from '../../server/src/requests.ts';
import { openMachineCard } from './card.ts';
import { CardStatus } from './card-status.ts';
import { editBlock, remakeBlock } from './edit-block.ts';
import { insertBlock } from './insert-block.ts';
import { Prover } from './prove.ts';
import { wordsOnDemand } from './words-on-demand.ts';

const initializationOptions: InitializationOptions = { marksBrokenJson: true, listsWordsOnDemand: true };

export const clientOptions: LanguageClientOptions = {
  documentSelector: [{ language: 'nc-program' }, { pattern: '**/*.machine.json' }],
  initializationOptions,
  middleware: wordsOnDemand,
};

/** Starts the client and registers what belongs to it. */
export async function startClient(context: vscode.ExtensionContext, client: BaseLanguageClient): Promise<void> {
  const status = new CardStatus(client);
  const prover = new Prover(client);
  context.subscriptions.push(
    status,
    prover,
    vscode.commands.registerCommand('blockwright.prove', () => prover.prove()),
    vscode.commands.registerCommand('blockwright.insertBlock', (request?: unknown) => insertBlock(client, context.workspaceState, request)),
    vscode.commands.registerCommand('blockwright.editBlock', (request?: unknown) => editBlock(client, request)),
    vscode.commands.registerCommand('blockwright.remakeBlock', (request?: unknown) => remakeBlock(client, request)),
    vscode.commands.registerCommand('blockwright.openCard', (key?: unknown) => openMachineCard(client, typeof key === 'string' ? key : undefined)),
  );
  client.onRequest('blockwright/readText', ({ uri }: ReadTextParameters) => readText(vscode.Uri.parse(uri)));
  await client.start();
  await status.show();
}

/** Null when the file cannot be read: the server says what follows from that. */
async function readText(uri: vscode.Uri): Promise<string | null> {
  try {
    return new TextDecoder().decode(await vscode.workspace.fs.readFile(uri));
  } catch {
    return null;
  }
}
