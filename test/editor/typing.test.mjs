// Typing into a program with the lists that help and the lists that must not: names of a note come by themselves, words
// that move a machine never do. And the outline of what was typed.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openEditorSession } from './session.mjs';

const programName = 'typing.nc';
const lines = ['%', 'O2002 (TYPED)', 'G21 G18 G90', 'T0505 (HOB)', '(HOBBING: MODULE=2 )', '(END HOBBING)', '', 'M30', '%', ''];
const suggestion = '.suggest-widget.visible .monaco-list-row';

let session;
let workbench;

beforeAll(async () => {
  session = await openEditorSession();
  ({ workbench } = session);
  const file = join(session.demo.folder, programName);
  writeFileSync(file, lines.join('\n'));
  await workbench.load(session.addressOf(file));
  // The breadcrumbs show a place of the outline as soon as the extension has answered.
  await workbench.goTo(5, 20);
  await workbench.page.locator('.breadcrumbs-control', { hasText: 'T0505' }).waitFor();
});

afterAll(() => session?.close());

test('a parameter of a note is chosen from the list that opens by itself', async () => {
  await workbench.goTo(5, 20);
  await workbench.page.keyboard.type('TEE');
  await workbench.page.locator(suggestion, { hasText: 'TEETH' }).first().waitFor();
  await workbench.screenshot('completion-note');
  await workbench.page.keyboard.press('Enter');
  await workbench.page.keyboard.type('32');
  const text = await workbench.editorText(programName, (each) => each.includes('TEETH=32'));
  expect(text.split('\n')[4]).toBe('(HOBBING: MODULE=2 TEETH=32)');
});

test('a word outside is taken as it is typed: Enter puts no other in its place', async () => {
  await workbench.goTo(7, 1);
  await workbench.page.keyboard.type('M3');
  // Whatever list would open has opened by the time that the program is known to have been looked at again.
  await workbench.page.locator('.breadcrumbs-control', { hasText: 'T0505' }).waitFor();
  expect(await workbench.page.locator(suggestion).count()).toBe(0);
  await workbench.page.keyboard.press('Enter');
  await workbench.page.keyboard.type('M09');
  const text = await workbench.editorText(programName, (each) => each.includes('M09'));
  expect(text.split('\n').slice(6, 8)).toEqual(['M3', 'M09']);
});

test('behind the end of the program no block goes in, and the reason is said', async () => {
  await workbench.goTo(10, 1);
  await workbench.runCommand('Blockwright: Insert Block');
  expect(await workbench.answerDialog('OK')).toMatch(/No block can go in here.*has ended before this place/s);
});
