/** The figures of measuring teeth and of meshing two gears. */
import type { CatalogueFacts } from './catalogue.ts';

const ISO_21771 = { source: 'ISO 21771', standing: 'recomputed published value' } as const;
const CHORD = { source: 'technical reference on metric gears', standing: 'seen in source' } as const;
const INVOLUTE = { source: 'involute geometry', standing: 'derived' } as const;

export const inspectionCatalogue = {
  spanContactDiameter: {
    name: 'diameter at which the anvils touch', symbol: 'd_M', formula: 'sqrt(d_b^2 + (W_k cos beta_b)^2)', dimension: 'length', ...ISO_21771,
  },
  neededFaceWidth: {
    name: 'face width that a span needs', symbol: 'b_min', formula: 'W_k sin beta_b; leave about 2 mm more', dimension: 'length', ...INVOLUTE,
  },
  idealPinDiameter: {
    name: 'ideal pin diameter', symbol: 'D', formula: 'z m_n cos alpha (inv phi + eta), phi = tan alpha_v + eta', dimension: 'length',
    source: 'technical reference on metric gears', standing: 'recomputed published value',
  },
  pinContactDiameter: {
    name: 'diameter at which the pin touches', symbol: 'd_P', formula: 'd_b / cos(atan(tan alpha_Kt -+ D cos beta_b / d_b))', dimension: 'length', ...INVOLUTE,
  },
  pinCentreAngle: {
    name: 'pressure angle at the pin centre', symbol: 'alpha_Kt', formula: 'inv^-1(s_t/d + D/(z m_n cos alpha_n) - pi/z + inv alpha_t)', dimension: 'degrees', ...ISO_21771,
  },
  betweenPins: {
    name: 'size between two pins (balls when helical)', symbol: 'M', formula: 'd_b / cos alpha_Kt (odd z: times cos(90/z)) - D_M', dimension: 'length', ...ISO_21771,
  },
  idealInternalPinDiameter: {
    name: 'ideal pin diameter for internal teeth', symbol: 'D', formula: 'd_b (tan alpha_v - tan alpha_K), alpha_K = tan alpha_v - e/d - inv alpha', dimension: 'length', ...INVOLUTE,
  },
  chordalHalfAngle: { name: 'half angle of the tooth', symbol: 'theta', formula: 's_n / (z_v m_n)', dimension: 'degrees', ...CHORD },
  chordalThickness: { name: 'chordal tooth thickness', symbol: 's_c', formula: 'z_v m_n sin theta', dimension: 'length', ...CHORD },
  chordalHeight: { name: 'height of the chord below the tip', symbol: 'h_c', formula: 'h_a + z_v m_n (1 - cos theta) / 2', dimension: 'length', ...CHORD },
  spanCorrection: {
    name: 'radial correction toward the work axis, from the span', symbol: 'dX', formula: 'dW / (2 sin alpha_n)', dimension: 'length', ...INVOLUTE,
  },
  pinsCorrection: {
    name: 'radial correction toward the work axis, from the pins', symbol: 'dX',
    formula: 'dM sin alpha_Kt / (2 sin alpha_t), odd z: / cos(90/z)', dimension: 'length', ...INVOLUTE,
  },
  correctedX: { name: 'X word after the correction', symbol: 'X', formula: 'X - dX, twice that in diameter', dimension: 'length', ...INVOLUTE },
  workingPressureAngle: {
    name: 'working pressure angle', symbol: 'alpha_wt', formula: 'inv^-1(inv alpha_t + 2 tan alpha_n (x1 + x2)/(z1 + z2))', dimension: 'degrees',
    source: 'ISO 21771; worked sheet on profile shift', standing: 'seen in source',
  },
  centreDistance: {
    name: 'centre distance without backlash', symbol: 'a_w', formula: 'a cos alpha_t / cos alpha_wt', dimension: 'length',
    source: 'ISO 21771; worked sheet on profile shift', standing: 'seen in source',
  },
  centreDistanceFactor: { name: 'centre distance change in modules', symbol: 'y', formula: '(a_w - a) / m_n', dimension: 'plain', source: 'ISO 21771', standing: 'derived' },
  tipShorteningFactor: { name: 'tip shortening in modules', symbol: 'k', formula: 'x1 + x2 - y', dimension: 'plain', source: 'ISO 21771', standing: 'derived' },
  firstTipDiameter: {
    name: 'tip diameter of the first gear, shortened', symbol: 'd_a1', formula: 'd + 2 m_n (1 + x - k)', dimension: 'length', ...ISO_21771,
  },
  secondTipDiameter: {
    name: 'tip diameter of the second gear, shortened', symbol: 'd_a2', formula: 'd + 2 m_n (1 + x - k)', dimension: 'length', ...ISO_21771,
  },
  shiftSum: {
    name: 'sum of profile shifts for a centre distance', symbol: 'x1 + x2', formula: '(inv alpha_wt - inv alpha_t)(z1 + z2) / (2 tan alpha_n)', dimension: 'plain', source: 'ISO 21771', standing: 'derived',
  },
  generatingShiftSum: {
    name: 'sum of generating profile shifts for a normal backlash', symbol: 'x_E1 + x_E2', formula: 'x1 + x2 - j_n / (2 m_n sin alpha_n)', dimension: 'plain',
    source: 'ISO 21771; worked sheet on profile shift', standing: 'seen in source',
  },
  generatingProfileShift: {
    name: 'profile shift that the tool is set to for a thickness allowance', symbol: 'x_E', formula: 'x + A_sn / (2 m_n tan alpha_n)', dimension: 'plain',
    source: 'ISO 21771; worked sheet on profile shift', standing: 'seen in source',
  },
} as const satisfies Record<string, CatalogueFacts>;
