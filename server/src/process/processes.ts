/** The list of processes. A new process is a new file and a line here. */
import { engraving } from './engraving.ts';
import { handover } from './handover.ts';
import { hobbing } from './hobbing.ts';
import { keyway } from './keyway.ts';
import type { Process } from './process.ts';
import { slotting } from './slotting.ts';

export const processes: readonly Process[] = [hobbing, keyway, slotting, engraving, handover];

/** Finds a process by its id or by the keyword of its note. */
export function processNamed(name: string): Process | undefined {
  const wanted = name.toLowerCase();
  return processes.find((process) => process.id === wanted);
}

export const processKeywords: readonly string[] = processes.map((process) => process.keyword);
