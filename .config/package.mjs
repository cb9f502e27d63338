// Packages the extension as an installable file and refuses one that is too large. It knows the packager's command line
// and the size limit; what goes in is said by the allow-list in .vscodeignore.
//
//   node .config/package.mjs
import { spawnSync } from 'node:child_process';
import { statSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import { buildBundles } from './build.mjs';

// Everything is bundled, so the package is small; growth past this means that something slipped in.
const sizeLimitBytes = 2 * 1024 * 1024;
const repositoryRoot = fileURLToPath(new URL('..', import.meta.url));
const packageFile = 'blockwright.vsix';

function runPackager() {
  const packager = createRequire(import.meta.url).resolve('@vscode/vsce/vsce');
  const options = ['package', '--no-dependencies', '--allow-missing-repository', '--skip-license', '--no-rewrite-relative-links', '-o', packageFile];
  const { status } = spawnSync(process.execPath, [packager, ...options], { cwd: repositoryRoot, stdio: 'inherit' });
  if (status !== 0) throw new Error('the packager failed, see above');
}

function checkSize() {
  const { size } = statSync(new URL(`../${packageFile}`, import.meta.url));
  const kibibytes = (size / 1024).toFixed(0);
  if (size > sizeLimitBytes) throw new Error(`${packageFile} is ${kibibytes} KiB, the limit is ${sizeLimitBytes / 1024} KiB`);
  console.log(`package: ${packageFile}, ${kibibytes} KiB of at most ${sizeLimitBytes / 1024} KiB`);
}

try {
  await buildBundles({ production: true, strict: true, tests: false });
  runPackager();
  checkSize();
} catch (error) {
  console.error(`package: ${error.message}`);
  process.exitCode = 1;
}
