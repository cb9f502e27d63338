/**
 * Every figure of the hobbing computation: what it is called, by which formula
 * it comes, from where, and how far that can be trusted.
 */
import type { CatalogueFacts } from './catalogue.ts';

const ISO_21771 = 'ISO 21771';
const KINEMATICS = 'kinematics of hob and work';

export const hobbingCatalogue = {
  syncRatio: {
    name: 'sync ratio, work revolutions per hob revolution', symbol: 'z0/z', formula: 'z0 / z', dimension: 'plain',
    source: KINEMATICS, standing: 'derived',
  },
  hobRpm: {
    name: 'speed of the hob', symbol: 'n0', formula: 'v_c / (pi d_a0)', dimension: 'rpm',
    source: 'elementary', standing: 'derived',
  },
  workRpm: {
    name: 'speed of the work', symbol: 'n_w', formula: 'n0 z0 / z', dimension: 'rpm',
    source: 'elementary', standing: 'derived',
  },
  cuttingSpeed: {
    name: 'cutting speed at the hob tips', symbol: 'v_c', formula: 'pi d_a0 n0', dimension: 'cuttingSpeed',
    source: 'elementary', standing: 'derived',
  },
  hobReferenceDiameter: {
    name: 'reference diameter of the hob', symbol: 'd_0', formula: 'd_a0 - 2 h_aP0', dimension: 'length',
    source: 'technical references on hobs; a diameter marked on the tool goes first', standing: 'from memory',
  },
  hobLeadAngle: {
    name: 'lead angle of the hob', symbol: 'gamma_0', formula: 'asin(z0 m_n / d_0)', dimension: 'degrees',
    source: 'technical references on hobs', standing: 'seen in source',
  },
  hobHelixAngle: {
    name: 'helix angle of the hob (90 deg less the lead angle)', symbol: 'beta_0', formula: '90 - gamma_0', dimension: 'degrees',
    source: 'technical references on hobs', standing: 'derived',
  },
  settingAngle: {
    name: 'setting angle of the hob axis', symbol: 'eta', formula: 'beta - gamma_0, signed by hand', dimension: 'degrees',
    source: 'vector geometry; the amount agrees with technical articles on hobbing', standing: 'derived',
  },
  referenceDiameter: {
    name: 'reference diameter', symbol: 'd', formula: 'z m_n / cos beta', dimension: 'length',
    source: ISO_21771, standing: 'recomputed published value',
  },
  tipDiameter: {
    name: 'tip diameter', symbol: 'd_a', formula: 'd + 2 m_n (1 + x)', dimension: 'length',
    source: ISO_21771, standing: 'recomputed published value',
  },
  rootDiameter: {
    name: 'root diameter', symbol: 'd_f', formula: 'd - 2 m_n (1.25 - x)', dimension: 'length',
    source: 'ISO 21771, rack of ISO 53 A', standing: 'recomputed published value',
  },
  baseDiameter: {
    name: 'base diameter', symbol: 'd_b', formula: 'd cos alpha_t', dimension: 'length',
    source: ISO_21771, standing: 'recomputed published value',
  },
  wholeDepth: {
    name: 'whole depth', symbol: 'h', formula: '(d_a - d_f) / 2', dimension: 'length',
    source: ISO_21771, standing: 'recomputed published value',
  },
  lead: {
    name: 'lead of the gear', symbol: 'p_z', formula: 'pi d / tan beta', dimension: 'length',
    source: 'technical articles on helical hobbing', standing: 'seen in source',
  },
  differential: {
    name: 'work rotation added for axial travel', symbol: 'dC/dZ', formula: '360 / p_z', dimension: 'degreesPerLength',
    source: KINEMATICS, standing: 'derived',
  },
  approach: {
    name: 'approach', symbol: 'E',
    formula: 'spur: sqrt(h (d_a0 - h)); helical: the larger of tan|eta| sqrt(h ((d_a0 - h)/sin^2 eta + d_a)) and the exact search; radial entry: as the overrun',
    dimension: 'length', source: 'hobbing handbooks, derived again from the rim of the blank', standing: 'derived',
  },
  overrun: {
    name: 'overrun', symbol: 'A', formula: '(l_P0 / 2) sin|eta|; spur: what the clearance does not cover of it', dimension: 'length',
    source: 'geometry of the generating zone', standing: 'derived',
  },
  travel: {
    name: 'axial travel of a full-depth cut', symbol: 'L', formula: 'E + b + A + clearance', dimension: 'length',
    source: 'elementary', standing: 'derived',
  },
  cuttingTime: {
    name: 'cutting time', symbol: 't', formula: 'sum over the cuts of z L / (z0 n0 f_a); radial entry: and of t_r', dimension: 'seconds',
    source: 'elementary', standing: 'recomputed published value',
  },
  feedPerMinute: {
    name: 'axial feed', symbol: 'v_f', formula: 'f_a n_w', dimension: 'lengthPerMinute',
    source: 'elementary', standing: 'derived',
  },
  radialFeedPerMinute: {
    name: 'radial feed', symbol: 'v_fr', formula: 'f_r n_w', dimension: 'lengthPerMinute',
    source: 'elementary', standing: 'derived',
  },
  radialTravel: {
    name: 'radial feed travel of all cuts', symbol: 'L_r', formula: 'h + cuts x clearance / 2', dimension: 'length',
    source: 'elementary', standing: 'derived',
  },
  plungeTime: {
    name: 'time of radial entry and spark-out, all cuts', symbol: 't_r', formula: 'L_r / (f_r n_w) + cuts x spark-out / n_w', dimension: 'seconds',
    source: 'elementary', standing: 'derived',
  },
  feedMarkDepth: {
    name: 'depth of the feed marks', symbol: 'delta_x', formula: '(f_a / cos beta)^2 sin alpha_n / (4 d_a0)', dimension: 'length',
    source: 'sagitta of the tip circle over one feed', standing: 'derived',
  },
  generatingMarkDepth: {
    name: 'depth of the generating marks at the reference circle', symbol: 'delta_y',
    formula: 'pi^2 z0^2 m_n sin alpha_n / (4 z i^2)', dimension: 'length',
    source: 'facets of the generated involute', standing: 'derived',
  },
  maxChipThickness: {
    name: 'thickest chip, an estimate', symbol: 'h_1max', formula: 'empirical formula of Hoffmeister, helix angle in radians', dimension: 'length',
    source: 'B. Hoffmeister, dissertation, 1970', standing: 'from memory',
  },
  spanTeeth: {
    name: 'teeth spanned', symbol: 'k', formula: "k' = z K + 0.5, rounded", dimension: 'plain',
    source: 'technical references on gear measurement', standing: 'recomputed published value',
  },
  spanLength: {
    name: 'span', symbol: 'W_k', formula: 'm_n cos alpha_n (pi (k - 0.5) + z inv alpha_t) + 2 x m_n sin alpha_n', dimension: 'length',
    source: ISO_21771, standing: 'recomputed published value',
  },
  pinDiameter: {
    name: 'pin or ball diameter for measuring', symbol: 'D_M', formula: 'nearest usual size to the ideal pin', dimension: 'length',
    source: 'inch sizes from handbooks, metric steps without a source', standing: 'common practice',
  },
  overPins: {
    name: 'size over two pins (balls when helical)', symbol: 'M', formula: 'd_b / cos alpha_Kt (odd z: times cos(90/z)) + D_M', dimension: 'length',
    source: ISO_21771, standing: 'recomputed published value',
  },
  generatingLength: {
    name: 'length of the hob that finishes the flanks', symbol: 'l_P0',
    formula: 'max(2 (h_a0F - x m_n) / tan alpha_t, 2 (sqrt(r_a^2 - r_b^2) - r sin alpha_t) cos alpha_t) cos beta / cos gamma_0',
    dimension: 'length', source: 'line of action of rack and gear', standing: 'derived',
  },
  shiftY: {
    name: 'shift along Y', symbol: 'dY', formula: 's cos eta', dimension: 'length',
    source: KINEMATICS, standing: 'derived',
  },
  shiftZ: {
    name: 'shift along Z', symbol: 'dZ', formula: '-side s sin eta', dimension: 'length',
    source: KINEMATICS, standing: 'derived',
  },
  shiftWorkAngle: {
    name: 'work rotation for the shift', symbol: 'dC', formula: 'sense side 360 s cos gamma_0 / (pi m_n z)', dimension: 'degrees',
    source: KINEMATICS, standing: 'derived',
  },
  profileTolerance: {
    name: 'total profile tolerance', symbol: 'F_alphaT', formula: 'sqrt(f_HalphaT^2 + f_falphaT^2), rounded', dimension: 'length',
    source: 'ISO 1328-1:2013', standing: 'from memory',
  },
  maxFeedForClass: {
    name: 'largest feed whose marks alone hold the class', symbol: 'f_a max',
    formula: 'cos beta sqrt(4 d_a0 delta / sin alpha_n), delta the lesser of f_fbetaT and f_falphaT - delta_y', dimension: 'lengthPerRevolution',
    source: 'feed marks against the form tolerances of ISO 1328-1:2013', standing: 'from memory',
  },
} as const satisfies Record<string, CatalogueFacts>;

export type HobbingQuantityId = keyof typeof hobbingCatalogue;
