// Pictures of the main job in the three kinds of theme, kept as test output for a person to look at. What is asserted is
// that the theme is in force and that the hover's letters stand out from its ground.
import { readFileSync, writeFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { placeIn, processBlock } from './places.mjs';
import { openEditorSession } from './session.mjs';

let session;

beforeAll(async () => {
  session = await openEditorSession();
});

afterAll(() => session?.close());

function useTheme(name) {
  const settings = JSON.parse(readFileSync(session.settingsFile, 'utf8'));
  writeFileSync(session.settingsFile, JSON.stringify({ ...settings, 'workbench.colorTheme': name }));
}

test.each([
  ['light', 'Default Light Modern', 'vs'],
  ['dark', 'Default Dark Modern', 'vs-dark'],
  ['high-contrast', 'Default High Contrast', 'hc-black'],
])('%s', async (name, theme, kind) => {
  const { workbench } = session;
  useTheme(theme);
  await workbench.load(session.addressOf(session.demo.program));
  await workbench.page.locator(`.monaco-workbench.${kind}`).waitFor();
  const block = processBlock(readFileSync(session.demo.program, 'utf8'), 'HOBBING');
  await workbench.hover(placeIn(block, /\bS\d+/), /revolutions/i);
  // Only now is the extension known to have looked at the program.
  await workbench.noProblems();
  await workbench.screenshot(`hover-${name}`);
  expect(await workbench.hoverContrast()).toBeGreaterThan(4.5);
});
