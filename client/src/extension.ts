/**
 * The entry in an editor with Node: starts the language server as a process.
 * The client knows no process of manufacture, no gear and no code.
 */
import type { ExtensionContext } from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { clientOptions, startClient } from './commands.ts';

let client: LanguageClient | undefined;

export async function activate(context: ExtensionContext): Promise<void> {
  const module = context.asAbsolutePath('server/dist/main.js');
  client = new LanguageClient('blockwright', 'Blockwright', { module, transport: TransportKind.ipc }, clientOptions);
  await startClient(context, client);
}

export async function deactivate(): Promise<void> {
  await client?.stop();
}
