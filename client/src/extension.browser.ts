/** The entry in an editor without Node: starts the language server in a worker. */
import * as vscode from 'vscode';
import { LanguageClient } from 'vscode-languageclient/browser';
import { clientOptions, startClient } from './commands.ts';

type WorkerType = ConstructorParameters<typeof LanguageClient>[3];
declare const Worker: new (url: string) => WorkerType;

let client: LanguageClient | undefined;

export async function activate(context: vscode.ExtensionContext): Promise<void> {
  const script = vscode.Uri.joinPath(context.extensionUri, 'server/dist/browser.js').toString(true);
  client = new LanguageClient('blockwright', 'Blockwright', clientOptions, new Worker(script));
  await startClient(context, client);
}

export async function deactivate(): Promise<void> {
  await client?.stop();
}
