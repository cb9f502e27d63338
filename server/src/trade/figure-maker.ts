/**
 * Makes the figures of one computation from its catalogue, so that a
 * computation only says which figure, which value and how it came about.
 */
import { figureFrom, type CatalogueFacts } from './catalogue.ts';
import type { Quantity, Units } from './quantity.ts';
import type { Standing } from './standing.ts';

/** Where this one value comes from, when the input decides it and the catalogue can only name the choices. */
export interface Origin {
  readonly source: string;
  readonly standing: Standing;
}

export type FigureMaker<Id extends string> = (id: Id, value: number, working: () => string, origin?: Origin) => Quantity;

export function figureMaker<Id extends string>(catalogue: Readonly<Record<Id, CatalogueFacts>>, units: Units): FigureMaker<Id> {
  return (id, value, working, origin) =>
    figureFrom(origin ? { ...catalogue[id], ...origin } : catalogue[id], id, value, units, working);
}
