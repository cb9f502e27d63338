/**
 * What an editor service is: its share of the server's capabilities, and its
 * handlers. Each service is a file of its own; server.ts only lists them, and
 * the capabilities follow from the list.
 */
import { LSPErrorCodes, ResponseError, type CancellationToken, type Connection, type ServerCapabilities } from 'vscode-languageserver';
import type { Session } from './session.ts';

export interface Service {
  readonly capabilities: ServerCapabilities;
  register(connection: Connection, session: Session): void;
}

/**
 * Runs a request: lets newer messages in, leaves when it is no longer wanted,
 * and turns a defect into an empty answer and a log line. A defect in one answer
 * must not take the editor's other services down.
 */
export async function answered<T>(session: Session, connection: Connection, name: string, uri: string, token: CancellationToken, work: () => T | Promise<T>, nothing: T): Promise<T> {
  await session.cardKnown;
  await session.runtime.yieldToMessages();
  if (token.isCancellationRequested) throw new ResponseError(LSPErrorCodes.RequestCancelled, `${name} cancelled`);
  try {
    return await work();
  } catch (error) {
    if (error instanceof ResponseError) throw error;
    const version = session.document(uri)?.version;
    connection.console.error(`${name} of ${uri} (version ${version ?? 'unknown'}) failed: ${whatFailed(error)}`);
    return nothing;
  }
}

/** A defect, for the log. */
export function whatFailed(error: unknown): string {
  return error instanceof Error ? error.stack ?? error.message : String(error);
}
