/** The figures of a tooth beyond those that hobbing shows: angles, pitches, thickness, and the limits of a good tooth. */
import type { CatalogueFacts } from './catalogue.ts';

const ISO_21771 = { source: 'ISO 21771', standing: 'recomputed published value' } as const;
const INVOLUTE = { source: 'involute geometry', standing: 'derived' } as const;

export const toothCatalogue = {
  transverseModule: { name: 'transverse module', symbol: 'm_t', formula: 'm_n / cos beta', dimension: 'length', ...ISO_21771 },
  transversePressureAngle: {
    name: 'transverse pressure angle', symbol: 'alpha_t', formula: 'atan(tan alpha_n / cos beta)', dimension: 'degrees', ...ISO_21771,
  },
  baseHelixAngle: { name: 'base helix angle', symbol: 'beta_b', formula: 'asin(sin beta cos alpha_n)', dimension: 'degrees', ...ISO_21771 },
  normalToothThickness: {
    name: 'normal tooth thickness (arc)', symbol: 's_n', formula: 'm_n (pi/2 + 2 x tan alpha_n)', dimension: 'length',
    source: 'technical reference on metric gears', standing: 'seen in source',
  },
  normalBasePitch: { name: 'normal base pitch', symbol: 'p_bn', formula: 'pi m_n cos alpha_n', dimension: 'length', ...ISO_21771 },
  tipThickness: { name: 'normal tip thickness', symbol: 's_an', formula: 's_at cos beta_a', dimension: 'length', ...INVOLUTE },
  pointedDiameter: {
    name: 'diameter at which the tooth is pointed', symbol: 'd_s', formula: 'd_b / cos(inv^-1(s_t/d + inv alpha_t))', dimension: 'length', ...INVOLUTE,
  },
  undercutTeeth: {
    name: 'teeth below which the foot is undercut (no profile shift)', symbol: 'z_min', formula: '2 h* cos beta / sin^2 alpha_t', dimension: 'plain', ...ISO_21771,
  },
  leastProfileShift: {
    name: 'profile shift below which the foot is undercut', symbol: 'x_min', formula: 'h* - z sin^2 alpha_t / (2 cos beta)', dimension: 'plain', ...ISO_21771,
  },
  formDiameter: {
    name: 'form diameter of the hobbed foot', symbol: 'd_Ff',
    formula: '2 sqrt(r_b^2 + (r sin alpha_t - (h* - x) m_n / sin alpha_t)^2)', dimension: 'length', ...INVOLUTE,
  },
  virtualTeeth: {
    name: 'virtual number of teeth', symbol: 'z_v', formula: 'z / cos^3 beta', dimension: 'plain',
    source: 'technical reference on metric gears', standing: 'seen in source',
  },
  exactVirtualTeeth: {
    name: 'virtual number of teeth, exact', symbol: 'z_n', formula: 'z / (cos^2 beta_b cos beta)', dimension: 'plain', source: 'ISO 21771', standing: 'from memory',
  },
  nearestModule: {
    name: 'nearest standard module', symbol: 'm', formula: 'nearest by ratio', dimension: 'length', source: 'ISO 54:1996, DIN 780', standing: 'from memory',
  },
  nearestDiametralPitch: {
    name: 'nearest standard diametral pitch', symbol: 'P', formula: 'nearest by ratio', dimension: 'plain', source: 'usual series of pitches', standing: 'from memory',
  },
  diametralPitch: {
    name: 'diametral pitch', symbol: 'P_nd', formula: '25.4 / m_n', dimension: 'plain', source: 'definition', standing: 'derived',
  },
  internalTipDiameter: {
    name: 'tip (inner) diameter of the internal gear', symbol: 'd_a', formula: 'd - 2 m_n (1 - x)', dimension: 'length', source: 'ISO 21771', standing: 'from memory',
  },
  internalRootDiameter: {
    name: 'root (outer) diameter of the internal gear', symbol: 'd_f', formula: 'd + 2 m_n (1.25 + x)', dimension: 'length', source: 'ISO 21771', standing: 'from memory',
  },
  normalSpaceWidth: {
    name: 'normal space width of the internal gear (arc)', symbol: 'e_n', formula: 'm_n (pi/2 + 2 x tan alpha_n)', dimension: 'length', ...ISO_21771,
  },
} as const satisfies Record<string, CatalogueFacts>;
