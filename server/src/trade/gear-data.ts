/** The data of a gear as quantities, external and internal. The numbers come from the topic files. */
import { degrees } from './angles.ts';
import { gearFigure } from './catalogue-gear.ts';
import { gearGeometry, normalTipThickness, type Gear, type GearInput } from './gear.ts';
import { differentialDegreesPerLength } from './hobbing-law.ts';
import { internalGearGeometry, type InternalGear, type InternalGearInput } from './internal-gear.ts';
import { millimetresPerUnit, unitsPerMillimetre } from './lengths.ts';
import { shown, type Quantity } from './quantity.ts';
import {
  diametralPitchOfModule,
  nearestStandardDiametralPitch,
  nearestStandardModule,
} from './standard-modules.ts';
import {
  CASE_HARDENED_TIP_THICKNESS_FACTOR,
  exactVirtualTeeth,
  formDiameter,
  leastProfileShift,
  pointedDiameter,
  STANDARD_STRAIGHT_TIP_FACTOR,
  tipThicknessFactor,
  undercutTeeth,
  USUAL_TIP_THICKNESS_FACTOR,
  virtualTeeth,
} from './tooth-limits.ts';

export type DiameterId = 'referenceDiameter' | 'tipDiameter' | 'rootDiameter' | 'baseDiameter' | 'wholeDepth' | 'differential';
export type ToothId =
  | 'transverseModule'
  | 'transversePressureAngle'
  | 'baseHelixAngle'
  | 'normalToothThickness'
  | 'normalBasePitch'
  | 'tipThickness'
  | 'pointedDiameter'
  | 'undercutTeeth'
  | 'leastProfileShift'
  | 'virtualTeeth'
  | 'exactVirtualTeeth'
  | 'nearestModule'
  | 'diametralPitch'
  | 'nearestDiametralPitch';

export type GearData = Record<DiameterId | ToothId, Quantity> & { lead?: Quantity; formDiameter?: Quantity };

/**
 * Everything the drawing of an external gear may ask for. `straightTipFactor` is
 * the straight height of the hob tooth in modules, 1 for the ISO 53 hob. `lead`
 * is missing for a spur gear, `formDiameter` for an undercut tooth.
 */
export function gearData(input: GearInput, straightTipFactor = STANDARD_STRAIGHT_TIP_FACTOR): GearData {
  const gear = gearGeometry(input);
  return {
    ...diameterFigures(gear, input),
    ...leadFigure(gear),
    ...sectionFigures(gear),
    ...limitFigures(gear, straightTipFactor),
    ...seriesFigures(gear),
  };
}

/** Reference, tip, root and base circle, depth, and what the helix asks of the work axis. */
export function diameterFigures(gear: Gear, input: Pick<GearInput, 'tipDiameter' | 'depth'>): Record<DiameterId, Quantity> {
  const { units } = gear;
  return {
    referenceDiameter: gearFigure('referenceDiameter', gear.referenceDiameter, units, () => referenceWorking(gear)),
    tipDiameter: gearFigure('tipDiameter', gear.tipDiameter, units, () =>
      givenOr(input.tipDiameter, `d + 2 m_n (1 + x) = ${shown(gear.referenceDiameter)} + 2 x ${shown(gear.normalModule)} x (1 + ${shown(gear.profileShift)}) = ${shown(gear.tipDiameter)}`)),
    rootDiameter: gearFigure('rootDiameter', gear.rootDiameter, units, () => rootWorking(gear, input.depth)),
    baseDiameter: gearFigure('baseDiameter', gear.baseDiameter, units, () => baseWorking(gear)),
    wholeDepth: gearFigure('wholeDepth', gear.wholeDepth, units, () =>
      givenOr(input.depth, `(d_a - d_f) / 2 = (${shown(gear.tipDiameter)} - ${shown(gear.rootDiameter)}) / 2 = ${shown(gear.wholeDepth)}`)),
    differential: gearFigure('differential', differentialDegreesPerLength(gear), units, () => differentialWorking(gear)),
  };
}

/** A spur gear has no lead; that is no failure. */
export function leadFigure(gear: Gear): { lead?: Quantity } {
  const { lead } = gear;
  if (lead === undefined) return {};
  return {
    lead: gearFigure('lead', lead, gear.units, () =>
      `pi d / tan beta = pi x ${shown(gear.referenceDiameter)} / tan ${shown(degrees(gear.helixAngleRadians))} = ${shown(lead)}`),
  };
}

export type InternalGearData = Record<
  'referenceDiameter' | 'baseDiameter' | 'internalTipDiameter' | 'internalRootDiameter' | 'normalSpaceWidth' | 'wholeDepth',
  Quantity
>;

/** The same for an internal gear or spline. */
export function internalGearData(input: InternalGearInput): InternalGearData {
  const gear = internalGearGeometry(input);
  const { units } = gear;
  return {
    referenceDiameter: gearFigure('referenceDiameter', gear.referenceDiameter, units, () => referenceWorking(gear)),
    baseDiameter: gearFigure('baseDiameter', gear.baseDiameter, units, () => baseWorking(gear)),
    internalTipDiameter: gearFigure('internalTipDiameter', gear.tipDiameter, units, () => givenOr(input.tipDiameter, `d - 2 m_n (1 - x) = ${shown(gear.tipDiameter)}`)),
    internalRootDiameter: gearFigure('internalRootDiameter', gear.rootDiameter, units, () => givenOr(input.rootDiameter, `d + 2 m_n (1.25 + x) = ${shown(gear.rootDiameter)}`)),
    normalSpaceWidth: gearFigure('normalSpaceWidth', gear.normalSpaceWidth, units, () => spaceWorking(gear)),
    wholeDepth: gearFigure('wholeDepth', gear.wholeDepth, units, () =>
      `(d_f - d_a) / 2 = (${shown(gear.rootDiameter)} - ${shown(gear.tipDiameter)}) / 2 = ${shown(gear.wholeDepth)}`),
  };
}

/** What external and internal gears have in common. */
type Circles = Pick<Gear, 'teeth' | 'normalModule' | 'helixAngleRadians' | 'referenceDiameter' | 'transversePressureAngleRadians' | 'baseDiameter'>;

const referenceWorking = (gear: Circles): string =>
  `z m_n / cos beta = ${gear.teeth} x ${shown(gear.normalModule)} / cos ${shown(degrees(gear.helixAngleRadians))} = ${shown(gear.referenceDiameter)}`;

const baseWorking = (gear: Circles): string =>
  `d cos alpha_t = ${shown(gear.referenceDiameter)} x cos ${shown(degrees(gear.transversePressureAngleRadians))} = ${shown(gear.baseDiameter)}`;

function rootWorking(gear: Gear, depth: number | undefined): string {
  if (depth !== undefined) return `d_a - 2 h = ${shown(gear.tipDiameter)} - 2 x ${shown(depth)} = ${shown(gear.rootDiameter)}`;
  return `d - 2 m_n (1.25 - x) = ${shown(gear.referenceDiameter)} - 2 x ${shown(gear.normalModule)} x (1.25 - ${shown(gear.profileShift)}) = ${shown(gear.rootDiameter)}`;
}

const givenOr = (given: number | undefined, formula: string): string => (given === undefined ? formula : `${shown(given)}, as given`);

const spaceWorking = (gear: InternalGear): string =>
  `m_n (pi/2 + 2 x tan alpha_n) = ${shown(gear.normalModule)} x (pi/2 + 2 x ${shown(gear.profileShift)} x tan ${shown(degrees(gear.normalPressureAngleRadians))}) = ${shown(gear.normalSpaceWidth)}`;

function differentialWorking(gear: Gear): string {
  if (gear.lead === undefined) return 'a spur gear needs none: 0';
  const sense = gear.gearHand > 0 ? 'against' : 'with';
  return `360 / p_z = 360 / ${shown(gear.lead)} = ${shown(differentialDegreesPerLength(gear))}; for travel toward +Z the work turns ${sense} the right-hand sense about +Z`;
}

function sectionFigures(gear: Gear): Record<'transverseModule' | 'transversePressureAngle' | 'baseHelixAngle' | 'normalToothThickness' | 'normalBasePitch', Quantity> {
  const { units } = gear;
  const [module, helix, alpha] = [shown(gear.normalModule), shown(degrees(gear.helixAngleRadians)), shown(degrees(gear.normalPressureAngleRadians))];
  const transverse = degrees(gear.transversePressureAngleRadians);
  const base = degrees(gear.baseHelixAngleRadians);
  return {
    transverseModule: gearFigure('transverseModule', gear.transverseModule, units, () => `m_n / cos beta = ${module} / cos ${helix} = ${shown(gear.transverseModule)}`),
    transversePressureAngle: gearFigure('transversePressureAngle', transverse, units, () => `atan(tan alpha_n / cos beta) = atan(tan ${alpha} / cos ${helix}) = ${shown(transverse)}`),
    baseHelixAngle: gearFigure('baseHelixAngle', base, units, () => `asin(sin beta cos alpha_n) = asin(sin ${helix} x cos ${alpha}) = ${shown(base)}`),
    normalToothThickness: gearFigure('normalToothThickness', gear.normalToothThickness, units, () =>
      `m_n (pi/2 + 2 x tan alpha_n) = ${module} x (pi/2 + 2 x ${shown(gear.profileShift)} x tan ${alpha}) = ${shown(gear.normalToothThickness)}`),
    normalBasePitch: gearFigure('normalBasePitch', gear.normalBasePitch, units, () => `pi m_n cos alpha_n = pi x ${module} x cos ${alpha} = ${shown(gear.normalBasePitch)}`),
  };
}

type LimitId = 'tipThickness' | 'pointedDiameter' | 'undercutTeeth' | 'leastProfileShift' | 'virtualTeeth' | 'exactVirtualTeeth';

function limitFigures(gear: Gear, straightTipFactor: number): Record<LimitId, Quantity> & { formDiameter?: Quantity } {
  const { units } = gear;
  const helix = shown(degrees(gear.helixAngleRadians));
  const alpha = shown(degrees(gear.transversePressureAngleRadians));
  const least = leastProfileShift(gear, straightTipFactor);
  return {
    tipThickness: gearFigure('tipThickness', normalTipThickness(gear), units, () =>
      `s_at cos beta_a at d_a ${shown(gear.tipDiameter)} = ${shown(normalTipThickness(gear))}, that is ${shown(tipThicknessFactor(gear), 3)} m_n; usual limit ${USUAL_TIP_THICKNESS_FACTOR} m_n, case-hardened ${CASE_HARDENED_TIP_THICKNESS_FACTOR} m_n (from memory)`),
    pointedDiameter: gearFigure('pointedDiameter', pointedDiameter(gear), units, () =>
      `d_b / cos(inv^-1(s_t/d + inv alpha_t)) with s_t ${shown(gear.transverseToothThickness)} = ${shown(pointedDiameter(gear))}`),
    undercutTeeth: gearFigure('undercutTeeth', undercutTeeth(gear, straightTipFactor), units, () =>
      `2 h* cos beta / sin^2 alpha_t = 2 x ${shown(straightTipFactor)} x cos ${helix} / sin^2 ${alpha} = ${shown(undercutTeeth(gear, straightTipFactor))}`),
    leastProfileShift: gearFigure('leastProfileShift', least, units, () =>
      `h* - z sin^2 alpha_t / (2 cos beta) = ${shown(straightTipFactor)} - ${gear.teeth} x sin^2 ${alpha} / (2 cos ${helix}) = ${shown(least)}`),
    virtualTeeth: gearFigure('virtualTeeth', virtualTeeth(gear), units, () => `z / cos^3 beta = ${gear.teeth} / cos^3 ${helix} = ${shown(virtualTeeth(gear))}`),
    exactVirtualTeeth: gearFigure('exactVirtualTeeth', exactVirtualTeeth(gear), units, () =>
      `z / (cos^2 beta_b cos beta) = ${gear.teeth} / (cos^2 ${shown(degrees(gear.baseHelixAngleRadians))} x cos ${helix}) = ${shown(exactVirtualTeeth(gear))}`),
    ...(gear.profileShift < least ? {} : formFigure(gear, straightTipFactor)),
  };
}

function formFigure(gear: Gear, straightTipFactor: number): { formDiameter: Quantity } {
  const diameter = formDiameter(gear, straightTipFactor);
  return {
    formDiameter: gearFigure('formDiameter', diameter, gear.units, () =>
      `2 sqrt(r_b^2 + (r sin alpha_t - (h* - x) m_n / sin alpha_t)^2) with r_b ${shown(gear.baseDiameter / 2)}, r ${shown(gear.referenceDiameter / 2)}, h* ${shown(straightTipFactor)} = ${shown(diameter)}`),
  };
}

function seriesFigures(gear: Gear): Record<'nearestModule' | 'diametralPitch' | 'nearestDiametralPitch', Quantity> {
  const { units } = gear;
  const millimetres = gear.normalModule * millimetresPerUnit(units);
  const nearest = nearestStandardModule(millimetres);
  const pitch = diametralPitchOfModule(millimetres);
  const nearestPitch = nearestStandardDiametralPitch(pitch);
  return {
    nearestModule: gearFigure('nearestModule', nearest.module * unitsPerMillimetre(units), units, () =>
      `m_n ${shown(millimetres)} mm; nearest is ${shown(nearest.module)} mm (${nearest.series})`),
    diametralPitch: gearFigure('diametralPitch', pitch, units, () => `25.4 / m_n = 25.4 / ${shown(millimetres)} = ${shown(pitch)}`),
    nearestDiametralPitch: gearFigure('nearestDiametralPitch', nearestPitch, units, () => `P ${shown(pitch)}; nearest is ${shown(nearestPitch)}`),
  };
}
