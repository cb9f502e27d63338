/**
 * The requests behind the parameter sheet: which processes there are, the sheet
 * for the values typed so far, and the block itself.
 */
import { ErrorCodes, ResponseError } from 'vscode-languageserver';
import type { Program } from '../program/index.ts';
import type { Process } from '../process/process.ts';
import { processes, processNamed } from '../process/processes.ts';
import type { BlockAnswer, BlockPlace, CardAnswer, NoteAnswer, PlaceAnswer, ProcessDescription, RemakeAnswer, RemakeParameters, Sheet, SheetParameters } from '../requests.ts';
import { insertionAt, judgePlace, settingFor } from './insert.ts';
import { noteAnswer, remadeAt } from './remake-block.ts';
import type { Service } from './service.ts';
import type { Session } from './session.ts';
import { sheetOf } from './sheet.ts';

export const blocksService: Service = {
  capabilities: {},
  register(connection, session) {
    connection.onRequest('blockwright/processes', (): ProcessDescription[] => processes.map(({ id, title, summary }) => ({ id, title, summary })));
    connection.onRequest('blockwright/place', async (place: BlockPlace): Promise<PlaceAnswer> => {
      await session.cardKnown;
      const { refusal } = judgePlace(programAt(session, place), place);
      return refusal === undefined ? {} : { refusal };
    });
    connection.onRequest('blockwright/sheet', async ({ process, place, values }: SheetParameters): Promise<Sheet> => {
      await session.cardKnown;
      const setting = settingFor(programAt(session, place), place, session.cards.current.card);
      return sheetOf(named(process), values, setting);
    });
    connection.onRequest('blockwright/block', async ({ process, place, values }: SheetParameters): Promise<BlockAnswer> => {
      await session.cardKnown;
      const insertion = insertionAt(programAt(session, place), place, named(process), values, session.cards.current.card);
      const version = session.document(place.uri)?.version ?? 0;
      return { version, ...insertion, problems: insertion.problems.map(({ message }) => message) };
    });
    connection.onRequest('blockwright/note', (place: BlockPlace): NoteAnswer | null => noteAnswer(programAt(session, place), place.line));
    connection.onRequest('blockwright/remake', async ({ uri, line, values }: RemakeParameters): Promise<RemakeAnswer> => {
      await session.cardKnown;
      const remade = remadeAt(programAt(session, { uri }), line, session.cards.current.card, values);
      return { version: session.document(uri)?.version ?? 0, ...remade };
    });
    connection.onRequest('blockwright/card', (): CardAnswer => cardAnswer(session));
  },
};

export function cardAnswer(session: Session): CardAnswer {
  const { card, uri, fault } = session.cards.current;
  return { name: card.name, ...(uri === undefined ? {} : { uri }), ...(fault === undefined ? {} : { fault }) };
}

function programAt(session: Session, { uri }: Pick<BlockPlace, 'uri'>): Program {
  const program = session.program(uri);
  if (!program) throw new ResponseError(ErrorCodes.InvalidParams, `${uri} is not an open program`);
  return program;
}

function named(name: string): Process {
  const process = processNamed(name);
  if (!process) throw new ResponseError(ErrorCodes.InvalidParams, `${name} is not a process; there are ${processes.map(({ id }) => id).join(', ')}`);
  return process;
}
