// Keeps a writable copy of the demo workspace, so that trying things out leaves the clone as it was.
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { repositoryRoot, shortHash } from './cache.mjs';

const demoSource = join(repositoryRoot, 'client', 'demo');

/**
 * Copies the demo into a folder below the given one, unless the copy of this very demo is there already: what somebody
 * has tried in it stays until the demo itself changes or a fresh copy is asked for.
 * @returns {{ folder: string, program: string }} the copy and the program in it to open first
 */
export function prepareDemo(parentFolder, { fresh = false } = {}) {
  const folder = join(parentFolder, `demo-${shortHash(contentOf(demoSource))}`);
  if (fresh) rmSync(folder, { recursive: true, force: true });
  if (!existsSync(folder)) copyCompletely(demoSource, folder);
  return { folder, program: metricProgram(folder) };
}

/** Copied beside and renamed, so that an interrupted start leaves no half copy under the final name. */
function copyCompletely(from, to) {
  const partial = `${to}.partial`;
  rmSync(partial, { recursive: true, force: true });
  mkdirSync(dirname(to), { recursive: true });
  cpSync(from, partial, { recursive: true });
  renameSync(partial, to);
}

function contentOf(folder) {
  const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  const texts = files.map((entry) => join(entry.parentPath, entry.name)).sort().map((file) => `${file}\n${readFileSync(file, 'utf8')}`);
  return texts.join('\n');
}

/** The first program that declares millimetres. */
function metricProgram(folder) {
  const programs = readdirSync(folder).filter((name) => name.endsWith('.nc')).sort();
  const metric = programs.find((name) => /\bG21\b/.test(readFileSync(join(folder, name), 'utf8')));
  if (metric === undefined) throw new Error('the demo holds no metric program');
  return join(folder, metric);
}
