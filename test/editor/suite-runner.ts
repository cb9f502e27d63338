// Runs checks one after the other inside the editor's extension host and writes a report. It stands in for a test
// framework there, because a framework's own process handling does not fit a host that the editor owns.
import { writeFileSync } from 'node:fs';

/** One thing to verify: it passes when its promise resolves. */
export interface EditorCheck {
  readonly name: string;
  readonly verify: () => Promise<void>;
}

interface Outcome {
  readonly name: string;
  readonly error?: string;
}

/**
 * Runs all checks, writes the report to the file that BLOCKWRIGHT_SUITE_REPORT names, and throws when a check failed or
 * there was none.
 */
export async function runChecks(checks: readonly EditorCheck[]): Promise<void> {
  const outcomes: Outcome[] = [];
  for (const check of checks) outcomes.push(await outcomeOf(check));
  writeReport(outcomes);
  const failed = outcomes.filter((outcome) => outcome.error !== undefined);
  if (failed.length > 0) throw new Error(failed.map(({ name, error }) => `${name}: ${error}`).join('\n'));
  if (outcomes.length === 0) throw new Error('the suite holds no check');
}

// A check that waits for something that never comes ends here, so that the others run and the report is written.
const longestCheckMilliseconds = 120_000;

async function outcomeOf({ name, verify }: EditorCheck): Promise<Outcome> {
  try {
    await Promise.race([verify(), endOfPatience()]);
    return { name };
  } catch (error) {
    return { name, error: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
}

function endOfPatience(): Promise<never> {
  return new Promise((_resolve, reject) => {
    setTimeout(() => reject(new Error('did not end')), longestCheckMilliseconds).unref();
  });
}

/** The totals have the names that vitest's JSON report uses, so that one reader sums all suites. */
function writeReport(outcomes: readonly Outcome[]): void {
  const file = process.env['BLOCKWRIGHT_SUITE_REPORT'];
  if (file === undefined) return;
  const numFailedTests = outcomes.filter((outcome) => outcome.error !== undefined).length;
  const report = { numTotalTests: outcomes.length, numPassedTests: outcomes.length - numFailedTests, numFailedTests, outcomes };
  writeFileSync(file, JSON.stringify(report, null, 2));
}
