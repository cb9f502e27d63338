/** No figure without an entry, no entry without a check, and a table of both that is never stale. */
import { describe, expect, it } from 'vitest';
import { gearCatalogueEntries } from '../../../server/src/trade/catalogue-gear.ts';
import { gearData, internalGearData } from '../../../server/src/trade/gear-data.ts';
import { hobbing } from '../../../server/src/trade/hobbing.ts';
import { hobbingCatalogue } from '../../../server/src/trade/catalogue-hobbing.ts';
import { bestClassData, chipLimitedFeedData, hobUseData, runoutData, usualHobDiameterData } from '../../../server/src/trade/hob-use-data.ts';
import {
  chordalInspection, correctionFromMeasuredPins, correctionFromMeasuredSpan, internalPinInspection, pinInspection, spanInspection,
} from '../../../server/src/trade/inspection.ts';
import { backlashShiftData, generatingShiftData, pairData, shiftSumData } from '../../../server/src/trade/pair-data.ts';
import type { Quantity } from '../../../server/src/trade/quantity.ts';
import { b92Data, din5480Data } from '../../../server/src/trade/spline-figures.ts';
import { olderToleranceData, toleranceData } from '../../../server/src/trade/tolerance-data.ts';
import { gearInput, hobbingInput } from './gear-case-builder.ts';
import { gearCheckTables } from './gear.cases.ts';
import { hobbingCheckTables } from './hobbing.cases.ts';

const allChecks = [...gearCheckTables, ...hobbingCheckTables].flatMap((table) => table.checks);

/** Every record that the gear side can return. */
function everyQuantity(): Quantity[] {
  const helical = hobbingInput({ teeth: 30, helixAngleDegrees: 20, hobLength: 80, plunge: { radialFeedPerWorkRevolution: 0.5, sparkOutWorkRevolutions: 1 } });
  const pair = [gearInput({ teeth: 12, profileShift: 0.6 }), gearInput()] as const;
  const measured = { x: 72.25, diameterProgramming: true, measured: 23.2 };
  const records = [
    hobbing(helical), gearData(helical), internalGearData({ ...gearInput(), teeth: 60 }), spanInspection(helical), pinInspection(helical),
    internalPinInspection({ ...gearInput(), teeth: 60 }), chordalInspection(helical), correctionFromMeasuredSpan({ ...gearInput(), ...measured }),
    correctionFromMeasuredPins({ ...gearInput(), ...measured, measured: 79.5 }), pairData(...pair), shiftSumData(...pair, 56), generatingShiftData(gearInput(), -0.1), backlashShiftData(...pair, 0.1),
    hobUseData(helical), runoutData(helical, { obstacleDiameter: 120 }), bestClassData(helical), chipLimitedFeedData(helical, 0.2), usualHobDiameterData(3, 'mm'),
    toleranceData({ teeth: 24, referenceDiameterMm: 72, normalModuleMm: 3, faceWidthMm: 30, helixAngleDegrees: 0, flankClass: 7 }),
    olderToleranceData({ referenceDiameterMm: 72, normalModuleMm: 3, faceWidthMm: 30, flankClass: 7 }),
    din5480Data({ splineReferenceDiameter: 30, module: 2, teeth: 14, cutting: 'hobbed' }), b92Data({ form: '37.5 degree fillet root', teeth: 24, pitch: 8 }),
  ];
  return records.flatMap((record) => Object.values(record as Readonly<Record<string, Quantity>>));
}

describe('the catalogue of the gear side', () => {
  it('lists exactly the quantities that the library returns', () => {
    const returned = new Set(everyQuantity().map(({ id }) => id));
    expect([...returned].sort()).toEqual(gearCatalogueEntries.map(({ id }) => id).sort());
  });

  it('says of each where it comes from and how far to trust it', () => {
    for (const entry of gearCatalogueEntries) {
      expect(entry.formula, entry.id).not.toBe('');
      expect(entry.source, entry.id).not.toBe('');
    }
  });

  it('has a check with a named source for each', () => {
    const checked = new Set(allChecks.map(({ id }) => id));
    expect(gearCatalogueEntries.map(({ id }) => id).filter((id) => !checked.has(id))).toEqual([]);
  });

  it('keeps the hobbing names that users and programs rely on', () => {
    expect(Object.keys(hobbingCatalogue).sort()).toEqual([
      'approach', 'baseDiameter', 'cuttingSpeed', 'cuttingTime', 'differential', 'feedMarkDepth', 'feedPerMinute', 'generatingLength', 'generatingMarkDepth',
      'hobHelixAngle', 'hobLeadAngle', 'hobReferenceDiameter', 'hobRpm', 'lead', 'maxChipThickness', 'maxFeedForClass', 'overPins', 'overrun', 'pinDiameter',
      'plungeTime', 'profileTolerance', 'radialFeedPerMinute', 'radialTravel', 'referenceDiameter', 'rootDiameter', 'settingAngle', 'shiftWorkAngle', 'shiftY', 'shiftZ', 'spanLength', 'spanTeeth', 'syncRatio',
      'tipDiameter', 'travel', 'wholeDepth', 'workRpm',
    ]);
  });

  it('gives every quantity a working that ends in numbers, a unit and a source', () => {
    for (const { id, working, source, name, symbol } of everyQuantity()) {
      expect(working, id).toMatch(/\d/);
      expect(working, id).not.toMatch(/NaN|undefined|Infinity/);
      expect([source, name, symbol].every((text) => text.length > 0), id).toBe(true);
    }
  });

  it('shows in the working of hobbing the very value it returns', () => {
    for (const { id, working, value } of Object.values(hobbing(hobbingInput({ shift: 5 })))) {
      const numbers = [...working.matchAll(/-?\d+(\.\d+)?/g)].map(([text]) => Number(text));
      const near = numbers.some((number) => Math.abs(number - value) <= 0.0006 || (id === 'profileTolerance' && number === value * 1000));
      expect(near, `${id}: ${value} in "${working}"`).toBe(true);
    }
  });

  it('is written out as a table beside the tests', async () => {
    await expect(`${tableOfQuantities()}\n`).toMatchFileSnapshot('./gear-quantities.md');
  });
});

/** One line for each quantity, with its checks counted by standing. */
function tableOfQuantities(): string {
  const rows = gearCatalogueEntries.map(({ id, formula, unit, source, standing }) =>
    `| \`${id}\` | \`${formula.replaceAll('|', '\\|')}\` | ${unit} | ${source} | ${standing} | ${checksOf(id)} |`);
  return [
    '# Quantities of the gear side',
    '',
    'Written by the catalogue test from the catalogue and the checks; `vitest -u` on that test writes it anew.',
    `${allChecks.length} checks in all.`,
    '',
    '| id | formula | unit | source | standing | checks |',
    '| --- | --- | --- | --- | --- | --- |',
    ...rows,
  ].join('\n');
}

function checksOf(id: string): string {
  const counts = new Map<string, number>();
  for (const check of allChecks) if (check.id === id) counts.set(check.standing, (counts.get(check.standing) ?? 0) + 1);
  return [...counts].map(([standing, count]) => `${count} ${standing}`).join(', ');
}
