/**
 * Proves the whole grid of composed blocks and prints what came of it. Takes
 * some minutes; a part of the same grid runs in the unit suite. Exit code 1 when
 * anything is out of bounds.
 */
import { hobbingGrid, keywayGrid, proveKeyway, proveSetting } from '../unit/cut/proof-grid.ts';

const SPAN_BOUND = 0.002;
const HELIX_BOUND_DEGREES = 0.01;
const failures: string[] = [];
let worstSpan = 0;
let worstHelix = 0;
let withoutSpan = 0;
const markShares: number[] = [];
let slowest = 0;

/** Failures are also shown as they come, on the other stream: the whole grid takes a while. */
function attempt(name: string, work: () => string[]): void {
  try {
    work().forEach((each) => fail(`${name}: ${each}`));
  } catch (error) {
    fail(`${name}: ${error instanceof Error ? error.message : String(error)}`);
  }
}

function fail(message: string): void {
  failures.push(message);
  console.error(message);
}

const started = performance.now();
for (const each of hobbingGrid) {
  const before = performance.now();
  attempt(each.name, () => {
    const result = proveSetting(each);
    const wrong = [...result.rules];
    if (result.teeth !== each.setting.teeth) wrong.push(`${result.teeth} teeth`);
    if (result.spanError > SPAN_BOUND) wrong.push(`span off by ${result.spanError}`);
    if (result.helixErrorDegrees > HELIX_BOUND_DEGREES) wrong.push(`helix off by ${result.helixErrorDegrees} deg`);
    if (Number.isNaN(result.spanError)) withoutSpan += 1;
    else worstSpan = Math.max(worstSpan, result.spanError);
    markShares.push(result.markShare);
    worstHelix = Math.max(worstHelix, result.helixErrorDegrees);
    return wrong;
  });
  slowest = Math.max(slowest, performance.now() - before);
}
const hobbed = performance.now();
let worstDepth = 0;
for (const each of keywayGrid) {
  attempt(each.name, () => {
    const result = proveKeyway(each);
    worstDepth = Math.max(worstDepth, Math.abs(result.depth - result.wantedDepth));
    return result.slots === each.count ? result.rules : [...result.rules, `${result.slots} slots`];
  });
}

const seconds = (from: number, to: number): string => ((to - from) / 1000).toFixed(1);
console.log(`${hobbingGrid.length} hobbing settings in ${seconds(started, hobbed)} s, the slowest ${(slowest / 1000).toFixed(1)} s`);
console.log(`span beyond the predicted marks: at most ${(worstSpan * 1000).toFixed(3)} micrometres (${withoutSpan} settings without a place for a caliper)`);
console.log(`the span shows ${Math.min(...markShares).toFixed(2)} to ${Math.max(...markShares).toFixed(2)} of the predicted marks on top of its ideal value`);
console.log(`helix angle: at most ${worstHelix.toFixed(5)} degrees off`);
console.log(`${keywayGrid.length} keyways in ${seconds(hobbed, performance.now())} s, depth at most ${(worstDepth * 1000).toFixed(3)} micrometres off`);
for (const failure of failures) console.log(`FAILED ${failure}`);
console.log(`${failures.length} failures`);
process.exitCode = failures.length > 0 ? 1 : 0;
