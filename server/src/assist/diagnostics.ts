/**
 * Diagnostics of programs and machine cards: pulled where the editor can pull,
 * pushed otherwise, from the same function.
 */
import {
  DiagnosticSeverity, DocumentDiagnosticReportKind,
  type CancellationToken, type Connection, type Diagnostic, type DocumentDiagnosticReport,
} from 'vscode-languageserver';
import { readCard, type CardProblem } from '../machine/read-card.ts';
import type { ProgramDocument } from '../program/index.ts';
import { checkProgram, type Finding } from './check.ts';
import { readToTheEnd } from './slices.ts';
import { answered, type Service } from './service.ts';
import { isMachineCard, type Session } from './session.ts';

export const diagnosticSource = 'blockwright';

const severities = { error: DiagnosticSeverity.Error, warning: DiagnosticSeverity.Warning, information: DiagnosticSeverity.Information } as const;

export const diagnosticsService: Service = {
  capabilities: { diagnosticProvider: { identifier: diagnosticSource, interFileDependencies: true, workspaceDiagnostics: false } },
  register(connection, session) {
    connection.languages.diagnostics.on(({ textDocument }, token) =>
      answered(session, connection, 'diagnostics', textDocument.uri, token, () => report(session, textDocument.uri, token), { kind: DocumentDiagnosticReportKind.Full, items: [] }),
    );
  },
};

async function report(session: Session, uri: string, token: CancellationToken): Promise<DocumentDiagnosticReport> {
  await readToTheEnd(session, uri, 'diagnostics', token);
  return { kind: DocumentDiagnosticReportKind.Full, items: diagnosticsOf(session, uri) };
}

/** Beyond these, findings of one kind are left out in the editor; the command line gives all. */
const mostOfOneKind = 40;

/** For editors that cannot pull: every open document, after each change of it or of the card. */
export function pushDiagnostics(connection: Connection, session: Session, documents: readonly ProgramDocument[]): void {
  for (const { uri, version } of documents) void connection.sendDiagnostics({ uri, version, diagnostics: diagnosticsOf(session, uri) });
}

export function diagnosticsOf(session: Session, uri: string): Diagnostic[] {
  const document = session.document(uri);
  if (!document) return [];
  if (isMachineCard(uri)) return cardDiagnostics(session, document);
  const { card, fault } = session.cards.current;
  const found = session.severities.apply(checkProgram(document.program(session.cards.current.dialect), card, mostOfOneKind));
  return [...(fault === undefined ? [] : [faultDiagnostic(fault)]), ...cutShort(found), ...found.map(findingDiagnostic)];
}

/** Says at the head of a program which rules have more findings than are shown. */
function cutShort(found: readonly Finding[]): Diagnostic[] {
  const counts = new Map<string, number>();
  for (const { rule } of found) counts.set(rule, (counts.get(rule) ?? 0) + 1);
  const full = [...counts].filter(([, count]) => count >= mostOfOneKind).map(([rule]) => rule);
  if (full.length === 0) return [];
  const message = `Of ${full.join(', ')} at most ${mostOfOneKind} findings of one kind are shown; the command line lists all.`;
  return [headDiagnostic(DiagnosticSeverity.Information, 'cut-short', message)];
}

function headDiagnostic(severity: DiagnosticSeverity, code: string, message: string): Diagnostic {
  const start = { line: 0, character: 0 };
  return { range: { start, end: start }, severity, code, source: diagnosticSource, message };
}

function findingDiagnostic({ line, start, end, rule, severity, message, cardKey }: Finding): Diagnostic {
  return {
    range: { start: { line, character: start }, end: { line, character: end } },
    severity: severities[severity],
    code: rule,
    source: diagnosticSource,
    message,
    ...(cardKey === undefined ? {} : { data: { cardKey } }),
  };
}

/** A faulty card is said once at the head of each program that would use it. */
function faultDiagnostic(fault: string): Diagnostic {
  return headDiagnostic(DiagnosticSeverity.Warning, 'card', `${fault} The last good card is in use.`);
}

function cardDiagnostics(session: Session, document: ProgramDocument): Diagnostic[] {
  const skipped = (problem: CardProblem) => problem.kind === 'syntax' && session.clientMarksBrokenJson;
  return readCard(document.getText()).problems.filter((problem) => !skipped(problem)).map((problem) => ({
    range: { start: document.positionAt(problem.start), end: document.positionAt(problem.end) },
    severity: DiagnosticSeverity.Error,
    code: 'card',
    source: diagnosticSource,
    message: problem.message,
  }));
}
