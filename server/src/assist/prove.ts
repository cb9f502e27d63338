/**
 * The virtual cut as a request: in slices, with progress, cancelled when it is no
 * longer wanted or when the program changes under it.
 */
import { LSPErrorCodes, ResponseError, type CancellationToken, type Connection } from 'vscode-languageserver';
import { proveProgram, type ProvedStretch } from '../process/proof.ts';
import type { ProveAnswer, ProveParameters, ProveProgress } from '../requests.ts';
import { proofText } from './proof-text.ts';
import { inSlices } from './slices.ts';
import type { Service } from './service.ts';
import type { Session } from './session.ts';

export const proveService: Service = {
  capabilities: {},
  register(connection, session) {
    connection.onRequest('blockwright/prove', (parameters: ProveParameters, token: CancellationToken) => prove(connection, session, parameters, token));
  },
};

async function prove(connection: Connection, session: Session, { uri }: ProveParameters, token: CancellationToken): Promise<ProveAnswer> {
  await session.cardKnown;
  const program = session.program(uri);
  const version = session.document(uri)?.version ?? 0;
  if (!program) throw new ResponseError(LSPErrorCodes.RequestFailed, `${uri} is not an open program`);
  const report = (share: number) => {
    const progress: ProveProgress = { uri, share };
    void connection.sendNotification('blockwright/proveProgress', progress);
  };
  const proved = await inSlices(session, uri, 'prove', token, proveProgram(program, session.cards.current.card), report);
  return { version, text: proofText(fileName(uri), proved), findings: session.severities.apply(proved.flatMap(findingsOf)) };
}

function findingsOf({ fromLine, proof, refused }: ProvedStretch): ProveAnswer['findings'] {
  if (!proof) return [{ line: fromLine, severity: 'error', rule: 'not-proved', message: refused ?? '' }];
  return proof.findings.map(({ line, severity, rule, message }) => ({ line, severity, rule, message }));
}

function fileName(uri: string): string {
  return decodeURIComponent(uri.slice(uri.lastIndexOf('/') + 1));
}
