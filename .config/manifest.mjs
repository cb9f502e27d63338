// Writes the setting of rule severities into package.json from the rule tables of the source, where each rule lives once.
// A test fails when the two differ.
//
//   node .config/manifest.mjs
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const repositoryRoot = fileURLToPath(new URL('..', import.meta.url));
const manifestFile = new URL('../package.json', import.meta.url);

async function ruleTables() {
  const options = { bundle: true, write: false, format: 'esm', platform: 'neutral', mainFields: ['module', 'main'], logLevel: 'warning' };
  const { outputFiles } = await build({ absWorkingDir: repositoryRoot, entryPoints: ['server/src/assist/check.ts'], ...options });
  const { allRules } = await import(`data:text/javascript;base64,${Buffer.from(outputFiles[0].contents).toString('base64')}`);
  return allRules;
}

const severities = ['off', 'information', 'warning', 'error'];
const manifest = JSON.parse(readFileSync(manifestFile, 'utf8'));
const setting = manifest.contributes.configuration.properties['blockwright.rules'];
setting.properties = Object.fromEntries(Object.entries(await ruleTables()).map(([id, { severity, summary, source }]) =>
  [id, { type: 'string', enum: severities, description: `${summary} Default: ${severity}. Source: ${source}.` }]));
writeFileSync(manifestFile, `${JSON.stringify(manifest, undefined, 2)}\n`);
