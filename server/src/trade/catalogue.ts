/**
 * What a catalogue of quantities holds for each of its figures, and how a
 * figure is made from its entry: name, symbol, unit and source are written down
 * once, in the catalogue, and so no figure can be without them.
 */
import { quantity, type Quantity, type Units } from './quantity.ts';
import type { Standing } from './standing.ts';

/** What kind of figure it is; the unit follows from this and from the unit of length. */
export type Dimension =
  | 'length'
  | 'micrometres'
  | 'lengthPerMinute'
  | 'lengthPerRevolution'
  | 'degrees'
  | 'degreesPerLength'
  | 'degreesPerMinute'
  | 'cuttingSpeed'
  | 'rpm'
  | 'strokesPerMinute'
  | 'area'
  | 'removalRate'
  | 'gramMillimetres'
  | 'seconds'
  | 'plain';

export interface CatalogueFacts {
  readonly name: string;
  readonly symbol: string;
  readonly formula: string;
  readonly dimension: Dimension;
  readonly source: string;
  readonly standing: Standing;
}

export interface CatalogueEntry {
  readonly id: string;
  readonly formula: string;
  readonly unit: string;
  readonly source: string;
  readonly standing: Standing;
}

/** Makes the quantity `id` from its facts. Throws `OutOfRange` for a value that is not finite. */
export function figureFrom(
  facts: CatalogueFacts,
  id: string,
  value: number,
  units: Units,
  working: () => string,
): Quantity {
  return quantity({
    id,
    name: facts.name,
    symbol: facts.symbol,
    value,
    unit: unitOf(facts.dimension, units),
    source: `${facts.source} (${facts.standing})`,
    working,
  });
}

/** The catalogue as a list for the documentation and the tests. Metric units stand for both. */
export function catalogueEntries(catalogue: Readonly<Record<string, CatalogueFacts>>): CatalogueEntry[] {
  return Object.entries(catalogue).map(([id, facts]) => ({
    id,
    formula: facts.formula,
    unit: unitOf(facts.dimension, 'mm'),
    source: facts.source,
    standing: facts.standing,
  }));
}

export function unitOf(dimension: Dimension, units: Units): string {
  return (units === 'mm' ? METRIC_UNITS : INCH_UNITS)[dimension];
}

const METRIC_UNITS: Readonly<Record<Dimension, string>> = {
  length: 'mm',
  micrometres: 'µm',
  lengthPerMinute: 'mm/min',
  lengthPerRevolution: 'mm/rev',
  degrees: 'deg',
  degreesPerLength: 'deg/mm',
  degreesPerMinute: 'deg/min',
  cuttingSpeed: 'm/min',
  rpm: 'rev/min',
  strokesPerMinute: '1/min',
  area: 'mm²',
  removalRate: 'cm³/min',
  gramMillimetres: 'g mm',
  seconds: 's',
  plain: '',
};

const INCH_UNITS: Readonly<Record<Dimension, string>> = {
  ...METRIC_UNITS,
  length: 'inch',
  lengthPerMinute: 'inch/min',
  lengthPerRevolution: 'inch/rev',
  degreesPerLength: 'deg/inch',
  cuttingSpeed: 'ft/min',
  area: 'inch²',
  removalRate: 'inch³/min',
};
