// Bundles everything that ships or that a test runner loads. It knows entry points and bundle formats and nothing of
// what the code does. An entry whose source does not exist is reported and skipped, so that part of the product can be
// built alone; `--strict` (used for packaging) turns that into a failure.
//
//   node .config/build.mjs [--production] [--watch] [--strict]
import { existsSync, rmSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build, context } from 'esbuild';
import { thirdPartyNotices } from './notices.mjs';

const repositoryRoot = fileURLToPath(new URL('..', import.meta.url));

// The editor's own extension host loads CommonJS; `vscode` exists only there.
const nodeFormat = { platform: 'node', format: 'cjs', target: 'node20' };

// The worker bundle is also the proof that the core does no input or output: a Node built-in anywhere in it fails here.
const workerFormat = { platform: 'browser', format: 'iife', target: 'es2022' };

const productEntries = [
  { from: 'client/src/extension.ts', to: 'client/dist/extension.js', ...nodeFormat, external: ['vscode'] },
  { from: 'client/src/extension.browser.ts', to: 'client/dist/extension.browser.js', ...nodeFormat, platform: 'browser', external: ['vscode'] },
  { from: 'server/src/main.node.ts', to: 'server/dist/main.js', ...nodeFormat },
  { from: 'server/src/cli.ts', to: 'server/dist/cli.js', ...nodeFormat },
  { from: 'server/src/main.browser.ts', to: 'server/dist/browser.js', ...workerFormat },
];

const testEntries = [
  { from: 'test/editor/suite.ts', to: 'test/editor/dist/suite.js', ...nodeFormat, external: ['vscode'] },
];

/** Esbuild's options for one entry. Production bundles are small and carry no source map. */
function bundleOptions({ from, to, ...format }, { production }) {
  return {
    absWorkingDir: repositoryRoot,
    entryPoints: [from],
    outfile: to,
    bundle: true,
    // Some packages ship a UMD `main` whose inner requires a bundler cannot follow; their ES modules bundle cleanly.
    mainFields: format.platform === 'browser' ? ['browser', 'module', 'main'] : ['module', 'main'],
    minify: production,
    sourcemap: production ? false : 'linked',
    legalComments: 'linked',
    metafile: true,
    logLevel: 'warning',
    // A name that the other file no longer exports would only show at run time.
    logOverride: { 'import-is-undefined': 'error' },
    ...format,
  };
}

/** Splits the entries by whether their source exists. */
function partitionBySource(entries) {
  const present = entries.filter((entry) => existsSync(new URL(`../${entry.from}`, import.meta.url)));
  return { present, missing: entries.filter((entry) => !present.includes(entry)) };
}

/** A map left from a development build would be stale beside a production bundle. */
function removeStaleMaps(entries) {
  for (const { to } of entries) rmSync(new URL(`../${to}.map`, import.meta.url), { force: true });
}

/**
 * Builds the bundles once. Rejects when a bundle does not build, or, with `strict`, when an entry's source is missing.
 * @param {{ production?: boolean, strict?: boolean, tests?: boolean }} [wanted]
 */
export async function buildBundles({ production = false, strict = false, tests = true } = {}) {
  const { present, missing } = partitionBySource(tests ? [...productEntries, ...testEntries] : productEntries);
  for (const { from } of missing) console.warn(`build: no ${from}, skipped`);
  if (strict && missing.length > 0) throw new Error(`missing sources: ${missing.map(({ from }) => from).join(', ')}`);
  if (production) removeStaleMaps(present);
  const results = await Promise.all(present.map((entry) => build(bundleOptions(entry, { production }))));
  await writeCardSchema();
  if (production) writeNotices(results);
}

function writeNotices(results) {
  const notices = thirdPartyNotices(repositoryRoot, results.map(({ metafile }) => metafile));
  writeFileSync(new URL('../server/dist/third-party-notices.txt', import.meta.url), notices);
}

/** The card's schema is generated from the one definition in the source, so that the two cannot drift apart. */
async function writeCardSchema() {
  const source = 'server/src/machine/card-schema.ts';
  const { outputFiles } = await build({ absWorkingDir: repositoryRoot, entryPoints: [source], bundle: true, write: false, format: 'esm', logLevel: 'warning' });
  const { editorCardSchema } = await import(`data:text/javascript;base64,${Buffer.from(outputFiles[0].contents).toString('base64')}`);
  writeFileSync(new URL('../server/dist/machine-card.schema.json', import.meta.url), `${JSON.stringify(editorCardSchema(), undefined, 1)}\n`);
}

async function watchBundles(wanted) {
  const { present } = partitionBySource([...productEntries, ...testEntries]);
  const contexts = await Promise.all(present.map((entry) => context({ ...bundleOptions(entry, wanted), logLevel: 'info' })));
  await Promise.all(contexts.map((each) => each.watch()));
}

async function main(flags) {
  const wanted = { production: flags.includes('--production'), strict: flags.includes('--strict') };
  await (flags.includes('--watch') ? watchBundles(wanted) : buildBundles(wanted));
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  main(process.argv.slice(2)).catch((error) => {
    console.error(`build: ${error.message}`);
    process.exitCode = 1;
  });
}
