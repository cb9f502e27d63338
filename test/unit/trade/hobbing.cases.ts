/** Checks of hobbing: kinematics, travel, marks, use of the hob, flank tolerances. */
import { hobbing, type HobbingInput } from '../../../server/src/trade/hobbing.ts';
import { bestClassData, chipLimitedFeedData, hobUseData, runoutData, usualHobDiameterData } from '../../../server/src/trade/hob-use-data.ts';
import { flankTolerances, unroundedFlankTolerances, type FlankToleranceInput } from '../../../server/src/trade/flank-tolerance.ts';
import type { OlderToleranceInput } from '../../../server/src/trade/flank-tolerance-1995.ts';
import { gearGeometry } from '../../../server/src/trade/gear.ts';
import { generatingLength } from '../../../server/src/trade/generating-length.ts';
import { hobGeometry } from '../../../server/src/trade/hob.ts';
import { maxChipThickness } from '../../../server/src/trade/chip-thickness.ts';
import { din5480ShaftAsGear } from '../../../server/src/trade/spline-din5480.ts';
import { olderToleranceData, toleranceData } from '../../../server/src/trade/tolerance-data.ts';
import { checkTable, type Check, type CheckTable } from './checks.ts';
import { figuresOfCase, hobbingInput, valueOf, type Origin } from './gear-case-builder.ts';

const computed = (name: string, source = 'computed beforehand from the formulas named in the catalogue'): Origin => ({ case: name, source, standing: 'derived' });
const vectors = (name: string): Origin => computed(name, 'vector geometry of hob and work');
const elementary = (name: string): Origin => computed(name, 'elementary kinematics');
const memory = (name: string, source: string): Origin => ({ case: name, source, standing: 'from memory' });

const helical = (changes: Partial<HobbingInput> = {}): HobbingInput => hobbingInput({ teeth: 30, helixAngleDegrees: 20, ...changes });
const fifteen = (changes: Partial<HobbingInput> = {}): HobbingInput => hobbingInput({ teeth: 30, helixAngleDegrees: 15, ...changes });

/** D10 pin and span cases live with the gears; here are the figures that hobbing adds. */
const hobbingChecks: Check<HobbingInput>[] = [
  ...figuresOfCase(computed('D17'), hobbingInput(), { hobReferenceDiameter: '72.5', hobLeadAngle: '2.371537', hobHelixAngle: '87.628463' }),
  ...figuresOfCase(computed('D17'), hobbingInput({ normalModule: 2, hobTipDiameter: 63 }), { hobReferenceDiameter: '58', hobLeadAngle: '1.976108' }),
  ...figuresOfCase(computed('D17'), hobbingInput({ normalModule: 2.5, hobTipDiameter: 70 }), { hobReferenceDiameter: '63.75', hobLeadAngle: '2.247470' }),
  ...figuresOfCase(computed('D17'), hobbingInput({ normalModule: 1, hobTipDiameter: 50 }), { hobReferenceDiameter: '47.5', hobLeadAngle: '1.206316' }),
  ...figuresOfCase(vectors('D18, like hands'), fifteen(), { settingAngle: '12.62846' }),
  ...figuresOfCase(vectors('D18, right gear, left hob'), fifteen({ hobHand: -1 }), { settingAngle: '17.37154' }),
  ...figuresOfCase(vectors('D18, left gear, right hob'), fifteen({ gearHand: -1 }), { settingAngle: '-17.37154' }),
  ...figuresOfCase(vectors('D18, both left'), fifteen({ gearHand: -1, hobHand: -1 }), { settingAngle: '-12.62846' }),
  ...figuresOfCase(vectors('D18, spur, right hob'), hobbingInput(), { settingAngle: '-2.37154' }),
  ...figuresOfCase(vectors('D18, spur, left hob'), hobbingInput({ hobHand: -1 }), { settingAngle: '2.37154' }),
  ...figuresOfCase(memory('D19', 'hobbing handbooks'), hobbingInput(), { approach: '22.23595' }),
  ...figuresOfCase(memory('D19', 'hobbing handbooks'), hobbingInput({ normalModule: 2, hobTipDiameter: 63 }), { approach: '16.22498' }),
  ...figuresOfCase(computed('D19, exact', 'numeric search over the rim'), helical(), { approach: '24.8826' }),
  ...figuresOfCase(computed('D19, exact', 'numeric search over the rim'), helical({ hobHand: -1 }), { approach: '26.5038' }),
  ...figuresOfCase(computed('D20'), helical(), { differential: '0.43547357', lead: '826.68622' }),
  ...figuresOfCase(vectors('D21'), hobbingInput({ shift: 5 }), { shiftY: '4.995718', shiftZ: '0.206897', shiftWorkAngle: '7.950931' }),
  ...figuresOfCase(vectors('D21'), helical({ shift: 5 }), { shiftY: '4.765202', shiftZ: '-1.514217', shiftWorkAngle: '6.360745' }),
  ...figuresOfCase(vectors('D21, left hob'), helical({ shift: 5, hobHand: -1 }), { shiftY: '4.623676', shiftZ: '-1.903055', shiftWorkAngle: '6.360745' }),
  ...figuresOfCase(vectors('D21, shift of one axial pitch'), hobbingInput({ shift: 9.432857 }), { shiftWorkAngle: '15.00000' }),
  ...figuresOfCase(vectors('D21, shift of one axial pitch'), helical({ shift: 9.432857 }), { shiftWorkAngle: '12.00000' }),
  ...figuresOfCase(computed('D22'), hobbingInput(), { generatingLength: '16.4985' }),
  ...figuresOfCase(computed('D23'), hobbingInput({ feedPerWorkRevolution: 3 }), { feedMarkDepth: '0.009619' }),
  ...figuresOfCase(computed('D23'), hobbingInput({ feedPerWorkRevolution: 2, hobTipDiameter: 63 }), { feedMarkDepth: '0.005429' }),
  ...figuresOfCase(computed('D23'), hobbingInput({ feedPerWorkRevolution: 4, hobTipDiameter: 100 }), { feedMarkDepth: '0.013681' }),
  ...figuresOfCase(computed('D23'), helical({ feedPerWorkRevolution: 1.5 }), { feedMarkDepth: '0.002723' }),
  ...figuresOfCase(computed('D24'), hobbingInput(), { generatingMarkDepth: '0.0007326' }),
  ...figuresOfCase(computed('D24'), hobbingInput({ normalModule: 2, teeth: 25, hobGashes: 10 }), { generatingMarkDepth: '0.0006751' }),
  ...figuresOfCase(computed('D24'), hobbingInput({ normalModule: 4, teeth: 47, hobStarts: 3, hobGashes: 16, hobTipDiameter: 100 }), { generatingMarkDepth: '0.0025250' }),
  ...figuresOfCase(computed('D24'), hobbingInput({ normalModule: 1, teeth: 17 }), { generatingMarkDepth: '0.0003447' }),
  ...figuresOfCase(memory('D25', 'formula of Hoffmeister'), hobbingInput({ teeth: 40, feedPerWorkRevolution: 3 }), { maxChipThickness: '0.16285' }),
  ...figuresOfCase(memory('D25', 'formula of Hoffmeister'), hobbingInput({ feedPerWorkRevolution: 2 }), { maxChipThickness: '0.17460' }),
  ...figuresOfCase(elementary('D26'), hobbingInput(), {
    syncRatio: '0.0416666667', hobRpm: '278.521', workRpm: '11.60505', cuttingSpeed: '70.000', feedPerMinute: '29.0126', overrun: '0.000', travel: '54.23595',
  }),
  // The case has 1.86939 min; half a unit of its last digit is 0.0003 s.
  ...figuresOfCase(elementary('D26, in seconds'), hobbingInput(), { cuttingTime: '112.16' }),
  // D26 with radial entry, by hand: f_r 0.5 and one revolution of spark-out; 6.75 of depth and 1 before it, 1 + 30 + 1 along, 11.60505 rev/min.
  ...figuresOfCase(elementary('D26, radial entry'), hobbingInput({ plunge: { radialFeedPerWorkRevolution: 0.5, sparkOutWorkRevolutions: 1 } }), {
    radialFeedPerMinute: '5.8025', radialTravel: '7.750', plungeTime: '85.308', approach: '0.000', travel: '32.000', cuttingTime: '151.486', feedPerMinute: '29.0126',
  }),
  // Each of three cuts begins 1 above what the one before has left: 6.75 + 3 in all; 9.75 / 0.5 + 3 x 2 revolutions.
  ...figuresOfCase(elementary('D26, radial entry in three cuts'), hobbingInput({ cuts: 3, plunge: { radialFeedPerWorkRevolution: 0.5, sparkOutWorkRevolutions: 2 } }), { radialTravel: '9.750', plungeTime: '131.839' }),
  ...figuresOfCase(elementary('D26, rpm given'), hobbingInput({ hobRpm: 278.5211504 }), { cuttingSpeed: '70.0000', workRpm: '11.60505' }),
  ...figuresOfCase(computed('D26, inch', '12 x 300 / (pi x 3), by hand'), inchHob(), { hobRpm: '381.972', workRpm: '15.91549' }),
  ...figuresOfCase(computed('D2 and D8', 'ISO 21771'), hobbingInput(), {
    referenceDiameter: '72.000', tipDiameter: '78.000', rootDiameter: '64.500', baseDiameter: '67.6579', wholeDepth: '6.750', spanTeeth: '3', spanLength: '23.1494',
  }),
  ...figuresOfCase(computed('pin of 5.25 mm', 'pin measure computed by a flank found numerically'), hobbingInput(), { pinDiameter: '5.25', overPins: numericOverPins(24, 3, 5.25) }),
  // A stub tooth: the hob's addendum is the 0.6 m of the spline's root, so d_0 = 60 - 2 x 1.2.
  ...figuresOfCase(computed('D28 under a hob', 'formulas of DIN 5480, by hand'), splineUnderHob(), { tipDiameter: '29.6', rootDiameter: '25.4', wholeDepth: '2.1', hobReferenceDiameter: '57.6', baseDiameter: '24.24871' }),
  ...figuresOfCase(memory('class 7, edition 2013', 'ISO 1328-1:2013'), hobbingInput({ flankClass: 7 }), { profileTolerance: '0.017' }),
  ...figuresOfCase(memory('class 9, edition 2013', 'ISO 1328-1:2013'), hobbingInput({ flankClass: 9 }), { profileTolerance: '0.034' }),
  // cos(0) sqrt(4 x 80 x 0.0122674 / sin 20), where 0.0122674 is 13 micrometres less the generating mark.
  ...figuresOfCase(memory('class 7 by hand', 'form tolerances of ISO 1328-1:2013'), hobbingInput({ flankClass: 7 }), { maxFeedForClass: '3.3879' }),
];

function splineUnderHob(): HobbingInput {
  const spline = din5480ShaftAsGear({ splineReferenceDiameter: 30, module: 2, teeth: 14, cutting: 'hobbed' });
  return { ...hobbingInput({ hobTipDiameter: 60 }), ...spline };
}

function inchHob(): HobbingInput {
  const { cuttingSpeed: _, ...rest } = hobbingInput({ units: 'inch', normalModule: 0.125, faceWidth: 1, hobTipDiameter: 3, feedPerWorkRevolution: 0.08, clearance: 0.08 });
  return { ...rest, cuttingSpeed: 300 };
}

/** Size over two opposite pins of a spur gear without shift, by pushing a circle into the space between points of two flanks. */
function numericOverPins(teeth: number, module: number, pin: number): string {
  const alpha = (20 * Math.PI) / 180;
  const baseRadius = (teeth * module * Math.cos(alpha)) / 2;
  const halfSpaceAt = (radius: number): number => {
    const roll = Math.sqrt((radius / baseRadius) ** 2 - 1);
    return Math.PI / (2 * teeth) - (Math.tan(alpha) - alpha) + (roll - Math.atan(roll));
  };
  const clearance = (centre: number): number => {
    let nearest = Infinity;
    for (let radius = baseRadius; radius < baseRadius * 1.2; radius += 0.0005) {
      const angle = halfSpaceAt(radius);
      nearest = Math.min(nearest, Math.hypot(radius * Math.cos(angle) - centre, radius * Math.sin(angle)));
    }
    return nearest - pin / 2;
  };
  let [low, high] = [baseRadius, baseRadius * 1.3];
  for (let step = 0; step < 30; step += 1) {
    const middle = (low + high) / 2;
    if (clearance(middle) < 0) low = middle;
    else high = middle;
  }
  return (2 * high + pin).toFixed(4);
}

// --- generating length with the tip radius as a case gives it ----------------------

interface ZoneInput {
  readonly hobbing: HobbingInput;
  readonly tipRadiusFactor: number;
}

function zoneValue({ hobbing: input, tipRadiusFactor }: ZoneInput, id: string): number {
  const gear = gearGeometry(input);
  const zone = generatingLength(gear, hobGeometry(input, gear), tipRadiusFactor);
  const values: Readonly<Record<string, number>> = {
    generatingLength: zone.length, zoneForTip: zone.forTip, zoneForFlank: zone.forFlank, cutsPerFlank: zone.cutsPerFlank, entryLength: zone.entrySide,
  };
  return values[id] ?? NaN;
}

const zoneChecks: Check<ZoneInput>[] = [
  ...figuresOfCase(computed('D22'), { hobbing: hobbingInput({ teeth: 40 }), tipRadiusFactor: 0.25 }, {
    zoneForTip: '17.9097', zoneForFlank: '14.2727', generatingLength: '17.9097', cutsPerFlank: '22.784', entryLength: '28.3957',
  }),
  ...figuresOfCase(computed('D22'), { hobbing: hobbingInput(), tipRadiusFactor: 0.38 }, { zoneForTip: '16.4985', zoneForFlank: '13.3429', cutsPerFlank: '20.989', entryLength: '21.9491' }),
  ...figuresOfCase(computed('D22'), { hobbing: helical(), tipRadiusFactor: 0.25 }, { generatingLength: '15.8147', cutsPerFlank: '20.119', entryLength: '23.8194' }),
];

// --- use of the hob ----------------------------------------------------------------

const useChecks: Check<HobbingInput>[] = [
  ...figuresOfCase(computed('D17'), hobbingInput(), { hobAxialPitch: '9.432857' }),
  ...figuresOfCase(computed('D17'), hobbingInput({ normalModule: 2, hobTipDiameter: 63 }), { hobAxialPitch: '6.286924' }),
  ...figuresOfCase(computed('D17'), hobbingInput({ normalModule: 2.5, hobTipDiameter: 70 }), { hobAxialPitch: '7.860028' }),
  ...figuresOfCase(computed('D17'), hobbingInput({ normalModule: 1, hobTipDiameter: 50 }), { hobAxialPitch: '3.142289' }),
  // A lead angle of 2 degrees 40 minutes means a reference diameter of 64.481 mm and a pitch of 3 pi / cos 2 degrees 40 minutes.
  ...figuresOfCase(computed('D33', 'data of a textbook exercise: module 3, lead angle 2 degrees 40 minutes, 48 teeth'),
    hobbingInput({ teeth: 48, faceWidth: 38, hobTipDiameter: 3 / Math.sin((8 / 3) * (Math.PI / 180)) + 7.5 }), { hobAxialPitch: '9.4350' }),
  ...figuresOfCase(memory('D19', 'hobbing handbooks'), helical(), { printedApproach: '24.77361' }),
  ...figuresOfCase(memory('D19', 'hobbing handbooks'), helical({ hobHand: -1 }), { printedApproach: '26.35484' }),
  ...figuresOfCase(computed('D19', 'numeric search over the rim'), helical(), { exactApproach: '24.8826' }),
  ...figuresOfCase(computed('D19', 'numeric search over the rim'), helical({ hobHand: -1 }), { exactApproach: '26.5038' }),
  ...figuresOfCase(computed('D20, like hands, climb'), helical({ feedPerWorkRevolution: 2 }), { hobRevolutionsPerWorkRevolution: '30.0725789' }),
  ...figuresOfCase(computed('D20, unlike hands, climb'), helical({ feedPerWorkRevolution: 2, hobHand: -1 }), { hobRevolutionsPerWorkRevolution: '29.9274211' }),
  ...figuresOfCase({ case: 'D20, like hands, conventional', source: 'handbook rule: minus for like hands', standing: 'from memory' },
    helical({ feedPerWorkRevolution: 2, climb: false }), { hobRevolutionsPerWorkRevolution: '29.9274211' }),
  ...figuresOfCase({ case: 'D20, unlike hands, conventional', source: 'handbook rule: plus for unlike hands', standing: 'from memory' },
    helical({ feedPerWorkRevolution: 2, climb: false, hobHand: -1 }), { hobRevolutionsPerWorkRevolution: '30.0725789' }),
  ...figuresOfCase(computed('D22'), hobbingInput(), { cutsPerFlank: '20.989', entryLength: '21.9491' }),
  // 21.9491 + 16.4985 / 2, and with 80 mm of hob 80 - 30.19835 - 9.
  ...figuresOfCase(computed('D22, lengths added'), hobbingInput(), { shortestHob: '30.1983' }),
  ...figuresOfCase(memory('margins of 1 and 2 modules', 'technical articles on hob position'), hobbingInput({ hobLength: 80 }), { usableShift: '40.8017' }),
  ...figuresOfCase(computed('D17 / 12 gashes'), hobbingInput(), { gashStep: '0.786071' }),
];

interface RunoutCase {
  readonly hobbing: HobbingInput;
  readonly obstacleDiameter: number;
  readonly reachAlongHobAxis?: number;
}

const runoutChecks: Check<RunoutCase>[] = [
  ...figuresOfCase(computed('root circle', 'cut to full depth the hob passes the root'), { hobbing: hobbingInput(), obstacleDiameter: 64.4 }, { hobReach: '0.000', neededRoom: '0.000', harmlessShoulder: '64.500' }),
  ...figuresOfCase(computed('shoulder as large as the tip', 'points of the hob cylinder over the disc'), { hobbing: helical(), obstacleDiameter: 101.776 }, { hobReach: numericReach(helical(), 101.776, Infinity) }),
  ...figuresOfCase(computed('chuck larger than the gear', 'points of the hob cylinder over the disc'), { hobbing: helical(), obstacleDiameter: 160, reachAlongHobAxis: 40 }, { hobReach: numericReach(helical(), 160, 40) }),
  // End of travel 2.20599 + 1 and the reach of the exact approach, 24.88255.
  ...figuresOfCase(computed('sum'), { hobbing: helical(), obstacleDiameter: 101.775999522832 }, { neededRoom: '28.0885' }),
  // Start of travel 24.88255 + 1 and the same reach.
  ...figuresOfCase(computed('sum'), { hobbing: helical(), obstacleDiameter: 101.775999522832 }, { neededEntryRoom: '50.7651' }),
];

/** Scans the surface of the hob for the farthest point over the disc, without the closed form. */
function numericReach(input: HobbingInput, discDiameter: number, reachAlong: number): string {
  const gear = gearGeometry(input);
  const hob = hobGeometry(input, gear);
  const setting = gear.signedHelixAngleRadians - hob.signedLeadAngleRadians;
  const radius = input.hobTipDiameter / 2;
  const distance = gear.tipDiameter / 2 + radius - gear.wholeDepth;
  const limit = Math.min(reachAlong, 3 * discDiameter);
  let farthest = 0;
  for (let turn = 0; turn < 200_000; turn += 1) {
    const [x, out] = [distance - radius * Math.cos((turn * Math.PI) / 400_000), radius * Math.sin((turn * Math.PI) / 400_000)];
    const widest = Math.sqrt(Math.max(0, (discDiameter / 2) ** 2 - x * x));
    // A point at s along the axis and `out` across it lies at y = s cos - out sin and reaches s sin + out cos.
    const along = Math.min(limit, (widest + out * Math.sin(setting)) / Math.cos(setting));
    if (x * x <= (discDiameter / 2) ** 2) farthest = Math.max(farthest, along * Math.sin(setting) + out * Math.cos(setting));
  }
  return farthest.toFixed(3);
}

const classChecks: Check<HobbingInput>[] = [
  // The feed mark of 9.619 and the facets of 0.733 need a profile form of 10.4 micrometres; class 6 has 9.5, class 7 has 13.
  ...figuresOfCase(memory('D23 and the 2013 row of 72, 3, 30', 'ISO 1328-1:2013'), hobbingInput({ feedPerWorkRevolution: 3 }), { bestClassForFeed: '7' }),
  // 1.069 and 0.733 together; class 1 has 1.7 micrometres of profile form, class 2 has 2.4.
  ...figuresOfCase(memory('finer feed', 'ISO 1328-1:2013'), hobbingInput({ feedPerWorkRevolution: 1 }), { bestClassForFeed: '2' }),
];

const chipFeedChecks = figuresOfCase(memory('D25, turned round', 'formula of Hoffmeister'), { hobbing: hobbingInput(), limit: 0.174603 }, { chipLimitedFeed: '2.000' });

const hobSizeChecks = Object.entries({ '1': '50', '1.4': '50', '1.5': '56', '2': '63', '2.5': '70', '3': '80', '4': '90', '5': '100', '6': '110', '8': '125' }).flatMap(([module, text]) =>
  figuresOfCase({ case: 'outside diameter by module', source: 'DIN 8002:1955', standing: 'seen in source' }, Number(module), { usualHobDiameter: text }));

interface ChipInput {
  readonly hobbing: HobbingInput;
  readonly feed: number;
  readonly depth: number;
}

function chipValue({ hobbing: input, feed, depth }: ChipInput): number {
  const gear = gearGeometry(input);
  return maxChipThickness(gear, hobGeometry(input, gear), feed, depth);
}

const chipChecks: Check<ChipInput>[] = figuresOfCase(memory('D25', 'formula of Hoffmeister'),
  { hobbing: hobbingInput({ normalModule: 2, teeth: 25, profileShift: 0.2, hobTipDiameter: 63, hobGashes: 10 }), feed: 2, depth: 4.5 }, { maxChipThickness: '0.15783' });

// --- flank tolerances ---------------------------------------------------------------

const oneDecimal = (value: number): string => value.toFixed(1);

type Row1995 = readonly [id: string, ...classes5to9: number[]];

/** Printed rows, classes 5 to 9, in micrometres. Diameter, module and face width are any figures inside the printed range. */
const PRINTED_1995: readonly { input: Omit<OlderToleranceInput, 'flankClass'>; rows: readonly Row1995[] }[] = [
  {
    input: { referenceDiameterMm: 40, normalModuleMm: 2.5, faceWidthMm: 15 },
    rows: [['singlePitch1995', 5.5, 7.5, 11, 15, 22], ['totalPitch1995', 15, 21, 30, 42, 59], ['profileTotal1995', 7, 10, 14, 20, 29], ['helixTotal1995', 7, 10, 14, 20, 29], ['runout1995', 12, 17, 24, 34, 47]],
  },
  {
    input: { referenceDiameterMm: 72, normalModuleMm: 3, faceWidthMm: 30 },
    rows: [['singlePitch1995', 6, 8.5, 12, 17, 23], ['totalPitch1995', 19, 27, 38, 53, 76], ['profileTotal1995', 8, 11, 16, 22, 31], ['helixTotal1995', 8.5, 12, 17, 24, 34], ['runout1995', 15, 21, 30, 43, 61]],
  },
  {
    input: { referenceDiameterMm: 80, normalModuleMm: 1.5, faceWidthMm: 20 },
    rows: [['singlePitch1995', 5.5, 7.5, 11, 15, 21], ['totalPitch1995', 18, 26, 37, 52, 74], ['profileTotal1995', 6, 8.5, 12, 17, 23], ['helixTotal1995', 7.5, 11, 15, 21, 30], ['runout1995', 15, 21, 29, 42, 59]],
  },
  {
    input: { referenceDiameterMm: 125, normalModuleMm: 5, faceWidthMm: 60 },
    rows: [['singlePitch1995', 6.5, 9, 13, 18, 26], ['totalPitch1995', 19, 28, 39, 55, 78], ['profileTotal1995', 9.5, 13, 19, 27, 38], ['helixTotal1995', 10, 14, 20, 28, 39], ['runout1995', 16, 22, 31, 44, 62]],
  },
];

const olderChecks: Check<OlderToleranceInput>[] = [
  ...PRINTED_1995.flatMap(({ input, rows }) =>
    rows.flatMap(([id, ...values]) =>
      values.flatMap((value, index) =>
        figuresOfCase({ case: 'D32', source: 'ISO 1328-1:1995, printed tables', standing: 'recomputed published value' }, { ...input, flankClass: 5 + index }, { [id]: oneDecimal(value) })))),
  // Parts of the flank, class 5, range 50-125, 2-3.5, 20-40, each by hand from the means 79.057, 2.6458 and 28.284.
  ...figuresOfCase(computed('parts', 'ISO 1328-1:1995, formulas by hand'), { referenceDiameterMm: 72, normalModuleMm: 3, faceWidthMm: 30, flankClass: 5 },
    { profileForm1995: '6.0', profileSlope1995: '5.0', helixForm1995: '6.0', helixSlope1995: '6.0' }),
];

type Row2013 = readonly [d: number, module: number, face: number, flankClass: number, ...values: number[]];

const IDS_2013 = ['singlePitch', 'totalPitch', 'profileSlope', 'profileForm', 'profileTotal', 'helixSlope', 'helixForm', 'helixTotal', 'runout'] as const;

/** Computed beforehand: f_p, F_p, f_Ha, f_fa, F_a, f_Hb, f_fb, F_b, F_r in micrometres. */
const COMPUTED_2013: readonly Row2013[] = [
  [72, 3, 30, 5, 6.5, 19, 5.5, 6.5, 8.5, 6.5, 7, 9.5, 17],
  [72, 3, 30, 7, 13, 38, 11, 13, 17, 13, 14, 19, 34],
  [72, 3, 30, 9, 25, 76, 21, 27, 34, 25, 28, 38, 68],
  [50, 2, 20, 6, 8.5, 25, 7, 8.5, 11, 8.5, 9, 12, 22],
  [50, 2, 20, 8, 17, 49, 14, 17, 22, 17, 18, 25, 44],
  [240, 6, 60, 6, 11, 36, 9.5, 12, 15, 11, 12, 16, 32],
  [20, 1, 10, 7, 11, 30, 9, 11, 14, 11, 11, 16, 27],
];

const toleranceInput = (d: number, module: number, face: number, flankClass: number): FlankToleranceInput => ({
  teeth: Math.round(d / module), referenceDiameterMm: d, normalModuleMm: module, faceWidthMm: face, helixAngleDegrees: 0, flankClass,
});

const newerChecks = COMPUTED_2013.flatMap(([d, module, face, flankClass, ...values]) =>
  values.flatMap((value, index) =>
    figuresOfCase(memory('D32', 'ISO 1328-1:2013, formulas and rounding'), toleranceInput(d, module, face, flankClass), { [IDS_2013[index] ?? '']: oneDecimal(value) })));

const unroundedChecks = figuresOfCase(memory('72, 3, 30, class 7, unrounded', 'ISO 1328-1:2013, formulas'), toleranceInput(72, 3, 30, 7), {
  singlePitch: '12.544', totalPitch: '37.822', profileSlope: '10.544', profileForm: '13.300', profileTotal: '16.973', helixSlope: '12.683', helixForm: '14.117', helixTotal: '18.978', runout: '34.040',
});

export const hobbingCheckTables: readonly CheckTable[] = [
  checkTable('hobbing', (input, id) => valueOf(hobbing(input), id), hobbingChecks),
  checkTable('generating zone', zoneValue, zoneChecks),
  checkTable('use of the hob', (input, id) => valueOf(hobUseData(input), id), useChecks),
  checkTable('room behind the teeth', ({ hobbing: input, ...obstacle }, id) => valueOf(runoutData(input, obstacle), id), runoutChecks),
  checkTable('class that a feed reaches', (input, id) => valueOf(bestClassData(input), id), classChecks),
  checkTable('feed for a chip', ({ hobbing: input, limit }, id) => valueOf(chipLimitedFeedData(input, limit), id), chipFeedChecks),
  checkTable('chip thickness', chipValue, chipChecks),
  checkTable('usual hob', (module, id) => valueOf(usualHobDiameterData(module, 'mm'), id), hobSizeChecks),
  checkTable('ISO 1328-1:1995', (input, id) => valueOf(olderToleranceData(input), id), olderChecks),
  checkTable('ISO 1328-1:2013', (input, id) => valueOf(toleranceData(input), id), newerChecks),
  checkTable('ISO 1328-1:2013 before rounding', (input, id) => ({ ...flankTolerances(input), ...unroundedFlankTolerances(input) })[id as keyof ReturnType<typeof flankTolerances>], unroundedChecks),
];
