/**
 * Outline: programs with their tools, tools with the blocks of process notes.
 * The whole program is read first, in slices, since a tool change may stand
 * anywhere; after an edit only what changed is read again.
 */
import { SymbolKind, type CancellationToken, type DocumentSymbol } from 'vscode-languageserver';
import type { Program } from '../program/index.ts';
import { inSlices, readToTheEnd } from './slices.ts';
import { sectionsOf, type Section, type Sections } from './sections.ts';
import { answered, type Service } from './service.ts';
import type { Session } from './session.ts';

/** More entries than these take an editor longer to draw than a reader would scroll. The list says where it ends. */
const mostEntries = 5000;

export const outlineService: Service = {
  capabilities: { documentSymbolProvider: { label: 'Blockwright' } },
  register(connection, session) {
    connection.onDocumentSymbol(({ textDocument: { uri } }, token) => answered(session, connection, 'documentSymbol', uri, token, () => outline(session, uri, token), []));
  },
};

async function outline(session: Session, uri: string, token: CancellationToken): Promise<DocumentSymbol[]> {
  await readToTheEnd(session, uri, 'documentSymbol', token);
  const program = session.program(uri);
  return program ? symbolsOf(program, await inSlices(session, uri, 'documentSymbol', token, sectionsOf(program, mostEntries)), mostEntries) : [];
}

/** The symbols of the first `most` sections of a program; where there are more, the last symbol says so. */
export function symbolsOf(program: Program, { roots, cutAtLine }: Sections, most: number): DocumentSymbol[] {
  const symbols = roots.map((section) => symbolOf(program, section));
  return cutAtLine === undefined ? symbols : [...symbols, endOfList(program, most, cutAtLine)];
}

const kinds = { program: SymbolKind.Module, tool: SymbolKind.Property, note: SymbolKind.Function } as const satisfies Record<Section['kind'], SymbolKind>;

function symbolOf(program: Program, { kind, name, detail, fromLine, toLine, start, end, children }: Section): DocumentSymbol {
  return {
    name,
    detail,
    kind: kinds[kind],
    range: { start: { line: fromLine, character: 0 }, end: { line: toLine, character: program.lineText(toLine).length } },
    selectionRange: { start: { line: fromLine, character: start }, end: { line: fromLine, character: end } },
    children: children.map((child) => symbolOf(program, child)),
  };
}

function endOfList(program: Program, most: number, line: number): DocumentSymbol {
  const place = { line, character: 0 };
  const range = { start: place, end: { line, character: program.lineText(line).length } };
  return { name: `Only the first ${most} entries are listed`, kind: SymbolKind.Null, range, selectionRange: { start: place, end: place } };
}
