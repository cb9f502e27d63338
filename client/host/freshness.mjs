// Builds what is older than its sources. Knows which files a build reads, not how it is done.
import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { repositoryRoot } from './cache.mjs';
import { runNpm } from './npm.mjs';

const sources = [
  'client/src', 'client/media', 'client/demo', 'server/src', 'syntaxes', '.config/build.mjs', '.config/package.mjs',
  '.vscodeignore', 'package.json', 'package-lock.json', 'README.md', 'CHANGELOG.md',
];

/** Builds the bundles that a desktop editor loads from this folder. */
export async function buildWhenStale(report) {
  await runScriptWhenStale('build', join(repositoryRoot, 'client', 'dist', 'extension.js'), report);
}

/** Packages the extension and returns the path of the package. */
export async function packageWhenStale(report) {
  const packageFile = join(repositoryRoot, 'blockwright.vsix');
  await runScriptWhenStale('package', packageFile, report);
  return packageFile;
}

async function runScriptWhenStale(script, product, report) {
  if (isNewerThanSources(product)) return;
  requireInstalledPackages();
  report(`Building the extension (npm run ${script}).`);
  const code = await runNpm(repositoryRoot, ['run', '--silent', script], ['ignore', 'inherit', 'inherit']);
  if (code !== 0) throw new Error(`npm run ${script} failed, see above`);
}

function requireInstalledPackages() {
  if (!existsSync(join(repositoryRoot, 'node_modules', 'esbuild'))) throw new Error('the packages are not installed; run: npm ci');
}

function isNewerThanSources(product) {
  const made = existsSync(product) ? statSync(product).mtimeMs : 0;
  return sources.every((source) => newestChange(join(repositoryRoot, source)) <= made);
}

/** A folder's own time counts too: it tells of files that were removed. */
function newestChange(path) {
  const found = statSync(path, { throwIfNoEntry: false });
  if (!found?.isDirectory()) return found?.mtimeMs ?? 0;
  return readdirSync(path).reduce((newest, name) => Math.max(newest, newestChange(join(path, name))), found.mtimeMs);
}
