/** The figures of using a hob: its length, its shifts, the room it runs out into. */
import type { CatalogueFacts } from './catalogue.ts';

const ZONE = { source: 'geometry of the generating zone; margins from technical articles on hob position', standing: 'derived' } as const;
const CYLINDERS = { source: 'two crossed cylinders', standing: 'derived' } as const;

export const hobUseCatalogue = {
  hobAxialPitch: {
    name: 'axial pitch of the hob', symbol: 'p_x0', formula: 'pi m_n / cos gamma_0', dimension: 'length',
    source: 'technical references on hobs', standing: 'seen in source',
  },
  hobRevolutionsPerWorkRevolution: {
    name: 'hob revolutions per work revolution while feeding', symbol: 'n0/n_w', formula: '(z/z0)(1 +- f_a/p_z)', dimension: 'plain',
    source: 'kinematics of hob and work', standing: 'derived',
  },
  printedApproach: {
    name: 'approach, printed formula', symbol: 'E', formula: 'tan|eta| sqrt(h ((d_a0 - h)/sin^2 eta + d_a)); spur: sqrt(h (d_a0 - h))', dimension: 'length',
    source: 'hobbing handbooks', standing: 'from memory',
  },
  exactApproach: { name: 'approach, exact search', symbol: 'E', formula: 'largest distance at which tip cylinder and rim touch', dimension: 'length', ...CYLINDERS },
  entryLength: {
    name: 'length of the hob before the pitch point that cuts', symbol: 'l_e', formula: 'sqrt(h (d_a - h)) cos beta / cos gamma_0', dimension: 'length', ...ZONE,
  },
  cutsPerFlank: { name: 'edges that form one flank', symbol: 'N', formula: 'l_P0 i / (z0 p_x0)', dimension: 'plain', ...ZONE },
  shortestHob: { name: 'shortest hob, without margins', symbol: 'l_min', formula: 'l_e + l_P0 / 2', dimension: 'length', ...ZONE },
  usableShift: { name: 'usable shift', symbol: 'l_s', formula: 'l_3 - l_e - l_P0/2 - 3 m_n', dimension: 'length', source: 'technical articles on hob position', standing: 'from memory' },
  gashStep: { name: 'shift from one edge to the next', symbol: 'l_i', formula: 'z0 p_x0 / i', dimension: 'length', source: 'geometry of the hob', standing: 'derived' },
  hobReach: { name: 'reach of the hob over the obstacle behind the teeth', symbol: 'E_s', formula: 'largest distance at which hob and disc touch', dimension: 'length', ...CYLINDERS },
  neededRoom: { name: 'room needed behind the teeth', symbol: 'g', formula: 'A + clearance/2 + E_s', dimension: 'length', ...CYLINDERS },
  neededEntryRoom: { name: 'room needed before the teeth', symbol: 'g_E', formula: 'E + clearance/2 + E_s', dimension: 'length', ...CYLINDERS },
  harmlessShoulder: { name: 'largest shoulder that needs no room', symbol: 'd_s', formula: '2 a - d_a0', dimension: 'length', ...CYLINDERS },
  bestClassForFeed: {
    name: 'finest class that the marks of the feed allow', symbol: 'A', formula: 'least class whose form tolerances hold the marks', dimension: 'plain',
    source: 'marks against the form tolerances of ISO 1328-1:2013', standing: 'from memory',
  },
  chipLimitedFeed: {
    name: 'feed at which the thickest chip reaches its limit, an estimate', symbol: 'f_a', formula: 'm_n (h_lim / h_1max(f_a = m_n))^(1/0.511)', dimension: 'lengthPerRevolution',
    source: 'B. Hoffmeister, dissertation, 1970', standing: 'from memory',
  },
  usualHobDiameter: {
    name: 'usual outside diameter of a hob', symbol: 'd_a0', formula: 'table by module', dimension: 'length', source: 'DIN 8002:1955', standing: 'seen in source',
  },
} as const satisfies Record<string, CatalogueFacts>;
