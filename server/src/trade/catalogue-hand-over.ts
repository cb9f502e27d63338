/** Every figure of handing a part over to another spindle: what it is called, by which formula it comes, from where. */
import type { CatalogueFacts } from './catalogue.ts';

/** What `handOver` returns. */
export const handOverCatalogue = {
  phaseAngle: { name: 'phase of the spindles', symbol: 'phi', formula: 'C wanted + product of the senses x C given', dimension: 'degrees', source: 'geometry of two facing spindles', standing: 'derived' },
  creepLength: { name: 'length of the creep feed', symbol: '', formula: 'gap + overlap', dimension: 'length', source: 'gap before the part', standing: 'common practice' },
  creepStart: { name: 'place where the creep feed starts', symbol: '', formula: 'grip place, and the creep length toward the retract place', dimension: 'length', source: 'geometry', standing: 'derived' },
  drawOutLength: { name: 'way out of the main chuck at feed', symbol: '', formula: 'length held + gap, at most the way to the retract place', dimension: 'length', source: 'gap before the part', standing: 'common practice' },
  retractLength: { name: 'way of the retract', symbol: '', formula: 'from the grip, or the place after pulling, to the retract place', dimension: 'length', source: 'geometry', standing: 'derived' },
  handOverTime: { name: 'time of the hand-over', symbol: 't', formula: '60 (creep + pull + way out of the chuck) / feed + pauses', dimension: 'seconds', source: 'kinematics', standing: 'derived' },
} satisfies Record<string, CatalogueFacts>;
