import type { Program } from '../program/index.ts';
export function movesTable(_program: Program): { moves: unknown[]; totals: object; text: string } {
  return { moves: [], totals: {}, text: '' };
}
