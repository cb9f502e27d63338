// Runs every suite and sums what they report. A suite that fails, leaves no report, or ran no test makes the whole run
// fail; the last line holds the totals.
//
//   node .config/test.mjs
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { vitestPath } from './vitest-path.mjs';

const repositoryRoot = fileURLToPath(new URL('..', import.meta.url));

const suites = [
  { name: 'unit, protocol and grammar', report: 'test/output/unit.json', command: vitestCommand('vitest.config.mts', 'unit') },
  // Chromium under test often hangs where an extension starts a worker, so the editor without Node is a test of its own.
  { name: 'editor window', report: 'test/output/window.json', command: [...vitestCommand('vitest.editor.config.mts', 'window'), '--exclude', 'test/editor/browser-only.test.mjs'] },
  { name: 'editor interface', report: 'test/output/suite.json', command: ['test/editor/run-suite.mjs'] },
];

function vitestCommand(configuration, report) {
  return [vitestPath, 'run', '-c', `.config/${configuration}`, '--reporter=default', '--reporter=json', `--outputFile.json=test/output/${report}.json`];
}

/** Runs one suite. The counts come from its own report, never from its exit code. */
function runSuite({ name, report, command }) {
  console.log(`\n== ${name}`);
  rmSync(`${repositoryRoot}/${report}`, { force: true });
  const { status } = spawnSync(process.execPath, command, { cwd: repositoryRoot, stdio: ['ignore', 'inherit', 'inherit'] });
  const counts = readCounts(`${repositoryRoot}/${report}`);
  return { name, ...counts, faults: faultsOf(status, counts) };
}

function readCounts(file) {
  if (!existsSync(file)) return { passed: 0, failed: 0, skipped: 0, hasReport: false };
  const { numPassedTests, numFailedTests, numPendingTests = 0 } = JSON.parse(readFileSync(file, 'utf8'));
  return { passed: numPassedTests, failed: numFailedTests, skipped: numPendingTests, hasReport: true };
}

function faultsOf(status, { passed, failed, hasReport }) {
  return [
    ...(hasReport ? [] : ['left no report']),
    ...(hasReport && passed + failed === 0 ? ['ran no test'] : []),
    ...(status === 0 ? [] : [`ended with code ${status}`]),
  ];
}

function printTotals(results) {
  const total = (count) => results.reduce((sum, result) => sum + result[count], 0);
  for (const { name, passed, failed, faults } of results) console.log([`${name}: ${passed} passed, ${failed} failed`, ...faults].join('; '));
  const skipped = total('skipped');
  console.log(`${total('passed')} passed, ${total('failed')} failed${skipped > 0 ? `, ${skipped} skipped` : ''}`);
}

mkdirSync(`${repositoryRoot}/test/output`, { recursive: true });
const results = suites.map(runSuite);
console.log('');
printTotals(results);
process.exitCode = results.some(({ faults, failed }) => faults.length > 0 || failed > 0) ? 1 : 0;
