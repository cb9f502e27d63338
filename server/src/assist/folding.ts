/** Folding: programs, the work of each tool, and the blocks of process notes. */
import { FoldingRangeKind, type CancellationToken, type FoldingRange } from 'vscode-languageserver';
import { inSlices, readToTheEnd } from './slices.ts';
import { sectionsOf, type Section, type Sections } from './sections.ts';
import { answered, type Service } from './service.ts';
import type { Session } from './session.ts';

/** What editors take by default; a client may say that it takes fewer. */
const mostRanges = 5000;

export const foldingService: Service = {
  capabilities: { foldingRangeProvider: true },
  register(connection, session) {
    connection.onFoldingRanges(({ textDocument: { uri } }, token) => answered(session, connection, 'foldingRange', uri, token, () => folding(session, uri, token), []));
  },
};

async function folding(session: Session, uri: string, token: CancellationToken): Promise<FoldingRange[]> {
  await readToTheEnd(session, uri, 'foldingRange', token);
  const program = session.program(uri);
  const most = Math.min(mostRanges, session.mostFoldingRanges);
  return program ? foldingRangesOf(await inSlices(session, uri, 'foldingRange', token, sectionsOf(program, most))) : [];
}

/** A range for each section that is longer than a line, in the order of the text. */
export function foldingRangesOf({ roots }: Sections): FoldingRange[] {
  return roots.flatMap(rangesOf);
}

function rangesOf({ kind, fromLine, toLine, children }: Section): FoldingRange[] {
  const inner = children.flatMap(rangesOf);
  if (toLine <= fromLine) return inner;
  const own: FoldingRange = { startLine: fromLine, endLine: toLine, ...(kind === 'note' ? { kind: FoldingRangeKind.Region } : {}) };
  return [own, ...inner];
}
