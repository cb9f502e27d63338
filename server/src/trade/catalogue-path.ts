/** Figures of the moves of a block. */
import type { CatalogueFacts } from './catalogue.ts';

export const pathCatalogue = {
  moveLength: { name: 'length of the move', symbol: 'L', formula: 'length of line, arc or helix', dimension: 'length', source: 'NISTIR 6556 §2.1.2.5, §3.5', standing: 'seen in source' },
  moveTime: { name: 'time of the move', symbol: 't', formula: '60 L / v_f', dimension: 'seconds', source: 'NISTIR 6556 §2.1.2.5; ideal, without acceleration', standing: 'seen in source' },
  elapsed: { name: 'time from the start of the program', symbol: 'T', formula: 'sum of the times', dimension: 'seconds', source: 'sum, ideal times without acceleration', standing: 'derived' },
} satisfies Record<string, CatalogueFacts>;
