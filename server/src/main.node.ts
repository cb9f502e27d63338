/** The language server as a Node process, on stdio or on the channel that the editor opens. */
import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { startServer } from './server.ts';

const connection = createConnection(ProposedFeatures.all);

startServer(connection, {
  readText: async (uri) => {
    try {
      return new TextDecoder().decode(await readFile(fileURLToPath(uri)));
    } catch {
      return undefined;
    }
  },
  yieldToMessages: () => new Promise((resolve) => setImmediate(resolve)),
  rest: (milliseconds) => new Promise((resolve) => setTimeout(resolve, milliseconds)),
});
