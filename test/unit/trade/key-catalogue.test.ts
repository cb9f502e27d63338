/** Keys, slots, hand-over, engraving, cutting: no figure without an entry, no entry without a check, and a table of both that is never stale. */
import { describe, expect, it } from 'vitest';
import { keySideCatalogues, keySideEntries, type KeySideTopic } from '../../../server/src/trade/catalogue-key.ts';
import { balanceFigures, finishFigures, helixFigures, millingFigures, presetFigures, runOutFigures } from '../../../server/src/trade/cutting-figures.ts';
import { cutting, facing } from '../../../server/src/trade/cutting.ts';
import { chipLoadFigures, engravedLineFigures, wrapFigures } from '../../../server/src/trade/engraving-figures.ts';
import { engraving } from '../../../server/src/trade/engraving.ts';
import { fitFigures } from '../../../server/src/trade/fit-figures.ts';
import { inchKeyFigures, metricKeyFigures } from '../../../server/src/trade/key-figures.ts';
import { handOver } from '../../../server/src/trade/hand-over.ts';
import { keyway } from '../../../server/src/trade/keyway.ts';
import type { Quantity, Units } from '../../../server/src/trade/quantity.ts';
import { indexedSlots } from '../../../server/src/trade/slots.ts';
import { boxCycleFigures, clockingFigures, crankFigures, measuredBoreFigures, polygonFigures, slotErrorFigures } from '../../../server/src/trade/slotting-figures.ts';
import { straightSplineFigures } from '../../../server/src/trade/spline-hub-figures.ts';
import type { Check, CheckTable } from './checks.ts';
import { cuttingCheckTables, smallAngleCheckTables, toolAndCutCheckTables } from './cutting.cases.ts';
import { engravedLineCheckTables, engravingCheckTables, letterCheckTables, MARK } from './engraving.cases.ts';
import { handOverCheckTables, TRANSFER } from './hand-over.cases.ts';
import { fitCheckTables, keyCheckTables } from './key-tables.cases.ts';
import { DRIVEN, keywayCheckTables, keywayPlanCheckTables, slotCheckTables, slottingCheckTables, straightSplineCheckTables } from './keyway.cases.ts';

const units: Units = 'mm';

/** For each topic what the library returns and what checks it. */
const topics: Readonly<Record<KeySideTopic, { records: readonly object[]; tables: readonly CheckTable[] }>> = {
  keyway: { records: [keyway(DRIVEN), keyway({ ...DRIVEN, method: 'static', cuttingSpeed: 8 })], tables: keywayCheckTables },
  'indexed slots': {
    records: [
      indexedSlots({ units, shape: { kind: 'polygon', sides: 6, acrossFlats: 10, boreDiameter: 10 }, startAngleDegrees: 0, diameterProgramming: true }),
      indexedSlots({ units, shape: { kind: 'serration', count: 36, boreDiameter: 20, floorDiameter: 22, includedAngleDegrees: 60, tipFlat: 0.2 }, startAngleDegrees: 0, diameterProgramming: true }),
    ],
    tables: slotCheckTables,
  },
  'straight splines': { records: [straightSplineFigures(6, 23, 26, false)], tables: straightSplineCheckTables },
  slotting: {
    records: [
      measuredBoreFigures({ units, measuredBoreDiameter: 30.013, width: 8, overall: 33.4 }),
      crankFigures({ units, stroke: 28, strokesPerMinute: 500, rodRatio: 0.2, distance: 3, angleDegrees: 40, returnTimeRatio: 1 }),
      boxCycleFigures({ units, stroke: 28, cutFeed: 8000, returnFeed: 20000, liftOff: 0.5, liftFeed: 2000, acceleration: 5000 }),
      slotErrorFigures({ units, offset: 2, floorRadius: 28.8, slotWidth: 20, insertWidth: 10, depth: 3.8, squarenessErrorDegrees: 0.1, resolutionDegrees: 0.001 }),
      clockingFigures(3, 24, 'space', 0), polygonFigures({ units, sides: 6, acrossFlats: 10, boreDiameter: 10 }),
    ],
    tables: slottingCheckTables,
  },
  keys: { records: [metricKeyFigures(50), inchKeyFigures({ boreDiameter: 1.5, fit: 'CLASS2' })], tables: keyCheckTables },
  fits: { records: [fitFigures(14, 'P9')], tables: fitCheckTables },
  'hand-over': { records: [handOver({ ...TRANSFER, release: { held: 30 } })], tables: handOverCheckTables },
  engraving: { records: [engraving(MARK)], tables: engravingCheckTables },
  'engraved lines': {
    records: [
      chipLoadFigures({ units, chipLoad: 0.02, runOut: 0.01, flutes: 4 }),
      engravedLineFigures({ units, tipDiameter: 0.1, tipAngleDegrees: 60, height: 3, lineWidth: 0.4, depthError: 0.02, rpm: 75000 }),
      wrapFigures({ units, cylinderDiameter: 40, arc: 1, feed: 100, halfWidth: 0.15 }),
    ],
    tables: engravedLineCheckTables,
  },
  cutting: {
    records: [
      cutting({ units, cuttingSpeed: 150, diameter: 40, clampRpm: 3000, chipLoad: 0.05, flutes: 2, depthOfCut: 1, noseRadius: 0.8 }),
      facing({ units, cuttingSpeed: 200, clampRpm: 3000, fromDiameter: 100, toDiameter: 20, feedPerRevolution: 0.2 }),
    ],
    tables: cuttingCheckTables,
  },
  'tool and cut': {
    records: [
      millingFigures({ units, cutterDiameter: 20, depthOfCut: 2, widthOfCut: 10, feedPerMinute: 100, length: 50 }),
      finishFigures({ units, feedPerRevolution: 0.1, noseRadius: 1, stepover: 8, ballRadius: 5, height: 2 }),
      helixFigures({ units, diameter: 30, lead: 300, length: 50 }),
      runOutFigures({ units, runOutAtNose: 0.002, gaugeLength: 100, tiltDegrees: 0.01, runOutFarther: 0.02, toolDiameter: 3 }),
      balanceFigures(6.3, 1, 15000), presetFigures({ edgeX: 42.35, lowerCornerY: -4.01, upperCornerY: 3.99, frontZ: 61.2 }, true, units),
    ],
    tables: toolAndCutCheckTables,
  },
};

const plainTables = [...keywayPlanCheckTables, ...letterCheckTables, ...smallAngleCheckTables];
const allChecks = [...Object.values(topics).flatMap(({ tables }) => tables), ...plainTables].flatMap(({ checks }) => checks);

function checksOf(topic: KeySideTopic, id: string): Check<unknown>[] {
  return topics[topic].tables.flatMap(({ checks }) => checks).filter((check) => check.id === id);
}

function quantitiesOf(topic: KeySideTopic): Quantity[] {
  return topics[topic].records.flatMap((record) => Object.values(record as Readonly<Record<string, Quantity>>));
}

describe.each(Object.keys(keySideCatalogues) as KeySideTopic[])('the catalogue of %s', (topic) => {
  const ids = keySideEntries(topic).map(({ id }) => id);

  it('lists exactly the quantities that the library returns', () => {
    expect([...new Set(quantitiesOf(topic).map(({ id }) => id))].sort()).toEqual([...ids].sort());
  });

  it('has a check with a named source for each, and no check of anything else', () => {
    expect(ids.filter((id) => checksOf(topic, id).length === 0)).toEqual([]);
    const checked = topics[topic].tables.flatMap(({ checks }) => checks);
    expect(checked.filter(({ id }) => !ids.includes(id))).toEqual([]);
    expect(checked.filter(({ source, case: name }) => source === '' || name === '')).toEqual([]);
  });

  it('gives every quantity a working with numbers, and says where it comes from', () => {
    for (const { id, working, source, name } of quantitiesOf(topic)) {
      expect(working, id).toMatch(/\d/);
      expect(working, id).not.toMatch(/NaN|undefined|Infinity/);
      expect(source, id).toMatch(/\((seen in source|recomputed published value|derived|from memory|common practice)\)$/);
      expect(name, id).not.toBe('');
    }
  });

  it('shows in the working the very value it returns', () => {
    for (const { id, working, value } of quantitiesOf(topic)) {
      const numbers = [...working.matchAll(/-?\d+(\.\d+)?/g)].map(([text]) => Number(text));
      expect(numbers.some((number) => Math.abs(number - value) <= 0.000006), `${id}: ${value} in "${working}"`).toBe(true);
    }
  });
});

describe('the figures of keys, slots, hand-over, engraving and cutting', () => {
  it('keep the names that users and programs rely on', () => {
    expect(Object.keys(keySideCatalogues.keyway).sort()).toEqual([
      'bottomX', 'cuttingTime', 'feedPerMinute', 'firstContactX', 'meanSpeed', 'overallDimension', 'peakSpeed', 'radialDepth', 'sagitta', 'strokeLength', 'strokeTime',
      'strokes', 'strokesPerMinute', 'widthLower', 'widthUpper',
    ]);
    expect(Object.keys(keySideCatalogues.engraving).sort()).toEqual([
      'cuttingSpeed', 'cuttingTime', 'effectiveDiameter', 'feedPerMinute', 'lineWidth', 'pathLength', 'runOutShare',
    ]);
  });

  it('are checked by all numbered cases that concern them', () => {
    const cases = allChecks.map(({ case: name }) => /^keyway (\d+)/.exec(name)?.[1]).filter((number) => number !== undefined);
    const missing = Array.from({ length: 40 }, (_, i) => String(i + 1)).filter((number) => !cases.includes(number));
    expect(missing).toEqual([]);
  });

  it('are written out as a table beside the tests', async () => {
    await expect(`${tableOfQuantities()}\n`).toMatchFileSnapshot('./key-quantities.md');
  });
});

function tableOfQuantities(): string {
  const topicsInOrder = Object.keys(keySideCatalogues) as KeySideTopic[];
  return [
    '# Quantities of keys, slots, hand-over, engraving and cutting',
    '',
    'Written by the catalogue test from the catalogue and the checks; `vitest -u` on that test writes it anew.',
    `${allChecks.length} checks in all: ${countsByStanding(allChecks)}.`,
    ...topicsInOrder.flatMap((topic) => ['', `## ${topic}`, '', '| id | formula | unit | source | standing | checks |', '| --- | --- | --- | --- | --- | --- |', ...rowsOf(topic)]),
  ].join('\n');
}

function rowsOf(topic: KeySideTopic): string[] {
  return keySideEntries(topic).map(({ id, formula, unit, source, standing }) =>
    `| \`${id}\` | \`${formula.replaceAll('|', '\\|')}\` | ${unit} | ${source} | ${standing} | ${countsByStanding(checksOf(topic, id))} |`);
}

function countsByStanding(checks: readonly Check<unknown>[]): string {
  const counts = new Map<string, number>();
  for (const { standing } of checks) counts.set(standing, (counts.get(standing) ?? 0) + 1);
  return [...counts].map(([standing, count]) => `${count} ${standing}`).join(', ');
}
