// A block and its note belong together: edited in the sheet, changed by hand and brought back, proved by a virtual cut.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { noteValues, placeIn, processBlock } from './places.mjs';
import { openEditorSession } from './session.mjs';
import { ParameterSheet } from './sheet.mjs';

// The block is put in by the product itself, so that it agrees with its note at the start.
const fileName = 'round-trip.nc';
const emptyProgram = ['%', 'O2002 (ROUND TRIP)', 'G21 G18 G90 G95', 'T0505', 'M30', '%', ''].join('\n');
const parameters = { MODULE: '2', TEETH: '28', FACE: '18', 'HOB-DIA': '63', SPEED: '60', FEED: '1.5' };

let session;
let sheet;
let program;
let hobbing;

beforeAll(async () => {
  session = await openEditorSession();
  const file = join(session.demo.folder, fileName);
  writeFileSync(file, emptyProgram);
  await session.workbench.load(session.addressOf(file));
  sheet = new ParameterSheet(session.workbench);
  program = await programWithBlock();
  hobbing = processBlock(program, 'HOBBING');
});

async function programWithBlock() {
  const { workbench } = session;
  await workbench.goTo(5);
  await workbench.chooseLightbulbAction('Insert hobbing block');
  await sheet.setAll(parameters);
  await sheet.confirm('Insert the block');
  return workbench.editorText(fileName, (text) => text.includes('(END HOBBING)'));
}

afterAll(() => session?.close());

async function undoneTo(text) {
  await session.workbench.undo();
  expect(await session.workbench.editorText(fileName, (each) => each === text)).toBe(text);
}

test('a block edited in the sheet is made anew in place, and one undo brings the old one back', async () => {
  const { workbench } = session;
  await workbench.goTo(hobbing.first + 1);
  await workbench.chooseLightbulbAction('Edit this hobbing block');
  await sheet.set('FEED', '1.2');
  await sheet.confirm('Put the block in place');

  const edited = await workbench.editorText(fileName, (text) => text !== program);
  const block = processBlock(edited, 'HOBBING');
  expect(noteValues(block)).toEqual({ ...noteValues(hobbing), FEED: '1.2' });
  // Feed a minute = feed a work revolution x speed of the work (elementary, derived); the card writes three decimals.
  const workRpm = (1000 * 60) / (Math.PI * 63) / 28;
  const feed = /\bF([\d.]+)/.exec(block.text)?.[1];
  expect(Number(feed)).toBeCloseTo(1.2 * workRpm, 2);
  const outside = (text, { first, last }) => text.split(/\r?\n/).filter((_line, index) => index + 1 < first || index + 1 > last);
  expect(outside(edited, block)).toEqual(outside(program, hobbing));
  await undoneTo(program);
});

test('a word changed by hand is marked as drift and the note can make it anew', async () => {
  const { workbench } = session;
  const place = placeIn(hobbing, /\bS\d+/);
  await workbench.goTo(place.line, place.column + place.length);
  await workbench.page.keyboard.press('Backspace');
  await workbench.page.keyboard.type('9');
  const changed = program.replace(place.word, `${place.word.slice(0, -1)}9`);
  expect(changed).not.toBe(program);
  expect(await workbench.editorText(fileName, (text) => text !== program)).toBe(changed);
  const titles = await workbench.until(async () => {
    const offered = await workbench.lightbulbTitles();
    if (offered?.some((title) => title.includes('anew'))) return offered;
    await workbench.page.keyboard.press('Escape');
    return undefined;
  }, 'the ways out of the drift');
  expect(titles).toEqual(expect.arrayContaining([expect.stringMatching(/into the note/), expect.stringMatching(/^Keep /)]));
  await workbench.screenshot('drift');
  await workbench.page.locator('.action-widget .monaco-list-row.action', { hasText: 'anew' }).first().click();
  // What was typed into the block is shown before it goes.
  expect(await workbench.answerDialog('Make it anew')).toContain(`${place.word.slice(0, -1)}9`);
  expect(await workbench.editorText(fileName, (text) => text === program)).toBe(program);
});

test('the virtual cut reports what the blocks of the program cut', async () => {
  const { workbench } = session;
  await workbench.focusText();
  await workbench.runCommand('Blockwright: Prove Blocks by Virtual Cut');
  const report = workbench.page.locator('.editor-group-container', { has: workbench.page.locator('.tab', { hasText: 'Virtual cut' }) });
  await report.locator('.view-line', { hasText: 'HOBBING' }).first().waitFor();
  const text = (await report.locator('.view-lines').innerText()).replaceAll('\u00a0', ' ');
  expect(text).toMatch(/HOBBING.*cuts what the note/);
  expect(text).toMatch(/\b28 \(wanted 28\)/);
  await workbench.screenshot('virtual-cut');
});
