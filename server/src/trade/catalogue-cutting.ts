/**
 * Every figure of turning, milling, run-out, balance and presetting: what it is
 * called, by which formula it comes, from where, and how far that can be trusted.
 */
import type { CatalogueFacts } from './catalogue.ts';

const ELEMENTARY = 'elementary, every machining text';
const ROUND_EDGE = 'geometry of a round edge';

/** What `cutting` and `facing` return. */
export const cuttingCatalogue = {
  rpm: { name: 'spindle speed', symbol: 'n', formula: 'v_c / (pi D), at most the limit', dimension: 'rpm', source: ELEMENTARY, standing: 'seen in source' },
  cuttingSpeed: { name: 'cutting speed', symbol: 'v_c', formula: 'pi D n', dimension: 'cuttingSpeed', source: ELEMENTARY, standing: 'seen in source' },
  feedPerMinute: { name: 'feed per minute', symbol: 'v_f', formula: 'f n, milling n z f_z', dimension: 'lengthPerMinute', source: ELEMENTARY, standing: 'seen in source' },
  feedPerRev: { name: 'feed per revolution', symbol: 'f', formula: 'v_f / n', dimension: 'lengthPerRevolution', source: ELEMENTARY, standing: 'seen in source' },
  clampDiameter: { name: 'diameter below which the speed limit holds', symbol: 'D_clamp', formula: 'v_c / (pi n_max)', dimension: 'length', source: 'elementary', standing: 'derived' },
  removalRate: { name: 'material removal rate', symbol: 'Q', formula: 'a_p f v_c', dimension: 'removalRate', source: ELEMENTARY, standing: 'seen in source' },
  peakToValley: { name: 'peak-to-valley height of the feed marks', symbol: 'R_t', formula: 'r - sqrt(r^2 - f^2/4)', dimension: 'length', source: ROUND_EDGE, standing: 'derived' },
  facingTime: {
    name: 'time of facing at constant surface speed', symbol: 't', formula: 'pi (D1^2 - D2^2) / (4 f v_c), below the clamp diameter (D1 - D2) / (2 f n_max)',
    dimension: 'seconds', source: 'integration of the radius over feed and turns', standing: 'derived',
  },
  facingTimeAtConstantRpm: { name: 'time of facing at constant spindle speed', symbol: 't', formula: '(D1 - D2) / (2 f n)', dimension: 'seconds', source: ELEMENTARY, standing: 'derived' },
  chipLoad: { name: 'feed per tooth', symbol: 'f_z', formula: 'f / z', dimension: 'length', source: ELEMENTARY, standing: 'seen in source' },
} satisfies Record<string, CatalogueFacts>;

/** What the functions of cutting-figures.ts return. */
export const toolAndCutCatalogue = {
  cutTime: { name: 'time of a cut', symbol: 't', formula: 'L / v_f', dimension: 'seconds', source: ELEMENTARY, standing: 'seen in source' },
  meanRoughness: { name: 'mean roughness of the feed marks', symbol: 'R_a', formula: '4 / (9 sqrt 3) R_t', dimension: 'length', source: 'mean of a row of parabolas', standing: 'derived' },
  scallopHeight: { name: 'scallop height', symbol: 'h', formula: 'R - sqrt(R^2 - s^2/4)', dimension: 'length', source: ROUND_EDGE, standing: 'derived' },
  stepoverForScallop: { name: 'stepover for a scallop height', symbol: 's', formula: '2 sqrt(h (2 R - h))', dimension: 'length', source: ROUND_EDGE, standing: 'derived' },
  millingRemovalRate: { name: 'material removal rate of milling', symbol: 'Q', formula: 'a_p a_e v_f', dimension: 'removalRate', source: ELEMENTARY, standing: 'seen in source' },
  faceMillApproach: { name: 'approach of a face mill', symbol: 'A', formula: '(d - sqrt(d^2 - w^2)) / 2', dimension: 'length', source: 'manufacturing textbook', standing: 'seen in source' },
  slabMillApproach: { name: 'approach of a slab mill', symbol: 'A', formula: 'sqrt(a (d - a))', dimension: 'length', source: 'manufacturing textbook', standing: 'seen in source' },
  degreesPerLength: { name: 'turn of the work for a length', symbol: '', formula: '360 / lead', dimension: 'degreesPerLength', source: ELEMENTARY, standing: 'seen in source' },
  helixAngle: { name: 'helix angle from the axis', symbol: 'beta', formula: 'atan(pi D / lead)', dimension: 'degrees', source: ELEMENTARY, standing: 'seen in source' },
  helixPath: { name: 'length of a helix', symbol: '', formula: 'L sqrt(1 + (pi D / lead)^2)', dimension: 'length', source: ELEMENTARY, standing: 'seen in source' },
  runOutAtGaugeLength: { name: 'run-out at a gauge length', symbol: 'TIR', formula: 'TIR_0 + 2 L tan phi', dimension: 'length', source: 'geometry, offset and tilt in one plane', standing: 'derived' },
  tilt: { name: 'tilt from two run-outs', symbol: 'phi', formula: 'atan((TIR - TIR_0) / 2 L)', dimension: 'degrees', source: 'geometry, offset and tilt in one plane', standing: 'derived' },
  sweptDiameter: { name: 'diameter swept with run-out', symbol: '', formula: 'd + TIR', dimension: 'length', source: 'geometry, two teeth', standing: 'derived' },
  permissibleEccentricity: { name: 'permissible eccentricity of mass', symbol: 'e_per', formula: 'G / omega', dimension: 'micrometres', source: 'ISO 1940-1', standing: 'seen in source' },
  permissibleUnbalance: { name: 'permissible unbalance', symbol: 'U', formula: '9549 G m / n', dimension: 'gramMillimetres', source: 'ISO 1940-1', standing: 'seen in source' },
  presetX: { name: 'tool offset in X', symbol: 'X', formula: 'edge, doubled where offsets are diameters', dimension: 'length', source: 'geometry', standing: 'derived' },
  presetY: { name: 'tool offset in Y', symbol: 'Y', formula: 'middle of the edge', dimension: 'length', source: 'geometry', standing: 'derived' },
  presetZ: { name: 'tool offset in Z', symbol: 'Z', formula: 'front of the insert', dimension: 'length', source: 'geometry', standing: 'derived' },
  presetWidth: { name: 'width of the insert as read', symbol: 'b', formula: 'upper less lower corner', dimension: 'length', source: 'geometry', standing: 'derived' },
} satisfies Record<string, CatalogueFacts>;
