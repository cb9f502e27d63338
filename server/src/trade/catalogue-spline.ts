/** The basic data of splines. */
import type { CatalogueFacts } from './catalogue.ts';

const DIN_5480 = { dimension: 'length', source: 'DIN 5480, confirmed on a data sheet', standing: 'seen in source' } as const;
const B92_1 = { dimension: 'length', source: 'ANSI B92.1-1970 (R1993), basic dimensions', standing: 'seen in source' } as const;

export const splineCatalogue = {
  profileShiftLength: { name: 'profile shift of the shaft', symbol: 'x1 m', formula: '(d_B - m z - 1.1 m) / 2', ...DIN_5480 },
  splinePitchDiameter: { name: 'reference diameter of the teeth', symbol: 'd', formula: 'm z', ...DIN_5480 },
  splineBaseDiameter: { name: 'base diameter', symbol: 'd_b', formula: 'm z cos 30', ...DIN_5480 },
  shaftTipDiameter: { name: 'tip diameter of the shaft', symbol: 'd_a1', formula: 'd + 2 x1 m + 0.9 m', ...DIN_5480 },
  shaftRootDiameter: { name: 'root diameter of the shaft', symbol: 'd_f1', formula: 'd + 2 x1 m - 2 h_fP', ...DIN_5480 },
  hubTipDiameter: { name: 'tip diameter of the hub', symbol: 'd_a2', formula: 'd + 2 x1 m - 0.9 m', ...DIN_5480 },
  hubRootDiameter: { name: 'root diameter of the hub', symbol: 'd_f2', formula: 'd_B', ...DIN_5480 },
  splineToothThickness: { name: 'tooth of the shaft, space of the hub', symbol: 's1', formula: 'pi m / 2 + 2 x1 m tan 30', ...DIN_5480 },
  b92PitchDiameter: { name: 'pitch diameter', symbol: 'D', formula: 'N / P', ...B92_1 },
  b92BaseDiameter: { name: 'base diameter', symbol: 'D_b', formula: 'D cos phi', ...B92_1 },
  b92MajorInternal: { name: 'major diameter, internal', symbol: 'D_ri', formula: '(N + 1.35) / P by form', ...B92_1 },
  b92MajorExternal: { name: 'major diameter, external', symbol: 'D_o', formula: '(N + 1) / P', ...B92_1 },
  b92MinorInternal: { name: 'minor diameter, internal', symbol: 'D_i', formula: '(N - 1) / P by form', ...B92_1 },
  b92MinorExternal: { name: 'minor diameter, external', symbol: 'D_re', formula: '(N - 1.35) / P by form', ...B92_1 },
  b92FormInternal: { name: 'form diameter, internal', symbol: 'D_Fi', formula: '(N + 1) / P + 2 c_F by form', ...B92_1 },
  b92FormExternal: { name: 'form diameter, external', symbol: 'D_Fe', formula: '(N - 1) / P - 2 c_F by form', ...B92_1 },
  b92FormClearance: { name: 'form clearance', symbol: 'c_F', formula: '0.001 D, 0.002 to 0.010', ...B92_1 },
  b92SpaceWidth: { name: 'least effective space width', symbol: 's_v', formula: 'pi / (2 P) by form', ...B92_1 },
} as const satisfies Record<string, CatalogueFacts>;
