/** Long work in slices, so that a hover need not wait for it and an edit can call it off. */
import { LSPErrorCodes, ResponseError, type CancellationToken } from 'vscode-languageserver';
import type { Session } from './session.ts';

/** Lines that are read before waiting messages are let in: some milliseconds' worth. */
export const linesInASlice = 10_000;

/** Resolves when the whole program has been read; rejects when the request named `name` is no longer wanted. */
export async function readToTheEnd(session: Session, uri: string, name: string, token: CancellationToken): Promise<void> {
  while (session.program(uri)?.advance(linesInASlice) === false) {
    await pause(session, name, token);
  }
}

/**
 * Does work that pauses, and lets waiting messages in at each pause, after
 * `atPause` was told how far it is. Rejects when the program has changed under
 * the work, or when the work is no longer wanted.
 */
export async function inSlices<Step, Result>(session: Session, uri: string, name: string, token: CancellationToken, work: Generator<Step, Result>, atPause?: (step: Step) => void): Promise<Result> {
  const version = session.document(uri)?.version;
  let step = work.next();
  while (!step.done) {
    atPause?.(step.value);
    await pause(session, name, token);
    if (session.document(uri)?.version !== version) throw new ResponseError(LSPErrorCodes.ContentModified, 'The program has changed meanwhile.');
    step = work.next();
  }
  return step.value;
}

async function pause(session: Session, name: string, token: CancellationToken): Promise<void> {
  await session.runtime.yieldToMessages();
  if (token.isCancellationRequested) throw new ResponseError(LSPErrorCodes.RequestCancelled, `${name} cancelled`);
}
