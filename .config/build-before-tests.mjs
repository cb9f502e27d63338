// The command line and the protocol are tested on what the build leaves, so the build comes first.
import { buildBundles } from './build.mjs';

export async function setup() {
  await buildBundles({ tests: false });
}
