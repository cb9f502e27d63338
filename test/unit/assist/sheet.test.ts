import { describe, expect, it } from 'vitest';
import { sheetOf } from '../../../server/src/assist/sheet.ts';
import { openStandardCard } from '../../../server/src/machine/open-standard.ts';
import { engraving } from '../../../server/src/process/engraving.ts';
import { hobbing } from '../../../server/src/process/hobbing.ts';
import { keyway } from '../../../server/src/process/keyway.ts';
import type { Sheet, SheetRow } from '../../../server/src/requests.ts';
import { inventedCard } from '../../invented-machine.ts';
import { inch, metric, values } from '../process/figures.ts';

const onMachine = { units: 'mm', card: inventedCard } as const;
const gear = 'MODULE=2 TEETH=32 FACE=20 HOB-DIA=63 SPEED=60 FEED=1.5';

function row(sheet: Sheet, name: string): SheetRow {
  const found = sheet.rows.find((each) => each.name === name);
  if (!found) throw new Error(`no row ${name}`);
  return found;
}

describe('the parameter sheet', () => {
  it('has a row for every parameter, in the order of the process', () => {
    expect(sheetOf(hobbing, {}, metric).rows.map(({ name }) => name)).toEqual(Object.keys(hobbing.fields));
  });

  it('says of each row what it is, what is allowed and what counts where nothing is typed', () => {
    const sheet = sheetOf(hobbing, values(gear), metric);
    expect(row(sheet, 'TEETH')).toEqual({ name: 'TEETH', label: 'Number of teeth', help: 'Teeth of the gear.', unit: '', allowed: 'a whole number from 3 to 1000', value: '32', standard: '', required: true });
    expect(row(sheet, 'HAND')).toMatchObject({ value: '', standard: 'RIGHT', required: false, choices: ['RIGHT', 'LEFT'], allowed: 'RIGHT or LEFT' });
    expect(row(sheet, 'TIP-DIA')).toMatchObject({ value: '', standard: 'computed', required: false, unit: 'mm' });
  });

  it('counts in the units of the program', () => {
    expect(row(sheetOf(keyway, {}, inch), 'BORE').unit).toBe('inch');
    expect(row(sheetOf(keyway, {}, inch), 'LEAD-IN').standard).toBe('0.08');
    expect(row(sheetOf(keyway, {}, metric), 'LEAD-IN').standard).toBe('2');
  });

  it('is ready when nothing is wrong, and shows the key figures with their working', () => {
    const sheet = sheetOf(hobbing, values(gear), onMachine);
    expect(sheet.ready).toBe(true);
    expect(sheet.figures.map(({ id }) => id)).toEqual(hobbing.keyQuantities);
    expect(sheet.figures[0]).toMatchObject({ id: 'syncRatio', text: '1/32 (0.03125)' });
    for (const { working } of sheet.figures) expect(working).toMatch(/\d/);
  });

  it('shows a problem in the row where it arises, and is not ready', () => {
    const sheet = sheetOf(hobbing, { ...values(gear), TEETH: '0', FACE: 'x' }, onMachine);
    expect(sheet.ready).toBe(false);
    expect(sheet.rows.filter(({ problem }) => problem !== undefined).map(({ name }) => name)).toEqual(['TEETH', 'FACE']);
    expect(row(sheet, 'TEETH').problem).toBe('TEETH: 0 is not allowed: it must be a whole number from 3 to 1000.');
    expect(sheet.figures).toEqual([]);
  });

  it('asks for what is missing while nothing is typed', () => {
    const sheet = sheetOf(hobbing, {}, metric);
    expect(sheet.ready).toBe(false);
    expect(sheet.rows.filter(({ problem }) => problem !== undefined).map(({ name }) => name)).toEqual(['MODULE', 'TEETH', 'FACE', 'HOB-DIA', 'SPEED', 'FEED']);
  });

  it('shows a risk as a warning and stays ready', () => {
    const sheet = sheetOf(hobbing, { ...values(gear), 'HOB-STARTS': '2' }, onMachine);
    expect(sheet.ready).toBe(true);
    expect(row(sheet, 'HOB-STARTS')).toMatchObject({ warning: expect.stringMatching(/common factor/) as string });
    expect(row(sheet, 'HOB-STARTS').problem).toBeUndefined();
  });

  it('is ready with holes, and says which keys of the card would fill them', () => {
    const sheet = sheetOf(keyway, values('BORE=30 LENGTH=25 RPM=500 FEED=0.05'), { units: 'mm', card: openStandardCard });
    expect(sheet.ready).toBe(true);
    expect(sheet.notices.map(({ cardKey }) => cardKey)).toEqual(['codes.workAxisOn', 'codes.drivenStart', 'codes.drivenStop', 'codes.workAxisOff']);
  });

  it('shows a value that the note could not keep', () => {
    const sheet = sheetOf(engraving, { ...values('HEIGHT=5 DEPTH=.1 TIP-DIA=.1 TIP-ANGLE=60 FLUTES=1 RPM=5000 CHIP-LOAD=.003 SURFACE=FACE AT-X=20'), TEXT: 'A (B)' }, onMachine);
    expect(sheet.ready).toBe(false);
    expect(row(sheet, 'TEXT').problem).toMatch(/cannot be kept in a comment/);
  });

  it('shows beside speed and feed what is usual for the material, and fills in nothing', () => {
    const { SPEED, ...rest } = values(gear);
    const sheet = sheetOf(hobbing, { ...rest, MATERIAL: 'CAST-IRON' }, metric);
    expect(row(sheet, 'SPEED')).toMatchObject({ value: '', hint: expect.stringMatching(/^Usual for cast iron: 40 to 70 m\/min/) as string });
    expect(sheet.ready).toBe(false);
    const fast = sheetOf(hobbing, { ...rest, SPEED: '500', MATERIAL: 'CAST-IRON' }, metric);
    expect(row(fast, 'SPEED')).toMatchObject({ value: '500', remark: expect.stringMatching(/outside what is usual/) as string });
    expect(row(fast, 'SPEED').warning).toBeUndefined();
    expect(fast.ready).toBe(true);
    expect(SPEED).toBe('60');
  });
});
