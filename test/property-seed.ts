// Property tests draw their cases from one fixed seed, so that a commit that passed passes again and a failure can be
// repeated. New cases are drawn by `npm run test:soak`, which runs the same properties with one fresh seed after another.
import fc from 'fast-check';

const FIXED_SEED = 20_261_125;

fc.configureGlobal({ seed: Number(process.env['BLOCKWRIGHT_SEED'] ?? FIXED_SEED) });
