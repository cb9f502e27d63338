/** The language server in a browser worker. Files are read by the client, since a worker has none. */
import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import type { ReadTextParameters } from './requests.ts';
import { startServer } from './server.ts';

/** What a worker's global object has, without pulling in a whole library of types for it. */
declare const self: ConstructorParameters<typeof BrowserMessageReader>[0];
declare function setTimeout(work: () => void, milliseconds: number): unknown;

const connection = createConnection(new BrowserMessageReader(self), new BrowserMessageWriter(self));

startServer(connection, {
  readText: async (uri) => {
    const parameters: ReadTextParameters = { uri };
    const text = await connection.sendRequest<string | null>('blockwright/readText', parameters).catch(() => null);
    return text ?? undefined;
  },
  yieldToMessages: () => new Promise<void>((resolve) => setTimeout(resolve, 0)),
  rest: (milliseconds) => new Promise<void>((resolve) => setTimeout(resolve, milliseconds)),
});
