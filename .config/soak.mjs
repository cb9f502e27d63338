// Runs the suites that hold property tests again and again, each time with a fresh seed, until one fails.
//
//   node .config/soak.mjs [rounds, default 10]
import { spawnSync } from 'node:child_process';
import { randomInt } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { vitestPath } from './vitest-path.mjs';

const repositoryRoot = fileURLToPath(new URL('..', import.meta.url));
const rounds = Number(process.argv[2] ?? 10);
if (!Number.isInteger(rounds) || rounds < 1) throw new Error(`rounds: ${process.argv[2]}: a whole number from 1 on is needed.`);

const suites = readdirSync(join(repositoryRoot, 'test/unit'), { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.test.ts'))
  .map((name) => `test/unit/${name}`)
  .filter((name) => readFileSync(join(repositoryRoot, name), 'utf8').includes("from 'fast-check'"));

for (let round = 1; round <= rounds; round++) {
  const seed = String(randomInt(2 ** 31));
  const { status, stdout, stderr } = spawnSync(process.execPath, [vitestPath, 'run', '-c', '.config/vitest.config.mts', ...suites], {
    cwd: repositoryRoot, encoding: 'utf8', maxBuffer: 2 ** 28, env: { ...process.env, BLOCKWRIGHT_SEED: seed },
  });
  console.log(`round ${round} of ${rounds}, seed ${seed}: ${status === 0 ? 'passed' : 'failed'}`);
  if (status !== 0) {
    console.error(stdout, stderr);
    process.exit(1);
  }
}
