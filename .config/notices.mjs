// Collects the licence texts of the packages whose code is inside the bundles, because the package ships without them
// otherwise. Knows where packages keep their terms, not what the terms say.
import { readFileSync, readdirSync } from 'node:fs';
import { basename, join } from 'node:path';

/**
 * One text with the name, version and licence of every package that went into some bundles.
 * @param {string} repositoryRoot
 * @param {{ inputs: Record<string, unknown> }[]} metafiles as the bundler reports them
 * @throws {Error} when a bundled package states no terms
 */
export function thirdPartyNotices(repositoryRoot, metafiles) {
  const folders = new Set(metafiles.flatMap(({ inputs }) => Object.keys(inputs)).map(packageFolder).filter(Boolean));
  const ofPackages = [...folders].sort().map((folder) => noticeOf(join(repositoryRoot, folder)));
  return [...ofPackages, ...noticesInSource(join(repositoryRoot, 'server', 'src'))].join(`\n${'-'.repeat(80)}\n\n`);
}

/** Data that came from elsewhere lies in the source with its terms in a NOTICE.txt beside it. */
function noticesInSource(folder) {
  const files = readdirSync(folder, { recursive: true }).filter((file) => basename(file) === 'NOTICE.txt');
  return files.sort().map((file) => readFileSync(join(folder, file), 'utf8'));
}

/** The folder of the package that a bundled file belongs to; nothing for our own files. */
function packageFolder(file) {
  return /^(?:.*\/)?node_modules\/(?:@[^/]+\/)?[^/]+/.exec(file)?.[0];
}

function noticeOf(folder) {
  const { name, version, license } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  const file = readdirSync(folder).find((each) => /^licen[cs]e/i.test(each));
  if (file === undefined && license === undefined) throw new Error(`${name} is bundled but states no licence`);
  const text = file === undefined ? `Licence: ${license}` : readFileSync(join(folder, file), 'utf8').trim();
  return `${name} ${version}\n\n${text}\n`;
}
