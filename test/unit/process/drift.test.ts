/** A block that was just composed agrees with its note, whatever the card's names hold. */
import { expect, it } from 'vitest';
import { dialectOf } from '../../../server/src/machine/dialect.ts';
import { driftOf, ownComments, staleComments } from '../../../server/src/process/drift.ts';
import { composeText } from '../../../server/src/process/layout.ts';
import { composeNote, notesIn } from '../../../server/src/process/program-notes.ts';
import { processNamed } from '../../../server/src/process/processes.ts';
import { readProgram } from '../../../server/src/program/index.ts';
import { inventedCard } from '../../invented-machine.ts';

it.each(['plain unit', 'unit (left)', 'unité'])('a fresh block of a card with the unit "%s" has no drift and no stale comment', (name) => {
  const card = { ...inventedCard, toolUnits: [{ kind: 'stroke' as const, name, ratio: 1 }] };
  const raw = { BORE: '30', LENGTH: '20', RPM: '600', FEED: '0.04' };
  const { lines } = composeText(processNamed('keyway')!, raw, { units: 'mm', card }, { comment: 'parentheses', maxLineLength: 80 });
  const program = readProgram(['G21 G94', ...lines, 'M30', ''].join('\n'), dialectOf(card));
  const [note] = notesIn(program);
  const { composition } = composeNote(program, note!, card)!;
  expect(composition.lines.length).toBeGreaterThan(10);
  expect(driftOf(program, note!, composition)).toEqual({ drift: [], kept: [] });
  expect(staleComments(program, note!, composition)).toEqual([]);
  expect(ownComments(program, note!, composition)).toEqual([]);
});
