/**
 * Every figure of keyways, strokes, key standards and indexed slots: what it is
 * called, by which formula it comes, from where, and how far that can be
 * trusted. Where a figure's source depends on the input, the computation says
 * the one that applies.
 */
import type { CatalogueFacts } from './catalogue.ts';

const GEOMETRY = 'geometry of the cut';
const KINEMATICS = 'kinematics of the stroke';
const SHAPER_THEORY = 'shaper theory';

/** What `keyway` returns. */
export const keywayCatalogue = {
  strokesPerMinute: {
    name: 'strokes per minute', symbol: 'n_s', formula: 'n_tool x strokes per revolution; static: 60 / t_s', dimension: 'strokesPerMinute',
    source: KINEMATICS, standing: 'derived',
  },
  strokeTime: {
    name: 'time of one stroke', symbol: 't_s', formula: '60 / n_s; static: 60 (S/F_cut + S/F_return + 2 r/F_lift)', dimension: 'seconds',
    source: KINEMATICS, standing: 'derived',
  },
  strokeLength: {
    name: 'stroke length', symbol: 'S', formula: 'length + lead-in + lead-out', dimension: 'length',
    source: 'free travel before and behind the cut', standing: 'common practice',
  },
  meanSpeed: {
    name: 'mean cutting speed', symbol: 'v_m', formula: '2 S n_s', dimension: 'cuttingSpeed', source: SHAPER_THEORY, standing: 'seen in source',
  },
  peakSpeed: {
    name: 'peak cutting speed', symbol: 'v_p', formula: 'pi S n_s', dimension: 'cuttingSpeed', source: KINEMATICS, standing: 'derived',
  },
  feedPerMinute: {
    name: 'feed in X', symbol: 'F', formula: 'f_s n_s, doubled where F counts on the diameter', dimension: 'lengthPerMinute',
    source: KINEMATICS, standing: 'derived',
  },
  firstContactX: {
    name: 'X of first contact', symbol: 'X_c', formula: '2 sqrt((D/2)^2 - (b/2)^2), on the radius half of it', dimension: 'length',
    source: GEOMETRY, standing: 'derived',
  },
  bottomX: {
    name: 'X of the floor', symbol: 'X_f', formula: '2 (D/2 + t2), on the radius half of it', dimension: 'length', source: GEOMETRY, standing: 'derived',
  },
  radialDepth: {
    name: 'radial depth of cut at the corner', symbol: 'h', formula: 't2 + Y_s', dimension: 'length', source: GEOMETRY, standing: 'derived',
  },
  sagitta: {
    name: 'sagitta of the bore over the width', symbol: 'Y_s', formula: 'D/2 - sqrt((D/2)^2 - (b/2)^2)', dimension: 'length',
    source: 'ASME B17.1 (chordal height) and geometry', standing: 'seen in source',
  },
  strokes: {
    name: 'strokes of one pass', symbol: 'N', formula: 'ceil((t2 + Y_s + clearance) / f_s) + spark-out', dimension: 'plain', source: KINEMATICS, standing: 'derived',
  },
  cuttingTime: {
    name: 'cutting time', symbol: 't', formula: 'strokes of all passes x keyways x t_s', dimension: 'seconds', source: KINEMATICS, standing: 'derived',
  },
  overallDimension: {
    name: 'overall dimension, bore and keyway', symbol: 'M', formula: 'D + t2; inch: T = D - Y + H/2 + C', dimension: 'length',
    source: 'DIN 6885-1, ASME B17.1', standing: 'recomputed published value',
  },
  widthUpper: {
    name: 'largest width of the keyway', symbol: 'b_max', formula: 'b + upper deviation', dimension: 'length', source: 'ISO 286, ASME B17.1', standing: 'recomputed published value',
  },
  widthLower: {
    name: 'smallest width of the keyway', symbol: 'b_min', formula: 'b + lower deviation', dimension: 'length', source: 'ISO 286, ASME B17.1', standing: 'recomputed published value',
  },
} satisfies Record<string, CatalogueFacts>;

/** What `indexedSlots` returns. */
export const slotCatalogue = {
  indexAngle: { name: 'index angle', symbol: 'theta', formula: '360 / N', dimension: 'degrees', source: 'geometry', standing: 'derived' },
  firstContactX: { name: 'X of first contact', symbol: 'X_c', formula: 'by shape, see the working', dimension: 'length', source: GEOMETRY, standing: 'derived' },
  bottomX: { name: 'X at full depth', symbol: 'X_f', formula: 'by shape, see the working', dimension: 'length', source: GEOMETRY, standing: 'derived' },
  radialDepth: { name: 'radial way from contact to depth', symbol: 'h', formula: '(X_f - X_c) / 2', dimension: 'length', source: GEOMETRY, standing: 'derived' },
  slotWidth: { name: 'width that the insert must cover', symbol: 'w', formula: 'between the points where the sides of the slot start', dimension: 'length', source: GEOMETRY, standing: 'derived' },
} satisfies Record<string, CatalogueFacts>;

/** What `metricKeyFigures` and `inchKeyFigures` return. */
export const keyCatalogue = {
  keyWidth: { name: 'width of the key', symbol: 'b', formula: 'table by bore', dimension: 'length', source: 'DIN 6885-1, ASME B17.1', standing: 'seen in source' },
  keyHeight: { name: 'height of the key', symbol: 'h', formula: 'table by bore', dimension: 'length', source: 'DIN 6885-1, ASME B17.1', standing: 'seen in source' },
  shaftDepth: { name: 'depth in the shaft', symbol: 't1', formula: 'table by bore', dimension: 'length', source: 'DIN 6885-1:1968', standing: 'seen in source' },
  hubDepth: { name: 'depth in the hub', symbol: 't2', formula: 'table by bore', dimension: 'length', source: 'DIN 6885-1:1968', standing: 'seen in source' },
  depthTolerance: { name: 'upper limit of the depths', symbol: '', formula: 'table by bore', dimension: 'length', source: 'DIN 6885-1:1968', standing: 'seen in source' },
  cornerRadiusMin: { name: 'smallest corner radius', symbol: 'r2', formula: 'table by bore', dimension: 'length', source: 'ISO/R 773:1969, one published source', standing: 'seen in source' },
  cornerRadiusMax: { name: 'largest corner radius', symbol: 'r2', formula: 'table by bore', dimension: 'length', source: 'ISO/R 773:1969, one published source', standing: 'seen in source' },
  shaftDimension: { name: 'floor of the keyseat to the opposite side of the shaft', symbol: 'S', formula: 'D - Y - H/2', dimension: 'length', source: 'ASME B17.1-1967', standing: 'recomputed published value' },
  hubDimension: { name: 'floor of the keyway to the opposite side of the bore', symbol: 'T', formula: 'D - Y + H/2 + C', dimension: 'length', source: 'ASME B17.1-1967', standing: 'recomputed published value' },
  seatWidthUpper: { name: 'upper limit of the keyseat width', symbol: '', formula: 'table by class', dimension: 'length', source: 'ASME B17.1-1967', standing: 'seen in source' },
  keyWidthUpper: { name: 'upper limit of the key width', symbol: '', formula: 'table by class', dimension: 'length', source: 'ASME B17.1-1967', standing: 'seen in source' },
  keyWidthLower: { name: 'lower limit of the key width', symbol: '', formula: 'table by class', dimension: 'length', source: 'ASME B17.1-1967', standing: 'seen in source' },
  hubDepthUpper: { name: 'upper limit of the hub depth', symbol: '', formula: 'the same for all sizes', dimension: 'length', source: 'ASME B17.1-1967', standing: 'seen in source' },
  shaftDepthLower: { name: 'lower limit of the shaft depth', symbol: '', formula: 'the same for all sizes', dimension: 'length', source: 'ASME B17.1-1967', standing: 'seen in source' },
} satisfies Record<string, CatalogueFacts>;

/** What `straightSplineFigures` returns. */
export const straightSplineCatalogue = {
  spaceWidth: { name: 'width of a space', symbol: 'B', formula: 'table by designation', dimension: 'length', source: 'ISO 14:1982', standing: 'seen in source' },
  spaceWidthUpper: { name: 'largest width of a space', symbol: 'B_max', formula: 'B H9, treated H11', dimension: 'length', source: 'ISO 14 hub classes (one published source), ISO 286', standing: 'seen in source' },
  outerDiameterUpper: { name: 'largest outer diameter', symbol: 'D_max', formula: 'D H10', dimension: 'length', source: 'ISO 14 hub classes (one published source), ISO 286', standing: 'seen in source' },
  innerDiameterUpper: { name: 'largest inner diameter', symbol: 'd_max', formula: 'd H7', dimension: 'length', source: 'ISO 14 hub classes (one published source), ISO 286', standing: 'seen in source' },
} satisfies Record<string, CatalogueFacts>;

/** What `fitFigures` returns. */
export const fitCatalogue = {
  upperDeviation: { name: 'upper deviation', symbol: 'ES', formula: 'fundamental deviation and IT by table and rule', dimension: 'micrometres', source: 'ISO 286-1, ISO 286-2', standing: 'recomputed published value' },
  lowerDeviation: { name: 'lower deviation', symbol: 'EI', formula: 'fundamental deviation and IT by table and rule', dimension: 'micrometres', source: 'ISO 286-1, ISO 286-2', standing: 'recomputed published value' },
  standardTolerance: { name: 'standard tolerance', symbol: 'IT', formula: 'table by size and grade', dimension: 'micrometres', source: 'ISO 286-1', standing: 'seen in source' },
  toleranceUnit: { name: 'tolerance unit', symbol: 'i', formula: '0.45 D^(1/3) + 0.001 D, D the geometric mean of the range', dimension: 'micrometres', source: 'ISO 286-1', standing: 'seen in source' },
} satisfies Record<string, CatalogueFacts>;

/** What the functions of slotting-figures.ts return. */
export const slottingCatalogue = {
  floorRadius: { name: 'floor from a measured bore', symbol: 'r_f', formula: 'M - D_act/2', dimension: 'length', source: GEOMETRY, standing: 'derived' },
  slotArea: { name: 'area of the cross-section', symbol: 'A', formula: 'b r_f - (b/2 x_c + R^2 asin(b/2R))', dimension: 'area', source: GEOMETRY, standing: 'derived' },
  strokeSpeed: { name: 'speed at a place of the stroke', symbol: 'v(x)', formula: '2 v_p sqrt(x/S (1 - x/S))', dimension: 'cuttingSpeed', source: KINEMATICS, standing: 'derived' },
  crankSpeed: { name: 'speed at a crank angle, finite rod', symbol: 'v', formula: 'omega r (sin + lambda sin cos / sqrt(1 - lambda^2 sin^2))', dimension: 'cuttingSpeed', source: 'piston motion', standing: 'seen in source' },
  peakSpeedFactor: { name: 'peak speed with a finite rod over sinusoidal', symbol: 'k', formula: 'largest of v; about sqrt(1 + lambda^2)', dimension: 'plain', source: 'piston motion', standing: 'seen in source' },
  quickReturnSpeed: { name: 'speed of a quick-return stroke', symbol: 'V', formula: 'S N (1 + m)', dimension: 'cuttingSpeed', source: SHAPER_THEORY, standing: 'seen in source' },
  boxCycle: { name: 'time of a box cycle', symbol: 't_pass', formula: 'S/F_cut + S/F_return + 2 r/F_lift', dimension: 'seconds', source: KINEMATICS, standing: 'derived' },
  axisMove: { name: 'time of the cutting stroke with acceleration', symbol: 't', formula: 'S/v + v/a, or 2 sqrt(S/a)', dimension: 'seconds', source: 'kinematics', standing: 'derived' },
  turnForOffset: { name: 'turn in place of an offset', symbol: 'delta', formula: 'asin(y/r)', dimension: 'degrees', source: GEOMETRY, standing: 'derived' },
  floorLean: { name: 'lean of the floor when turned in place of an offset', symbol: '', formula: 'b tan delta', dimension: 'length', source: GEOMETRY, standing: 'derived' },
  flankLean: { name: 'lean of the flank when turned in place of an offset', symbol: '', formula: 't2 tan delta', dimension: 'length', source: GEOMETRY, standing: 'derived' },
  floorStep: { name: 'step in the floor by an edge out of square', symbol: '', formula: '(W - b) tan epsilon', dimension: 'length', source: GEOMETRY, standing: 'derived' },
  floorTilt: { name: 'tilt of the floor by an edge out of square', symbol: '', formula: 'b tan epsilon', dimension: 'length', source: GEOMETRY, standing: 'derived' },
  clockedToGear: { name: 'C of a keyway on a tooth or a space', symbol: 'C', formula: 'C_tooth + (i or i + 1/2) 360/z', dimension: 'degrees', source: GEOMETRY, standing: 'derived' },
  pitchErrorFromRounding: { name: 'pitch error from rounding C', symbol: '', formula: 'r delta', dimension: 'length', source: GEOMETRY, standing: 'derived' },
  acrossCorners: { name: 'width across corners', symbol: 'e', formula: 'AF / cos(pi/N)', dimension: 'length', source: 'regular polygon', standing: 'seen in source' },
  flatLength: { name: 'length of a flat', symbol: 'a', formula: 'AF tan(pi/N)', dimension: 'length', source: 'regular polygon', standing: 'derived' },
  cornerCutDepth: { name: 'depth of a corner', symbol: 'h', formula: '(e - D)/2', dimension: 'length', source: 'regular polygon', standing: 'derived' },
} satisfies Record<string, CatalogueFacts>;
