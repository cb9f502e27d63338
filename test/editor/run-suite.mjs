// Runs the suite that speaks to the editor's programming interface.
//
//   node test/editor/run-suite.mjs             in the embedded editor, which npm alone can install
//   node test/editor/run-suite.mjs --desktop   in a desktop editor, downloaded by the test library
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { runTests } from '@vscode/test-electron';
import { cacheFolder, repositoryRoot } from '../../client/host/cache.mjs';
import { prepareDemo } from '../../client/host/demo.mjs';
import { buildBundles } from '../../.config/build.mjs';

const reportFile = join(repositoryRoot, 'test', 'output', 'suite.json');

/** Which editor runs the suite: the launcher passes for one, or the library downloads one. */
function editorChoice(desktop) {
  if (desktop) return { cachePath: join(cacheFolder(), 'desktop') };
  return { vscodeExecutablePath: fileURLToPath(new URL('launcher.mjs', import.meta.url)) };
}

async function runInEditor(desktop, scratchFolder) {
  await buildBundles();
  const demo = prepareDemo(scratchFolder);
  await runTests({
    ...editorChoice(desktop),
    extensionDevelopmentPath: repositoryRoot,
    extensionTestsPath: join(repositoryRoot, 'test', 'editor', 'dist', 'suite.js'),
    extensionTestsEnv: { BLOCKWRIGHT_SUITE_REPORT: reportFile },
    launchArgs: [demo.folder, `--user-data-dir=${scratchFolder}/data`, `--extensions-dir=${scratchFolder}/extensions`],
  });
}

function printOutcomes() {
  const { outcomes, numPassedTests, numFailedTests } = JSON.parse(readFileSync(reportFile, 'utf8'));
  for (const { name, error } of outcomes) console.log(error === undefined ? `  ok      ${name}` : `  FAILED  ${name}\n${error}`);
  console.log(`suite: ${numPassedTests} passed, ${numFailedTests} failed`);
}

async function main() {
  rmSync(reportFile, { force: true });
  mkdirSync(join(reportFile, '..'), { recursive: true });
  const scratchFolder = mkdtempSync(join(tmpdir(), 'blockwright-desktop-'));
  try {
    // A failed check makes the editor's exit code, and so this promise, a failure; the report says which one.
    await runInEditor(process.argv.includes('--desktop'), scratchFolder).finally(() => existsSync(reportFile) && printOutcomes());
    // An editor that ends well but without a report has run nothing.
    if (!existsSync(reportFile)) throw new Error('the editor ended without a report');
  } finally {
    rmSync(scratchFolder, { recursive: true, force: true });
  }
}

main().catch((error) => {
  console.error(`suite: ${error.message}`);
  process.exitCode = 1;
});
