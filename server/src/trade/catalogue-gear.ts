/**
 * The list of every quantity of the gear side, and the only way to make one: a
 * figure that has no entry here does not compile.
 */
import { catalogueEntries, figureFrom, type CatalogueEntry, type CatalogueFacts } from './catalogue.ts';
import { hobUseCatalogue } from './catalogue-hob-use.ts';
import { hobbingCatalogue } from './catalogue-hobbing.ts';
import { inspectionCatalogue } from './catalogue-inspection.ts';
import { splineCatalogue } from './catalogue-spline.ts';
import { toleranceCatalogue } from './catalogue-tolerance.ts';
import { toothCatalogue } from './catalogue-tooth.ts';
import type { Quantity, Units } from './quantity.ts';

const gearCatalogue = {
  ...hobbingCatalogue,
  ...toothCatalogue,
  ...inspectionCatalogue,
  ...hobUseCatalogue,
  ...toleranceCatalogue,
  ...splineCatalogue,
} as const;

export type GearQuantityId = keyof typeof gearCatalogue;

export const gearCatalogueEntries: readonly CatalogueEntry[] = catalogueEntries(gearCatalogue);

/** Makes the quantity `id`. Throws `OutOfRange` for a value that is not finite. */
export function gearFigure(id: GearQuantityId, value: number, units: Units, working: () => string): Quantity {
  const facts: CatalogueFacts = gearCatalogue[id];
  return figureFrom(facts, id, value, units, working);
}
