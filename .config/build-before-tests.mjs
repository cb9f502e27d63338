// Builds what ships once before the tests run: the tests of the command line and of the protocol start it as it is
// delivered. It knows nothing of either.
import { buildBundles } from './build.mjs';

export default () => buildBundles({ tests: false });
