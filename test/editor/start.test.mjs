// The start command as a newcomer meets it: it prints an address, a browser finds the demo's program there, and Ctrl+C
// ends everything.
import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { afterEach, expect, test } from 'vitest';
import { launchChromium } from './chromium.mjs';
import { Workbench } from './workbench.mjs';

const startScript = fileURLToPath(new URL('../../client/host/start.mjs', import.meta.url));

let started;

afterEach(() => started?.kill());

function start(...options) {
  started = spawn(process.execPath, [startScript, ...options], { env: { ...process.env, BLOCKWRIGHT_EDITOR: 'embedded' } });
  const output = { text: '', errors: '' };
  started.stdout.on('data', (chunk) => { output.text += chunk; });
  started.stderr.on('data', (chunk) => { output.errors += chunk; });
  const ended = new Promise((resolve) => started.once('close', (code) => resolve({ code, ...output })));
  return { output, ended };
}

/** The address that the command prints, once it does. */
function printedAddress({ output, ended }) {
  return new Promise((resolve, reject) => {
    ended.then(({ errors }) => reject(new Error(`start ended: ${errors}`)));
    started.stdout.on('data', () => {
      const found = /^\s*(http:\S+)\s*$/m.exec(output.text);
      if (found && output.text.includes('Ctrl+C')) resolve(found[1]);
    });
  });
}

test('opens the metric program of the demo and stops cleanly', async () => {
  const run = start('--no-open');
  const address = await printedAddress(run);
  const browser = await launchChromium();
  try {
    const workbench = new Workbench(await browser.newPage());
    await workbench.load(address);
    await workbench.page.locator('.statusbar-item', { hasText: 'NC Program' }).waitFor();
    await workbench.page.locator('.tab.active', { hasText: '.nc' }).waitFor();
  } finally {
    await browser.close();
  }
  started.kill('SIGINT');
  expect((await run.ended).code).toBe(0);
  await expect(fetch(address)).rejects.toThrow();
});

test('refuses a port that is none with one line', async () => {
  const { code, text, errors } = await start('--port', '99999').ended;
  expect(code).toBe(1);
  expect(text).toBe('');
  expect(errors.trim().split('\n')).toEqual([expect.stringContaining('--port 99999')]);
});

test('says what it can do', async () => {
  const { code, text } = await start('--help').ended;
  expect(code).toBe(0);
  for (const option of ['--port', '--no-open', '--fresh', 'BLOCKWRIGHT_EDITOR']) expect(text).toContain(option);
});
