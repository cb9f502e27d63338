/** Checks of gear geometry, pairs, measuring and splines against published tables, textbook cases and independent computations. */
import { degrees, radians } from '../../../server/src/trade/angles.ts';
import { formDiameter } from '../../../server/src/trade/tooth-limits.ts';
import { gearGeometry, type GearInput } from '../../../server/src/trade/gear.ts';
import { gearData, internalGearData } from '../../../server/src/trade/gear-data.ts';
import {
  chordalInspection, correctionFromMeasuredPins, correctionFromMeasuredSpan, internalPinInspection, pinInspection, spanInspection,
  type CorrectionRequest, type PinRequest, type SpanRequest,
} from '../../../server/src/trade/inspection.ts';
import type { InternalGearInput } from '../../../server/src/trade/internal-gear.ts';
import { inverseInvolute, involute } from '../../../server/src/trade/involute.ts';
import { backlashShiftData, generatingShiftData, pairData, shiftSumData } from '../../../server/src/trade/pair-data.ts';
import { b92Data, din5480Data } from '../../../server/src/trade/spline-figures.ts';
import { b92ShaftAsGear, type B92Input } from '../../../server/src/trade/spline-b92.ts';
import { din5480HubAsGear, din5480ShaftAsGear, type Din5480Input } from '../../../server/src/trade/spline-din5480.ts';
import { diametralPitchOfModule, moduleOfDiametralPitch } from '../../../server/src/trade/standard-modules.ts';
import { normalFromTransverse } from '../../../server/src/trade/transverse-system.ts';
import { checkTable, type Check, type CheckTable } from './checks.ts';
import { figuresOfCase, gearInput, valueOf, type Origin } from './gear-case-builder.ts';

const metricReference = (name: string): Origin => ({ case: name, source: 'technical reference on metric gears', standing: 'recomputed published value' });
const seenInReference = (name: string): Origin => ({ case: name, source: 'technical reference on metric gears, worked table', standing: 'seen in source' });
const computed = (name: string): Origin => ({ case: name, source: 'computed beforehand from the formulas of ISO 21771', standing: 'derived' });
const memory = (name: string, source: string): Origin => ({ case: name, source, standing: 'from memory' });

// --- involute ----------------------------------------------------------------

const PUBLISHED_INVOLUTES = { '14.5': '0.0055448', '20': '0.0149044', '25': '0.0299753', '30': '0.0537515' };
const FULL_INVOLUTES = {
  '14.5': '0.005544842817', '17.5': '0.009866169780', '20': '0.014904383867', '22.5': '0.021514480674', '25': '0.029975345156',
  '30': '0.053751493591', '37.5': '0.112828518481', '45': '0.214601836603',
};

const involuteRows = (origin: Origin, values: Readonly<Record<string, string>>): Check<string>[] =>
  Object.entries(values).flatMap(([angle, text]) => figuresOfCase(origin, angle, { involute: text }));

const involuteChecks = [
  ...involuteRows({ case: 'D1', source: 'printed involute tables', standing: 'recomputed published value' }, PUBLISHED_INVOLUTES),
  ...involuteRows(computed('full digits of inv'), FULL_INVOLUTES),
];

const inverseChecks = Object.entries(FULL_INVOLUTES).flatMap(([angle, text]) =>
  figuresOfCase(computed('inverse of inv'), Number(text), { inverseInvolute: `${Number(angle).toFixed(1)}00000` }));

// --- gear data ---------------------------------------------------------------

const helicalCase = gearInput({ teeth: 30, helixAngleDegrees: 20 });

const gearChecks: Check<GearInput>[] = [
  ...figuresOfCase(metricReference('D2'), gearInput({ teeth: 12 }), { referenceDiameter: '36.000', baseDiameter: '33.8289', tipDiameter: '42.000', rootDiameter: '28.500', wholeDepth: '6.750' }),
  ...figuresOfCase(metricReference('D2'), gearInput(), { referenceDiameter: '72.000', baseDiameter: '67.6579', tipDiameter: '78.000', rootDiameter: '64.500', wholeDepth: '6.750' }),
  ...figuresOfCase(metricReference('D3'), gearInput({ teeth: 12, profileShift: 0.6 }), { rootDiameter: '32.100' }),
  ...figuresOfCase(metricReference('D3'), gearInput({ teeth: 24, profileShift: 0.36 }), { rootDiameter: '66.660' }),
  ...figuresOfCase(seenInReference('D4'), gearInput(), { normalToothThickness: '4.7124' }),
  ...figuresOfCase(seenInReference('D5'), gearInput({ normalModule: 10, teeth: 12, profileShift: 0.3 }), { normalToothThickness: '17.8918' }),
  ...figuresOfCase(computed('D15'), helicalCase, {
    transversePressureAngle: '21.17283', transverseModule: '3.192533', referenceDiameter: '95.7760', baseDiameter: '89.31066', tipDiameter: '101.7760',
    rootDiameter: '88.2760', baseHelixAngle: '18.74724', lead: '826.68622', differential: '0.43547357',
  }),
  ...figuresOfCase({ case: 'D16', source: 'textbooks (17 at 20 degrees)', standing: 'recomputed published value' }, gearInput({ teeth: 12 }), { undercutTeeth: '17' }),
  ...figuresOfCase(computed('D16'), gearInput({ teeth: 12 }), { undercutTeeth: '17.0973', leastProfileShift: '0.29813' }),
  ...figuresOfCase(computed('z_min'), gearInput({ normalPressureAngleDegrees: 14.5 }), { undercutTeeth: '31.9029' }),
  ...figuresOfCase(computed('z_min'), gearInput({ normalPressureAngleDegrees: 25 }), { undercutTeeth: '11.1978' }),
  ...figuresOfCase(computed('z_min'), gearInput({ normalPressureAngleDegrees: 30 }), { undercutTeeth: '8.0000' }),
  ...figuresOfCase(seenInReference('D6'), helicalOfD6(), { virtualTeeth: '25.3620', normalToothThickness: '6.6119' }),
  ...figuresOfCase(memory('z / (cos^2 beta_b cos beta), by hand', 'ISO 21771'), helicalCase, { exactVirtualTeeth: '35.603' }),
  ...figuresOfCase(memory('series', 'ISO 54'), gearInput({ normalModule: 2.6 }), { nearestModule: '2.50' }),
  ...figuresOfCase(memory('series', 'ISO 54'), gearInput({ normalModule: 3.4 }), { nearestModule: '3.50' }),
  ...figuresOfCase(memory('series', 'DIN 780'), gearInput({ normalModule: 0.44 }), { nearestModule: '0.40' }),
  ...figuresOfCase({ case: 'P 10', source: 'definition of the inch', standing: 'derived' }, gearInput({ normalModule: 2.54 }), { diametralPitch: '10.000', nearestDiametralPitch: '10' }),
  ...figuresOfCase(memory('P 8', 'usual series of pitches'), gearInput({ normalModule: 3.1 }), { nearestDiametralPitch: '8' }),
  ...figuresOfCase({ case: 'base pitch', source: 'pi m cos alpha, by hand', standing: 'derived' }, gearInput({ normalModule: 1 }), { normalBasePitch: '2.952' }),
];

/** The drawing of D6 states the transverse section. */
function helicalOfD6(): GearInput {
  const system = normalFromTransverse({ transverseModule: 4, transversePressureAngleDegrees: 20, helixAngleDegrees: 22.5, transverseProfileShift: 0.3 });
  const referenceDiameter = 20 * 4;
  return gearInput({ ...system, teeth: 20, tipDiameter: referenceDiameter + 2 * 4.7184 });
}

// A second road to the limits of a tooth: the flank as a polar curve, followed numerically.
const numericChecks: Check<GearInput>[] = [gearInput(), gearInput({ teeth: 12, profileShift: 0.4 }), helicalCase].flatMap((input) => [
  { id: 'pointedDiameter', case: 'flank followed numerically', source: 'polar curve of the involute, bisected', standing: 'derived', inputs: input, expected: numericPointedDiameter(input), digits: 6 },
  { id: 'tipThickness', case: 'flank followed numerically', source: 'polar curve of the involute', standing: 'derived', inputs: input, expected: numericTipThickness(input), digits: 6 },
  { id: 'formDiameter', case: 'rack generated numerically', source: 'end of the rack flank, rolled off', standing: 'derived', inputs: input, expected: numericFormDiameter(input), digits: 5 },
]);

/** Angle of the flank point at a radius, from the tooth's middle, in the transverse section. */
function halfAngleAt(input: GearInput, radius: number): number {
  const helix = radians(input.helixAngleDegrees);
  const d = (input.teeth * input.normalModule) / Math.cos(helix);
  const alpha = Math.atan(Math.tan(radians(input.normalPressureAngleDegrees)) / Math.cos(helix));
  const thickness = (input.normalModule * (Math.PI / 2 + 2 * input.profileShift * Math.tan(radians(input.normalPressureAngleDegrees)))) / Math.cos(helix);
  const roll = (r: number): number => Math.sqrt((r / ((d / 2) * Math.cos(alpha))) ** 2 - 1);
  const polar = (r: number): number => roll(r) - Math.atan(roll(r));
  return thickness / d + polar(d / 2) - polar(radius);
}

function numericPointedDiameter(input: GearInput): number {
  let [low, high] = [input.teeth * input.normalModule * 0.5, input.teeth * input.normalModule * 2];
  for (let step = 0; step < 100; step += 1) {
    const middle = (low + high) / 2;
    if (halfAngleAt(input, middle) > 0) low = middle;
    else high = middle;
  }
  return 2 * low;
}

function numericTipThickness(input: GearInput): number {
  const helix = radians(input.helixAngleDegrees);
  const d = (input.teeth * input.normalModule) / Math.cos(helix);
  const radius = d / 2 + input.normalModule * (1 + input.profileShift);
  return 2 * radius * halfAngleAt(input, radius) * Math.cos(Math.atan((Math.tan(helix) * 2 * radius) / d));
}

/** The rack's last straight point, a module below its line, is on the gear's flank when the common normal passes through the pitch point. */
function numericFormDiameter(input: GearInput): number {
  const helix = radians(input.helixAngleDegrees);
  const alpha = Math.atan(Math.tan(radians(input.normalPressureAngleDegrees)) / Math.cos(helix));
  const pitchRadius = (input.teeth * input.normalModule) / Math.cos(helix) / 2;
  const below = (1 - input.profileShift) * input.normalModule;
  return 2 * Math.hypot(pitchRadius - below, below / Math.tan(alpha));
}

// --- pairs -------------------------------------------------------------------

const pairInputs: readonly [GearInput, GearInput] = [gearInput({ teeth: 12, profileShift: 0.6 }), gearInput({ teeth: 24, profileShift: 0.36 })];

const pairChecks = [
  ...figuresOfCase(metricReference('D3'), pairInputs, { workingPressureAngle: '26.0886' }),
  ...figuresOfCase(computed('D3'), pairInputs, {
    centreDistance: '56.4999', centreDistanceFactor: '0.83329', tipShorteningFactor: '0.12671',
    firstTipDiameter: '44.840', secondTipDiameter: '79.400',
  }),
];

const shiftSumChecks = figuresOfCase(computed('D3, turned round'), 56.4999, { shiftSum: '0.960' });

const generatingShiftChecks = figuresOfCase(
  { case: 'thinner by 0.1 mm', source: 'x_E = x + A_sn / (2 m tan alpha) of a worked sheet on profile shift, by hand', standing: 'derived' },
  { input: gearInput({ profileShift: 0.4 }), allowance: -0.1 },
  { generatingProfileShift: '0.3542' },
);

const backlashChecks = figuresOfCase(
  { case: 'backlash 0.1 mm', source: 'sum x - j_n / (2 m sin alpha) of a worked sheet on profile shift, by hand: 0.96 - 0.0487301', standing: 'derived' },
  0.1,
  { generatingShiftSum: '0.911270' },
);

// --- span, pins, chords -------------------------------------------------------

type SpanInput = GearInput & SpanRequest;

const spanChecks: Check<SpanInput>[] = [
  ...figuresOfCase(metricReference('D7'), gearInput({ profileShift: 0.4 }), { spanTeeth: '4', spanLength: '32.8266' }),
  ...figuresOfCase(computed('D7'), gearInput({ profileShift: 0.4 }), { spanContactDiameter: '75.2009' }),
  ...figuresOfCase(metricReference('D8'), gearInput(), { spanTeeth: '3', spanLength: '23.1494' }),
  ...figuresOfCase(metricReference('D8'), gearInput({ normalModule: 2, teeth: 20 }), { spanTeeth: '3', spanLength: '15.3209' }),
  ...figuresOfCase(metricReference('D8'), gearInput({ normalModule: 1, teeth: 30 }), { spanTeeth: '4', spanLength: '10.7526' }),
  ...figuresOfCase(metricReference('D8'), gearInput({ normalModule: 1, teeth: 20 }), { spanTeeth: '3', spanLength: '7.6604' }),
  ...figuresOfCase(computed('D9'), gearInput({ normalModule: 2.54, teeth: 30, normalPressureAngleDegrees: 14.5 }), { spanTeeth: '3', spanLength: '19.72275' }),
  ...figuresOfCase(computed('D15'), helicalCase, { spanTeeth: '4', spanLength: '32.50221' }),
  ...figuresOfCase({ case: 'D15, face', source: 'W sin beta cos alpha_n, by hand', standing: 'derived' }, helicalCase, { neededFaceWidth: '10.4460' }),
];

type PinInput = GearInput & PinRequest;

const WIRE_TABLE: Readonly<Record<number, string>> = {
  6: '8.3032', 8: '10.3271', 10: '12.3445', 12: '14.3578', 14: '16.3683', 18: '20.3840', 20: '22.3900', 24: '26.3997', 28: '30.4071',
};
const ODD_WIRES: Readonly<Record<number, string>> = { 7: '9.1260', 15: '17.2871', 25: '27.3511' };

const wireRows = (origin: Origin, table: Readonly<Record<number, string>>): Check<PinInput>[] =>
  Object.entries(table).flatMap(([teeth, text]) =>
    figuresOfCase(origin, { ...gearInput({ units: 'inch', normalModule: 1, teeth: Number(teeth) }), pinDiameter: 1.728 }, { overPins: text }));

const pinChecks: Check<PinInput>[] = [
  ...figuresOfCase(metricReference('D10'), { ...gearInput({ normalModule: 1, teeth: 20 }), pinDiameter: 1.7 }, { pinCentreAngle: '24.1350', overPins: '22.2941' }),
  // The reference prints 1.7245; its own steps with five digits give the 1.72445 that is checked here.
  ...figuresOfCase(metricReference('D10, ideal pin'), { ...gearInput({ normalModule: 1, teeth: 20 }), pinDiameter: 1.7 }, { idealPinDiameter: '1.72445' }),
  ...figuresOfCase(metricReference('D10, pin chosen'), gearInput({ normalModule: 1, teeth: 20 }), { pinDiameter: '1.70', overPins: '22.2941' }),
  ...wireRows({ case: 'D11', source: 'machinery handbook, measurement over wires', standing: 'recomputed published value' }, WIRE_TABLE),
  ...wireRows(computed('D12'), ODD_WIRES),
  ...figuresOfCase(computed('D13'), { ...gearInput(), pinDiameter: 5 }, { pinCentreAngle: '23.09707', overPins: '78.5538' }),
  ...figuresOfCase(computed('D13'), { ...gearInput({ teeth: 25 }), pinDiameter: 5.25 }, { overPins: '82.2816' }),
  ...figuresOfCase(computed('D13'), { ...gearInput({ profileShift: 0.4 }), pinDiameter: 5.25 }, { overPins: '81.3174', idealPinDiameter: '5.6483' }),
  ...figuresOfCase(computed('D15'), { ...helicalCase, pinDiameter: 5.25 }, { overPins: '103.26595' }),
  // The ideal pin touches on the V-circle, which here is the reference circle.
  ...figuresOfCase({ case: 'ideal pin', source: 'definition of the ideal pin', standing: 'derived' }, { ...gearInput({ normalModule: 1, teeth: 20 }), pinDiameter: 1.724451 }, { pinContactDiameter: '20.0000' }),
  ...figuresOfCase(memory('D31, external', 'ISO 4156 size 24 x 2.5'), { ...gearInput({ normalModule: 2.5, normalPressureAngleDegrees: 30, tipDiameter: 62.5, depth: 3 }), pinDiameter: 5 }, { overPins: '67.9939' }),
];

type InternalPinInput = InternalGearInput & PinRequest;

const internalInput = (changes: Partial<InternalPinInput>): InternalPinInput => ({
  units: 'mm', normalModule: 1, teeth: 40, helixAngleDegrees: 0, normalPressureAngleDegrees: 20, profileShift: 0, ...changes,
});

const internalPinChecks: Check<InternalPinInput>[] = [
  ...Object.entries({ 20: '18.6635', 28: '26.6640', 40: '38.6644', 27: '25.6181' }).flatMap(([teeth, text]) =>
    figuresOfCase(computed('D14'), internalInput({ units: 'inch', teeth: Number(teeth), tipDiameter: Number(teeth) - 0.8, pinDiameter: 1.44 }), { betweenPins: text })),
  ...figuresOfCase(memory('D31, internal', 'ISO 4156 size 24 x 2.5'), internalInput({ normalModule: 2.5, teeth: 24, normalPressureAngleDegrees: 30, tipDiameter: 57.7364, rootDiameter: 63.75, pinDiameter: 4.25 }), { betweenPins: '53.9671' }),
  // A pin on the V-circle, that is on the reference circle when there is no shift.
  ...figuresOfCase({ case: 'ideal pin', source: 'definition of the ideal pin', standing: 'derived' }, internalInput({}), { pinContactDiameter: '40.0000' }),
  ...figuresOfCase({ case: 'ideal pin', source: 'normal of the flank, taken numerically, to the centre line of the space', standing: 'derived' }, internalInput({}), { idealInternalPinDiameter: numericInternalPin(40) }),
];

/** The circle on the centre line of the space that touches the flank at the reference circle, found from points of the flank alone. */
function numericInternalPin(teeth: number): string {
  const alpha = radians(20);
  const r = teeth / 2;
  const baseRadius = r * Math.cos(alpha);
  const flank = (radius: number): { x: number; y: number } => {
    const roll = Math.sqrt((radius / baseRadius) ** 2 - 1);
    const angle = Math.PI / 2 / teeth + Math.tan(alpha) - alpha - (roll - Math.atan(roll));
    return { x: radius * Math.cos(angle), y: radius * Math.sin(angle) };
  };
  const touch = flank(r);
  const [before, after] = [flank(r - 1e-5), flank(r + 1e-5)];
  const slope = (after.y - before.y) / (after.x - before.x);
  const centre = touch.x + touch.y * slope;
  return (2 * Math.hypot(centre - touch.x, touch.y)).toFixed(4);
}

const internalDataChecks: Check<InternalGearInput>[] = [
  ...figuresOfCase(memory('internal gear', 'ISO 21771'), internalInput({ normalModule: 3, teeth: 60, profileShift: 0.5 }), { referenceDiameter: '180.0', internalTipDiameter: '177.0', internalRootDiameter: '190.5' }),
  ...figuresOfCase(computed('e = m (pi/2 + 2 x tan alpha)'), internalInput({ normalModule: 3, teeth: 60, profileShift: 0.5 }), { normalSpaceWidth: '5.8043' }),
];

const chordChecks: Check<GearInput>[] = [
  ...figuresOfCase(seenInReference('D5'), gearInput({ normalModule: 10, teeth: 12, profileShift: 0.3, tipDiameter: 146 }), { chordalHalfAngle: '8.54270', chordalThickness: '17.8256', chordalHeight: '13.6657' }),
  ...figuresOfCase(seenInReference('D6'), helicalOfD6(), { chordalHalfAngle: '4.04196' }),
  ...figuresOfCase(computed('D6'), helicalOfD6(), { chordalThickness: '6.6065', chordalHeight: '4.8350' }),
];

type SpanCorrection = GearInput & SpanRequest & CorrectionRequest;
type PinCorrection = GearInput & PinRequest & CorrectionRequest;
const measuredOn = (measured: number, wanted: number): CorrectionRequest => ({ x: 72.25, diameterProgramming: false, measured, wanted });

const spanCorrectionChecks: Check<SpanCorrection>[] = [
  ...figuresOfCase(computed('D27'), { ...gearInput(), ...measuredOn(23.2, 23.15) }, { spanCorrection: '0.073095', correctedX: '72.176905' }),
  ...figuresOfCase(computed('D27, X in diameter'), { ...gearInput(), ...measuredOn(23.2, 23.15), x: 144.5, diameterProgramming: true }, { correctedX: '144.353810' }),
];

const pinCorrectionChecks: Check<PinCorrection>[] = figuresOfCase(computed('D27'), { ...gearInput(), pinDiameter: 5, ...measuredOn(78.6, 78.55) }, { pinsCorrection: '0.028674' });

// --- splines -------------------------------------------------------------------

const byHand = (name: string): Origin => ({ case: name, source: 'formulas of DIN 5480 as one data sheet has them, by hand', standing: 'derived' });
const b92Table = (name: string): Origin => ({ case: name, source: 'formulas of the table of basic dimensions in ANSI B92.1-1970, by hand', standing: 'derived' });
const b92Listed: Origin = { case: 'D30', source: 'a 15 tooth 16/32 shaft is listed as 1.00 inch', standing: 'seen in source' };

const w30: Din5480Input = { splineReferenceDiameter: 30, module: 2, teeth: 14, cutting: 'hobbed' };
const w50: Din5480Input = { splineReferenceDiameter: 50, module: 2, teeth: 24, cutting: 'hobbed' };

const din5480Checks: Check<Din5480Input>[] = [
  ...figuresOfCase(computed('D28'), w30, {
    profileShiftLength: '-0.1', splinePitchDiameter: '28', splineBaseDiameter: '24.24871', shaftTipDiameter: '29.6', shaftRootDiameter: '25.4',
    hubTipDiameter: '26', hubRootDiameter: '30', splineToothThickness: '3.02612',
  }),
  ...figuresOfCase<Din5480Input>(byHand('root of a broached shaft, 0.55 m'), { ...w30, cutting: 'broached' }, { shaftRootDiameter: '25.6' }),
  ...figuresOfCase<Din5480Input>(byHand('root of a shaped shaft, 0.65 m'), { ...w30, cutting: 'shaped' }, { shaftRootDiameter: '25.2' }),
  ...figuresOfCase(computed('D29'), w50, { profileShiftLength: '-0.1', shaftTipDiameter: '49.6', shaftRootDiameter: '45.4', splineToothThickness: '3.02612' }),
];

const din5480PinChecks: Check<PinInput>[] = [
  ...figuresOfCase(computed('D28'), { ...din5480ShaftAsGear(w30), pinDiameter: 4 }, { overPins: '34.14380' }),
  ...figuresOfCase(computed('D29'), { ...din5480ShaftAsGear(w50), pinDiameter: 4 }, { overPins: '54.21757' }),
];

const din5480HubChecks: Check<InternalPinInput>[] = figuresOfCase(computed('D28'), { ...din5480HubAsGear(w30), pinDiameter: 3.5 }, { betweenPins: '22.48367' });

const nineTeeth: B92Input = { form: '30 degree flat root side fit', teeth: 9, pitch: 16 };

const b92Checks: Check<B92Input>[] = [
  ...figuresOfCase<B92Input>(b92Table('D30'), nineTeeth, { b92PitchDiameter: '0.5625', b92BaseDiameter: '0.48714', b92MajorExternal: '0.6250', b92MinorExternal: '0.47813', b92FormExternal: '0.4960' }),
  ...figuresOfCase<B92Input>(b92Table('D30'), { ...nineTeeth, teeth: 15 }, { b92PitchDiameter: '0.9375' }),
  ...figuresOfCase<B92Input>(b92Listed, { ...nineTeeth, teeth: 15 }, { b92MajorExternal: '1.00' }),
  // (N + 1.35)/P, (N - 1)/P, (N + 1)/P + 2 c_F with c_F at its least, 0.002, and pi/(2P), each by hand.
  ...figuresOfCase<B92Input>(b92Table('side fit'), nineTeeth, { b92MajorInternal: '0.646875', b92MinorInternal: '0.5000', b92FormInternal: '0.6290', b92FormClearance: '0.002', b92SpaceWidth: '0.098175' }),
  ...figuresOfCase<B92Input>(b92Table('major diameter fit'), { ...nineTeeth, form: '30 degree flat root major diameter fit' }, { b92MajorInternal: '0.6250', b92FormInternal: '0.6125' }),
  ...figuresOfCase<B92Input>(b92Table('fillet root'), { form: '30 degree fillet root', teeth: 24, pitch: 8 }, { b92MajorInternal: '3.2250', b92MinorExternal: '2.7750', b92FormClearance: '0.0030' }),
  ...figuresOfCase<B92Input>(b92Table('37.5 degrees'), { form: '37.5 degree fillet root', teeth: 24, pitch: 8 }, { b92MajorInternal: '3.2000', b92MinorInternal: '2.9000', b92MinorExternal: '2.8375', b92SpaceWidth: '0.208850' }),
];

const b92PinChecks: Check<PinInput>[] = [
  ...figuresOfCase(computed('D30'), { ...b92ShaftAsGear(nineTeeth), pinDiameter: 0.12 }, { overPins: '0.73459' }),
  ...figuresOfCase(computed('D30'), { ...b92ShaftAsGear({ ...nineTeeth, teeth: 15 }), pinDiameter: 0.12 }, { overPins: '1.11615' }),
];

const PITCH_CONVERSIONS: Readonly<Record<string, string>> = {
  4: '6.35', 8: '3.175', 10: '2.54', 12: '2.116667', 16: '1.5875', 20: '1.27', 24: '1.058333', 32: '0.79375', 48: '0.529167', 64: '0.396875',
};

const pitchChecks = Object.entries(PITCH_CONVERSIONS).flatMap(([pitch, text]) =>
  figuresOfCase({ case: 'conversion', source: '25.4 / P', standing: 'derived' }, Number(pitch), { moduleOfDiametralPitch: text }));

export const gearCheckTables: readonly CheckTable[] = [
  checkTable('involute', (angle) => involute(radians(Number(angle))), involuteChecks),
  checkTable('inverse involute', (value) => degrees(inverseInvolute(value)), inverseChecks),
  checkTable('gear data', (input, id) => valueOf(gearData(input), id), gearChecks),
  checkTable('limits of the tooth, a second way', (input, id) => (id === 'formDiameter' ? formDiameter(gearGeometry(input)) : valueOf(gearData(input), id)), numericChecks),
  checkTable('working pair', ([first, second], id) => valueOf(pairData(first, second), id), pairChecks),
  checkTable('profile shift for a centre distance', (distance, id) => valueOf(shiftSumData(pairInputs[0], pairInputs[1], distance), id), shiftSumChecks),
  checkTable('profile shift for a thinner tooth', ({ input, allowance }, id) => valueOf(generatingShiftData(input, allowance), id), generatingShiftChecks),
  checkTable('profile shift for a backlash', (backlash, id) => valueOf(backlashShiftData(pairInputs[0], pairInputs[1], backlash), id), backlashChecks),
  checkTable('span', (input, id) => valueOf(spanInspection(input), id), spanChecks),
  checkTable('over pins', (input, id) => valueOf(pinInspection(input), id), [...pinChecks, ...din5480PinChecks, ...b92PinChecks]),
  checkTable('between pins', (input, id) => valueOf(internalPinInspection(input), id), [...internalPinChecks, ...din5480HubChecks]),
  checkTable('internal gear data', (input, id) => valueOf(internalGearData(input), id), internalDataChecks),
  checkTable('chordal thickness', (input, id) => valueOf(chordalInspection(input), id), chordChecks),
  checkTable('correction from a span', (input, id) => valueOf(correctionFromMeasuredSpan(input), id), spanCorrectionChecks),
  checkTable('correction from pins', (input, id) => valueOf(correctionFromMeasuredPins(input), id), pinCorrectionChecks),
  checkTable('DIN 5480', (input, id) => valueOf(din5480Data(input), id), din5480Checks),
  checkTable('ANSI B92.1', (input, id) => valueOf(b92Data(input), id), b92Checks),
  checkTable('module of a diametral pitch', (pitch) => moduleOfDiametralPitch(pitch), pitchChecks),
  checkTable('diametral pitch of a module', (module) => diametralPitchOfModule(module), [
    { id: 'diametralPitch', case: 'module 2.54', source: 'definition of the inch', standing: 'derived', inputs: 2.54, expected: 10, digits: 9 },
  ]),
];
