/** Figures of the moves of a block. */
import type { CatalogueFacts } from './catalogue.ts';

export const pathCatalogue = {
  moveLength: { name: 'length of the move', symbol: 'L', formula: 'length of line, arc or helix', dimension: 'length', source: 'NISTIR 6556 §2.1.2.5, §3.5', standing: 'seen in source' },
  moveTime: { name: 'time of the move', symbol: 't', formula: '60 L / v_f', dimension: 'seconds', source: 'NISTIR 6556 §2.1.2.5; ideal, without acceleration', standing: 'seen in source' },
  elapsed: { name: 'time from the start of the program', symbol: 'T', formula: 'sum of the times', dimension: 'seconds', source: 'sum, ideal times without acceleration', standing: 'derived' },
  helixLead: { name: 'lead of the helix', symbol: '', formula: '360 z / C', dimension: 'length', source: 'elementary', standing: 'derived' },
  workPath: { name: 'path on the turning work', symbol: '', formula: 'integral of sqrt(dr^2 + dz^2 + (r dC)^2)', dimension: 'length', source: 'geometry of a turning cylinder', standing: 'derived' },
  workFeed: { name: 'feed along the path on the turning work', symbol: '', formula: '60 path / t', dimension: 'lengthPerMinute', source: 'geometry of a turning cylinder, mean over the move', standing: 'derived' },
} satisfies Record<string, CatalogueFacts>;
