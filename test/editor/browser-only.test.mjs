// The extension in an editor without Node: fetched over HTTP, its browser entry runs in the extension host of a web
// worker and starts the language server in another one. The card is read through the client, since a worker has no files.
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { placeIn, processBlock } from './places.mjs';
import { openEditorSession } from './session.mjs';

let session;
let hobbing;

beforeAll(async () => {
  session = await openEditorSession({}, { browserOnly: true });
  hobbing = processBlock(readFileSync(session.demo.program, 'utf8'), 'HOBBING');
  await loadUntilAnswered();
});

afterAll(() => session?.close());

/**
 * Loads the window until the breadcrumbs show a place of the outline, which only the server knows. A browser under test
 * often hangs where the extension starts its worker, inside `new Worker` itself, before the script is asked for; why is
 * not known. Loading again helps, and each time it gets longer, for a machine with other work on it.
 */
async function loadUntilAnswered() {
  const { workbench, demo } = session;
  for (let attempt = 1; attempt <= 12; attempt += 1) {
    await workbench.load(session.addressOf(demo.program));
    await workbench.goTo(hobbing.first);
    const place = workbench.page.locator('.breadcrumbs-control', { hasText: 'O1001' });
    if (await place.waitFor({ timeout: 10_000 + 5000 * attempt }).then(() => true, () => false)) return;
  }
  throw new Error('the server in the worker has never answered');
}

test('a hover is answered, and nothing but the browser bundles was fetched', async () => {
  const hover = await session.workbench.hover(placeIn(hobbing, /\bS\d+/), /revolutions/i);
  // Kinematics of hob and work: one start and 32 teeth (derived).
  expect(hover).toMatch(/^\s*1\/32\b/);
  const bundles = session.served.requested.filter((path) => path.includes('/dist/') && path.endsWith('.js'));
  expect([...new Set(bundles)].sort()).toEqual(['/client/dist/extension.browser.js', '/server/dist/browser.js']);
});

test('the machine card that the settings name is in use', async () => {
  const { workbench } = session;
  expect(await workbench.hover(placeIn(hobbing, /\bG37\b/), /invented for this demo/i)).toMatch(/machine card/);
  await workbench.noProblems();
  await workbench.screenshot('browser-only');
});
