/**
 * Every figure of engraving: what it is called, by which formula it comes, from
 * where, and how far that can be trusted.
 */
import type { CatalogueFacts } from './catalogue.ts';

const POINTED_TOOL = 'geometry of a pointed tool';

/** What `engraving` returns. */
export const engravingCatalogue = {
  effectiveDiameter: {
    name: 'effective diameter at the surface', symbol: 'd_eff', formula: 'd_tip + 2 a_p tan(alpha/2)', dimension: 'length',
    source: POINTED_TOOL, standing: 'seen in source',
  },
  cuttingSpeed: {
    name: 'cutting speed at the surface', symbol: 'v_c', formula: 'pi d_eff n', dimension: 'cuttingSpeed', source: 'elementary', standing: 'seen in source',
  },
  feedPerMinute: { name: 'feed', symbol: 'v_f', formula: 'n z f_z', dimension: 'lengthPerMinute', source: 'elementary', standing: 'seen in source' },
  lineWidth: { name: 'width of the line at the surface', symbol: 'w', formula: 'd_eff', dimension: 'length', source: POINTED_TOOL, standing: 'seen in source' },
  pathLength: {
    name: 'length of the engraved path', symbol: 'L', formula: 'sum of the strokes of the text', dimension: 'length',
    source: 'strokes of the Hershey Roman simplex letters', standing: 'derived',
  },
  cuttingTime: {
    name: 'cutting time', symbol: 't', formula: 'L / v_f + plunges a_p / v_plunge', dimension: 'seconds',
    source: 'kinematics; the plunge feed is a share of the feed, from memory; moves in air not counted', standing: 'derived',
  },
  runOutShare: {
    name: 'change of chip load by run-out, as a share of the chip load', symbol: '', formula: 'TIR sin(pi/z) / f_z', dimension: 'plain',
    source: 'kinematics of teeth on an eccentric circle', standing: 'derived',
  },
} satisfies Record<string, CatalogueFacts>;

/** What the functions of engraving-figures.ts return. */
export const engravedLineCatalogue = {
  depthForLineWidth: { name: 'depth for a line width', symbol: 'a_p', formula: '(w - d_tip) / (2 tan(alpha/2))', dimension: 'length', source: POINTED_TOOL, standing: 'seen in source' },
  lineWidthError: { name: 'change of line width by a depth error', symbol: '', formula: '2 delta tan(alpha/2)', dimension: 'length', source: POINTED_TOOL, standing: 'derived' },
  meanCuttingSpeed: { name: 'cutting speed at the middle of the depth', symbol: 'v_c', formula: 'pi (d_tip + d_eff)/2 n', dimension: 'cuttingSpeed', source: 'elementary', standing: 'seen in source' },
  chipLoadLargest: { name: 'largest chip load with run-out', symbol: 'f_max', formula: 'f_z + TIR sin(pi/z)', dimension: 'length', source: 'kinematics of teeth on an eccentric circle', standing: 'derived' },
  chipLoadSmallest: { name: 'smallest chip load with run-out', symbol: 'f_min', formula: 'f_z - TIR sin(pi/z), not below 0', dimension: 'length', source: 'kinematics of teeth on an eccentric circle', standing: 'derived' },
  wrapAngle: { name: 'turn of the work for an arc', symbol: 'C', formula: 's 360 / (pi D)', dimension: 'degrees', source: 'geometry of a cylinder', standing: 'derived' },
  rotaryFeed: { name: 'rotary feed for a surface feed', symbol: 'omega', formula: 'v_f 360 / (pi D)', dimension: 'degreesPerMinute', source: 'geometry of a cylinder', standing: 'derived' },
  flatToolDepthLoss: { name: 'depth lost by a flat line on a cylinder', symbol: '', formula: 'R - sqrt(R^2 - h^2)', dimension: 'length', source: 'geometry of a cylinder', standing: 'derived' },
  customaryLineWidth: { name: 'customary line width for a letter height', symbol: 'w', formula: '0.12 h', dimension: 'length', source: 'sign and instrument practice, one published source', standing: 'seen in source' },
} satisfies Record<string, CatalogueFacts>;
