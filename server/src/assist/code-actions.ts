/**
 * Code actions that belong to a place: insert a block, edit one, fill a hole,
 * and the ways out of a drift.
 *
 * Insert, before: an empty line. After: the block of the process, once the
 * parameter sheet that the client opens has been confirmed.
 */
import { CodeActionKind, type CodeAction, type CodeActionParams } from 'vscode-languageserver';
import { processes } from '../process/processes.ts';
import { diagnosticSource } from './diagnostics.ts';
import { driftActions } from './drift-actions.ts';
import { judgePlace } from './insert.ts';
import { noteAnswer } from './remake-block.ts';
import { answered, type Service } from './service.ts';
import type { Session } from './session.ts';

export const codeActionsService: Service = {
  capabilities: { codeActionProvider: { codeActionKinds: [CodeActionKind.RefactorRewrite, CodeActionKind.QuickFix] } },
  register(connection, session) {
    connection.onCodeAction((parameters, token) =>
      answered(session, connection, 'codeAction', parameters.textDocument.uri, token, () => codeActions(session, parameters), []),
    );
  },
};

function codeActions(session: Session, parameters: CodeActionParams): CodeAction[] {
  if (!session.program(parameters.textDocument.uri)) return [];
  const wanted = (kind: string) => parameters.context.only === undefined || parameters.context.only.some((only) => kind === only || kind.startsWith(`${only}.`) || only === '');
  return [
    ...(wanted(CodeActionKind.QuickFix) ? [...holeFixes(parameters), ...driftActions(session, parameters.textDocument.uri, parameters.context.diagnostics.filter(({ source }) => source === diagnosticSource))] : []),
    ...(wanted(CodeActionKind.RefactorRewrite) ? [...editings(session, parameters), ...insertions(session, parameters)] : []),
  ];
}

/** In a block: its parameters in the sheet, and the block made anew in place. */
function editings(session: Session, { textDocument: { uri }, range }: CodeActionParams): CodeAction[] {
  const program = session.program(uri);
  const note = program && noteAnswer(program, range.start.line);
  if (!note) return [];
  const title = `Edit this ${note.title.toLowerCase()} block`;
  return [{ title: `${title}…`, kind: CodeActionKind.RefactorRewrite, command: { title, command: 'blockwright.editBlock', arguments: [{ uri, line: note.line }] } }];
}

/** None where a block cannot go in; the command says why. */
function insertions(session: Session, { textDocument: { uri }, range }: CodeActionParams): CodeAction[] {
  const program = session.program(uri);
  const { refusal, behindBlock } = program ? judgePlace(program, range.end) : { refusal: '', behindBlock: false };
  if (refusal !== undefined) return [];
  return processes.map(({ id, title: process }) => {
    const title = `Insert ${process.toLowerCase()} block${behindBlock ? ' behind this block' : ''}`;
    const command = { title, command: 'blockwright.insertBlock', arguments: [{ process: id, place: { uri, ...range.end } }] };
    return { title: `${title}…`, kind: CodeActionKind.RefactorRewrite, command };
  });
}

/** A hole, or a block that would have one, leads to the key of the machine card that would fill it. */
function holeFixes({ context }: CodeActionParams): CodeAction[] {
  const ours = context.diagnostics.filter(({ source }) => source === diagnosticSource);
  const keys = ours.map((diagnostic) => ({ diagnostic, key: (diagnostic.data as { cardKey?: string } | undefined)?.cardKey }));
  return keys.flatMap(({ diagnostic, key }) => (key === undefined ? [] : [{
    title: `Open the machine card at ${key}`,
    kind: CodeActionKind.QuickFix,
    diagnostics: [diagnostic],
    command: { title: 'Open the machine card', command: 'blockwright.openCard', arguments: [key] },
  }]));
}
