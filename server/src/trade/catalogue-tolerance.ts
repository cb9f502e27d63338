/** The tolerances of both editions of ISO 1328-1. Formulas are those of class 5; a class coarser is sqrt(2) more. */
import type { CatalogueFacts } from './catalogue.ts';

const EDITION_2013 = { dimension: 'micrometres', source: 'ISO 1328-1:2013', standing: 'from memory' } as const;
const EDITION_1995 = { dimension: 'micrometres', source: 'ISO 1328-1:1995 = JIS B 1702-1:1998', standing: 'recomputed published value' } as const;

export const toleranceCatalogue = {
  singlePitch: { name: 'single pitch tolerance', symbol: 'f_pT', formula: '0.001 d + 0.4 m_n + 5', ...EDITION_2013 },
  totalPitch: { name: 'total cumulative pitch tolerance', symbol: 'F_pT', formula: '0.002 d + 0.55 sqrt(d) + 0.7 m_n + 12', ...EDITION_2013 },
  profileSlope: { name: 'profile slope tolerance (applied +-)', symbol: 'f_HalphaT', formula: '0.4 m_n + 0.001 d + 4', ...EDITION_2013 },
  profileForm: { name: 'profile form tolerance', symbol: 'f_falphaT', formula: '0.55 m_n + 5', ...EDITION_2013 },
  profileTotal: { name: 'total profile tolerance', symbol: 'F_alphaT', formula: 'sqrt(f_HalphaT^2 + f_falphaT^2)', ...EDITION_2013 },
  helixSlope: { name: 'helix slope tolerance (applied +-)', symbol: 'f_HbetaT', formula: '0.05 sqrt(d) + 0.35 sqrt(b) + 4', ...EDITION_2013 },
  helixForm: { name: 'helix form tolerance', symbol: 'f_fbetaT', formula: '0.07 sqrt(d) + 0.45 sqrt(b) + 4', ...EDITION_2013 },
  helixTotal: { name: 'total helix tolerance', symbol: 'F_betaT', formula: 'sqrt(f_HbetaT^2 + f_fbetaT^2)', ...EDITION_2013 },
  runout: { name: 'runout tolerance', symbol: 'F_rT', formula: '0.9 F_pT', ...EDITION_2013 },
  singlePitch1995: { name: 'single pitch tolerance, edition 1995', symbol: 'f_pt', formula: '0.3 (m + 0.4 sqrt(d)) + 4, means of ranges', ...EDITION_1995 },
  totalPitch1995: { name: 'total cumulative pitch tolerance, edition 1995', symbol: 'F_p', formula: '0.3 m + 1.25 sqrt(d) + 7, means of ranges', ...EDITION_1995 },
  profileTotal1995: { name: 'total profile tolerance, edition 1995', symbol: 'F_alpha', formula: '3.2 sqrt(m) + 0.22 sqrt(d) + 0.7, means of ranges', ...EDITION_1995 },
  profileForm1995: { name: 'profile form tolerance, edition 1995', symbol: 'f_falpha', formula: '2.5 sqrt(m) + 0.17 sqrt(d) + 0.5, means of ranges', ...EDITION_1995 },
  profileSlope1995: { name: 'profile slope tolerance (applied +-), edition 1995', symbol: 'f_Halpha', formula: '2 sqrt(m) + 0.14 sqrt(d) + 0.5, means of ranges', ...EDITION_1995 },
  helixTotal1995: { name: 'total helix tolerance, edition 1995', symbol: 'F_beta', formula: '0.1 sqrt(d) + 0.63 sqrt(b) + 4.2, means of ranges', ...EDITION_1995 },
  helixForm1995: { name: 'helix form tolerance, edition 1995', symbol: 'f_fbeta', formula: '0.07 sqrt(d) + 0.45 sqrt(b) + 3, means of ranges', ...EDITION_1995 },
  helixSlope1995: { name: 'helix slope tolerance (applied +-), edition 1995', symbol: 'f_Hbeta', formula: '0.07 sqrt(d) + 0.45 sqrt(b) + 3, means of ranges', ...EDITION_1995 },
  runout1995: { name: 'runout tolerance, edition 1995', symbol: 'F_r', formula: '0.24 m + sqrt(d) + 5.6, means of ranges', ...EDITION_1995 },
} as const satisfies Record<string, CatalogueFacts>;
