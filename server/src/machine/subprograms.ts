/**
 * What a machine card lets a block do with subprograms: whether they can be
 * called and read back, which number a new one gets, how its lines step without
 * absolute places. It knows no block and nothing of what a subprogram holds.
 */
import type { CodeName, MachineCard } from './card.ts';
import { placeholdersOf, templateBlocks, templateWords } from './template.ts';

/** The keys of the card without which a block cannot use subprograms of its own accord, in the order in which they are asked for; empty where it can. */
export function missingForSubprograms(card: MachineCard): string[] {
  const { codes, subprograms } = card;
  const readable = {
    'codes.subprogramStart': templateBlocks(codes.subprogramStart).length === 1 && /^\s*[O:]\s*\{program\}\s*$/i.test(templateBlocks(codes.subprogramStart)[0] ?? ''),
    'codes.subprogramCall': isReadable(card, 'subprogramCall') && placeholdersOf(codes.subprogramCall).has('program'),
    'codes.subprogramReturn': isReadable(card, 'subprogramReturn'),
    subprograms: subprograms !== undefined,
  };
  return Object.entries(readable).filter(([, isStated]) => !isStated).map(([key]) => key);
}

/** A template of one block that is recognised in a program. */
function isReadable({ codes }: MachineCard, name: CodeName): boolean {
  return templateBlocks(codes[name]).length === 1 && templateWords(codes[name]).length === 1;
}

/** Whether the card says anything at all of calling subprograms. */
export function speaksOfSubprograms({ codes }: MachineCard): boolean {
  return templateBlocks(codes.subprogramCall).length > 0;
}

/** The first number of the card's that is not in use; undefined where there is none. */
export function freeProgramNumber({ subprograms }: MachineCard, used: ReadonlySet<number>): number | undefined {
  const [first, last] = subprograms?.numbers ?? [1, 0];
  for (let number = first; number <= last; number += 1) if (!used.has(number)) return number;
  return undefined;
}

/** How lines step from where the tool stands: by letters of their own, or by X and Z between the words that change the dimensions. */
export interface IncrementalForm {
  readonly x: string;
  readonly z: string;
  /** Codes of the card before and behind the steps. */
  readonly before?: CodeName;
  readonly behind?: CodeName;
}

/** Undefined where the card has no incremental words, or leaves open whether incremental X counts on the diameter. */
export function incrementalForm({ incrementalAxes, codes, diameterProgramming, subprograms }: MachineCard): IncrementalForm | undefined {
  if (diameterProgramming && subprograms?.incrementalXOnDiameter !== true) return undefined;
  const letterOf = (axis: string) => Object.entries(incrementalAxes).find(([, moved]) => moved === axis)?.[0];
  const [x, z] = [letterOf('X'), letterOf('Z')];
  if (x !== undefined && z !== undefined) return { x, z };
  const hasBoth = templateBlocks(codes.incremental).length > 0 && templateBlocks(codes.absolute).length > 0;
  return hasBoth ? { x: 'X', z: 'Z', before: 'incremental', behind: 'absolute' } : undefined;
}

/** Whether a call of the card can say how often the subprogram runs. */
export function callsRepeat({ codes }: MachineCard): boolean {
  return placeholdersOf(codes.subprogramCall).has('repeats');
}
