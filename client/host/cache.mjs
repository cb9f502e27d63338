// Where things go that are made on this machine and belong in no clone: the embedded editor, its settings, the demo's
// working copy. Knows folders only, not what is put into them.
import { createHash } from 'node:crypto';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder of this clone, which is also the folder of the extension. */
export const repositoryRoot = fileURLToPath(new URL('../..', import.meta.url)).replace(/[\\/]$/, '');

/** The cache folder of the product: XDG_CACHE_HOME when it is set, else .cache in the home folder. */
export function cacheFolder() {
  return join(process.env.XDG_CACHE_HOME || join(homedir(), '.cache'), 'blockwright');
}

/** A folder for what belongs to this clone alone, so that two clones do not share settings or working copies. */
export function cloneCacheFolder() {
  return join(cacheFolder(), `clone-${shortHash(repositoryRoot)}`);
}

/** Eight hexadecimal digits that stand for a text. */
export function shortHash(text) {
  return createHash('sha256').update(text).digest('hex').slice(0, 8);
}
