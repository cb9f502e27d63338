#!/usr/bin/env node
// Stands in for a desktop editor's executable: takes the command line that a test run gives to one, runs the suite in the
// embedded editor with a browser that has no window, and ends with the suite's exit code.
//
//   launcher.mjs [FOLDER] --extensionDevelopmentPath=FOLDER --extensionTestsPath=MODULE [options, ignored]
//
// The suite runs by the workbench's own test protocol: the page is configured with the module, the extension host calls
// its `run`, and the workbench reports the exit code to a function that the page offers.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { installEmbeddedEditor } from '../../client/host/embedded-install.mjs';
import { startEmbeddedEditor, workspaceAddress, writeInitialSettings } from '../../client/host/embedded-server.mjs';
import { launchChromium } from './chromium.mjs';

/** The few words of the command line that matter here. */
function readCommandLine(words) {
  const valueOf = (name) => words.find((word) => word.startsWith(`--${name}=`))?.slice(name.length + 3);
  const wanted = { extension: valueOf('extensionDevelopmentPath'), suite: valueOf('extensionTestsPath') };
  if (!wanted.extension || !wanted.suite) throw new Error('--extensionDevelopmentPath and --extensionTestsPath are wanted');
  return { ...wanted, folder: words.find((word) => !word.startsWith('-')) ?? wanted.extension };
}

async function runSuite({ extension, suite, folder }) {
  const dataFolder = mkdtempSync(join(tmpdir(), 'blockwright-suite-'));
  writeInitialSettings(dataFolder);
  const server = await startEmbeddedEditor(await installEmbeddedEditor(console.error), dataFolder);
  const browser = await launchChromium();
  try {
    return await exitCodeOfSuite(await browser.newPage(), server.address, { extension, suite, folder });
  } finally {
    await browser.close();
    await server.stop();
    rmSync(dataFolder, { recursive: true, force: true });
  }
}

async function exitCodeOfSuite(page, serverAddress, { extension, suite, folder }) {
  const remote = (path) => ({ scheme: 'vscode-remote', authority: new URL(serverAddress).host, path });
  await page.addInitScript(configureDevelopment, { extensions: [remote(extension)], extensionTestsPath: remote(suite) });
  const exited = new Promise((resolve, reject) => {
    page.exposeFunction('codeAutomationExit', resolve).catch(reject);
    page.once('crash', () => reject(new Error('the page crashed')));
    page.once('close', () => reject(new Error('the page was closed before the suite ended')));
  });
  await page.exposeFunction('codeAutomationLog', () => {});
  await page.goto(workspaceAddress(serverAddress, folder));
  return exited;
}

/**
 * Runs in the page, before the workbench reads its configuration from an attribute. A built workbench takes a module to
 * test from nowhere else.
 */
function configureDevelopment(developmentOptions) {
  const readAttribute = Element.prototype.getAttribute;
  Element.prototype.getAttribute = function (name) {
    const value = readAttribute.call(this, name);
    if (this.id !== 'vscode-workbench-web-configuration' || name !== 'data-settings') return value;
    const configuration = JSON.parse(value);
    return JSON.stringify({ ...configuration, developmentOptions: { ...configuration.developmentOptions, ...developmentOptions } });
  };
}

try {
  process.exitCode = await runSuite(readCommandLine(process.argv.slice(2)));
} catch (error) {
  console.error(`launcher: ${error.message}`);
  process.exitCode = 1;
}
