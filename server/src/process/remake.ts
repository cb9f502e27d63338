/**
 * Makes a block anew in place, from its note or from changed parameters. Words
 * that were marked as kept stay kept where the block has the same shape; every
 * other word of the user's that goes is named, so that nothing is dropped unseen.
 */
import type { MachineCard } from '../machine/card.ts';
import type { Program } from '../program/index.ts';
import { bare, blocksOf, driftOf, ownComments, type DriftWord } from './drift.ts';
import type { RawValues } from './fields.ts';
import { writeKept, type KeptWords } from './kept.ts';
import { layOutAll, type Layout } from './layout.ts';
import { noteValues, type ProcessNote } from './note.ts';
import { composeNote } from './program-notes.ts';
import { allLines, type BlockLine, type Composition, type Problem } from './process.ts';
import { replaceSubprogram, type LinesReplaced } from './remake-subprogram.ts';

export interface Remade {
  /** Lines of the new block, note and closing note with it; empty when it cannot be made. */
  lines: string[];
  /** The subprogram that the block calls, changed, put in or taken out; undefined where there was and is none. */
  subprogram?: LinesReplaced;
  /** What the user had written and the new block does not hold. */
  dropped: DriftWord[];
  problems: Problem[];
}

/** Makes the block of a closed note anew. `values` are those of the note unless others are given. */
export function remake(program: Program, note: ProcessNote, card: MachineCard, layout: Layout, values?: RawValues): Remade {
  const own = composeNote(program, note, card);
  if (!own || note.endLine === undefined) return { lines: [], dropped: [], problems: [] };
  const { process, setting } = own;
  const composition = values ? process.compose(values, setting) : own.composition;
  if (composition.lines.length === 0) return { lines: [], dropped: [], problems: composition.problems };
  const { drift, kept } = driftOf(program, note, own.composition);
  const carried = carryKept(allLines(composition), kept);
  const text = layOutAll(process, values ?? noteValues(note), withLines(composition, carried.lines), layout);
  const dropped = [...drift, ...carried.lost, ...ownComments(program, note, own.composition)];
  if (text.lines.length === 0) return { lines: [], dropped, problems: text.problems };
  const called = replaceSubprogram(program, note, own.composition.subprogram?.number, composition.subprogram?.number, text.subprogram);
  const problems = [...text.problems, ...called.problems];
  if (called.problems.length > 0) return { lines: [], dropped, problems };
  return { lines: text.lines, dropped, problems, ...(called.replaced ? { subprogram: called.replaced } : {}) };
}

/** The same composition with other words in its lines, given block first. */
function withLines({ lines, subprogram, problems }: Composition, all: readonly BlockLine[]): Composition {
  const own = all.slice(0, lines.length);
  return { lines: own, problems, ...(subprogram ? { subprogram: { ...subprogram, lines: all.slice(lines.length) } } : {}) };
}

/** Puts kept words into the new blocks. What has no place in the new shape is lost, and said. */
function carryKept(lines: readonly BlockLine[], kept: readonly DriftWord[]): { lines: BlockLine[]; lost: DriftWord[] } {
  const blocks = blocksOf(lines);
  const fits = ({ wantedAt, wanted, actual }: DriftWord) => {
    const word = wantedAt && blocks[wantedAt.block]?.[wantedAt.word];
    return word !== undefined && word.letter === (wanted || actual).charAt(0).toUpperCase();
  };
  const placed = kept.filter(fits);
  let block = -1;
  const carried = lines.map((line): BlockLine => {
    if (line.kind !== 'block') return line;
    block += 1;
    const own = placed.filter(({ wantedAt }) => wantedAt?.block === block);
    return own.length === 0 ? line : keptLine(blocks[block]?.map(({ text }) => text) ?? [], own);
  });
  return { lines: carried, lost: kept.filter((word) => !fits(word)) };
}

function keptLine(words: readonly string[], own: readonly DriftWord[]): BlockLine {
  const at = (index: number) => own.find(({ wantedAt }) => wantedAt?.word === index);
  const written = words.flatMap((word, index) => {
    const kept = at(index);
    return kept === undefined ? [word] : kept.kind === 'changed' ? [kept.actual] : [];
  });
  const fresh = (kind: DriftWord['kind']) => new Set(own.filter((word) => word.kind === kind).map(({ wantedAt }) => bare(words[wantedAt?.word ?? 0] ?? '')));
  const marks: KeptWords = { changed: fresh('changed'), added: new Set(), omitted: fresh('omitted') };
  return { kind: 'block', words: written.join(' '), remark: writeKept(marks) };
}
