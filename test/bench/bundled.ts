/**
 * Loads a part of the product as it ships: bundled and minified. The test runner
 * looks every imported name up at each use, which makes an inner loop many times
 * slower than it is in the product, so a benchmark must not import the source.
 */
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

/** The exports of the module at `path`, counted from the root of the project. */
export async function bundled(path: string): Promise<unknown> {
  const entry = fileURLToPath(new URL(`../../${path}`, import.meta.url));
  const { outputFiles } = await build({ entryPoints: [entry], bundle: true, minify: true, write: false, format: 'esm', target: 'node20' });
  return import(/* @vite-ignore */ `data:text/javascript;base64,${Buffer.from(outputFiles[0]!.contents).toString('base64')}`);
}
