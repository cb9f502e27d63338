/**
 * All figures of keys, slots, hand-over, engraving and cutting in one list by topic, for
 * the documentation and for the tests that no figure goes without an entry.
 */
import { catalogueEntries, type CatalogueEntry, type CatalogueFacts } from './catalogue.ts';
import { cuttingCatalogue, toolAndCutCatalogue } from './catalogue-cutting.ts';
import { engravedLineCatalogue, engravingCatalogue } from './catalogue-engraving.ts';
import { handOverCatalogue } from './catalogue-hand-over.ts';
import { fitCatalogue, keyCatalogue, keywayCatalogue, slotCatalogue, slottingCatalogue, straightSplineCatalogue } from './catalogue-keyway.ts';

export const keySideCatalogues = {
  keyway: keywayCatalogue,
  'indexed slots': slotCatalogue,
  'straight splines': straightSplineCatalogue,
  slotting: slottingCatalogue,
  keys: keyCatalogue,
  fits: fitCatalogue,
  'hand-over': handOverCatalogue,
  engraving: engravingCatalogue,
  'engraved lines': engravedLineCatalogue,
  cutting: cuttingCatalogue,
  'tool and cut': toolAndCutCatalogue,
} as const satisfies Record<string, Readonly<Record<string, CatalogueFacts>>>;

export type KeySideTopic = keyof typeof keySideCatalogues;

/** The entries of one topic. */
export function keySideEntries(topic: KeySideTopic): CatalogueEntry[] {
  return catalogueEntries(keySideCatalogues[topic]);
}
