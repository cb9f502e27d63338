/** The entry in an editor without Node: starts the language server in a worker. */
import * as vscode from 'vscode';
import { LanguageClient } from 'vscode-languageclient/browser';
import { clientOptions, startClient } from './commands.ts';

/** A worker as this file sees it. The library's own type of it comes from a library of types that is not loaded, so it takes anything. */
interface ServerWorker {
  postMessage(message: unknown): void;
}
declare const Worker: new (url: string) => ServerWorker;

let client: LanguageClient | undefined;

export async function activate(context: vscode.ExtensionContext): Promise<void> {
  const script = vscode.Uri.joinPath(context.extensionUri, 'server/dist/browser.js').toString(true);
  client = new LanguageClient('blockwright', 'Blockwright', new Worker(script), clientOptions);
  await startClient(context, client);
}

export async function deactivate(): Promise<void> {
  await client?.stop();
}
