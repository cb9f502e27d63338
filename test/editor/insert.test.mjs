// The other half of the main job: blocks put in from the parameter sheet by mouse and keys, taken back in one step.
import { readFileSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openEditorSession } from './session.mjs';
import { ParameterSheet } from './sheet.mjs';

// A program of this test's own, so that what is inserted where does not depend on the demo's lines.
const programName = 'insert.nc';
const programLines = ['%', 'O2001 (INSERTED BLOCKS)', 'N10 G21 G18 G90', 'N20 T0505', 'N30 G00 X200.0 Z50.0', 'N40 M30', '%', ''];
const program = programLines.join('\r\n');
const insertLine = 5;

let session;
let sheet;

beforeAll(async () => {
  session = await openEditorSession();
  const file = join(session.demo.folder, programName);
  writeFileSync(file, program);
  await session.workbench.load(session.addressOf(file));
  sheet = new ParameterSheet(session.workbench);
});

afterAll(() => session?.close());

/** What stands in the file besides the original text; fails when any of the original was touched. */
function insertedText(text) {
  const head = `${programLines.slice(0, insertLine - 1).join('\r\n')}\r\n`;
  const tail = programLines.slice(insertLine - 1).join('\r\n');
  expect(text.startsWith(head)).toBe(true);
  expect(text.endsWith(tail)).toBe(true);
  return text.slice(head.length, text.length - tail.length);
}

async function textWith(marker) {
  return session.workbench.editorText(programName, (text) => text.includes(marker));
}

async function undoneInOneStep() {
  await session.workbench.undo();
  expect(await session.workbench.editorText(programName, (text) => text === program)).toBe(program);
}

test('the sheet names what is missing, refuses a wrong value with the allowed range, and inserts a hobbing block', async () => {
  const { workbench } = session;
  await workbench.goTo(insertLine);
  await workbench.chooseLightbulbAction('Insert hobbing block');
  const rows = await sheet.rows();
  for (const name of ['MODULE', 'TEETH', 'HELIX', 'HOB-DIA', 'HOB-STARTS', 'FEED']) expect(rows.some((row) => row.includes(name))).toBe(true);
  expect(rows[0]).toMatch(/Not ready: .*TEETH/);

  await sheet.openField('TEETH');
  await workbench.typeInQuickInput('0');
  expect(await workbench.quickInputMessage(/not allowed/)).toMatch(/TEETH.*3 to 1000/);
  await workbench.page.keyboard.press('Escape');

  await sheet.setAll({ MODULE: '2', TEETH: '28', FACE: '18', 'HOB-DIA': '63', SPEED: '60', FEED: '1.5' });
  const filled = await sheet.rows();
  expect(filled.some((row) => /MODULE, 2 mm/.test(row))).toBe(true);
  // The sheet shows the figures that follow: the ratio is starts to teeth (kinematics of hob and work, derived).
  expect(filled.some((row) => /1\/28/.test(row))).toBe(true);
  await workbench.screenshot('sheet-hobbing');
  await sheet.confirm('Insert the block');

  const inserted = insertedText(await textWith('(END HOBBING)'));
  expect(inserted).toMatch(/^\(HOBBING: [^)]*MODULE=2[^)]*TEETH=28/);
  expect(inserted).toMatch(/PROVE BY SIMULATION AND DRY RUN/);
  expect(inserted.trimEnd().endsWith('(END HOBBING)')).toBe(true);
  expect(inserted.replaceAll('\r\n', '')).not.toContain('\n');
  await workbench.screenshot('inserted-hobbing');
  await undoneInOneStep();
});

test('the values of the last time come back, from the command palette too', async () => {
  const { workbench } = session;
  await workbench.goTo(insertLine);
  await workbench.runCommand('Blockwright: Insert Block');
  await workbench.quickRows().filter({ hasText: /hobbing/i }).first().click();
  expect((await sheet.rows()).some((row) => /TEETH, 28\b/.test(row))).toBe(true);
  await sheet.leave();
});

test('a keyway block by its bore alone takes the standard width and is one undo step', async () => {
  const { workbench } = session;
  await workbench.goTo(insertLine);
  await workbench.chooseLightbulbAction('Insert keyway block');
  await sheet.setAll({ BORE: '30', LENGTH: '20', RPM: '600', FEED: '0.04' });
  // DIN 6885-1: a bore of 30 mm takes a key 8 mm wide; 600 strokes a minute are 0.1 seconds each (kinematics, derived).
  expect((await sheet.rows()).some((row) => /0\.1 s\b/.test(row))).toBe(true);
  await workbench.screenshot('sheet-keyway');
  await sheet.confirm('Insert the block');

  const inserted = insertedText(await textWith('(END KEYWAY)'));
  expect(inserted).toMatch(/^\(KEYWAY: [^)]*BORE=30/);
  expect(inserted).toMatch(/KEYWAY 8(\.0)? JS9 WIDE/);
  expect(inserted).toMatch(/PROVE BY SIMULATION AND DRY RUN/);
  await workbench.screenshot('inserted-keyway');
  await undoneInOneStep();
});

test('the demo in the clone is untouched', () => {
  const shipped = new URL(`../../client/demo/${basename(session.demo.program)}`, import.meta.url);
  expect(readFileSync(session.demo.program, 'utf8')).toBe(readFileSync(shipped, 'utf8'));
});
