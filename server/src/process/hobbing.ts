/**
 * Hobbing of external gears in synchronous running: parameters, figures, checks
 * and the block. All figures come from the trade library; this file says which
 * parameter means what there, and in which order a machine does it.
 */
import Fraction from 'fraction.js';
import { toolUnit, type MachineCard } from '../machine/card.ts';
import { placeholdersOf, templateBlocks, type Figures } from '../machine/template.ts';
import { cutsOf, hobbing as computeHobbing, type HobbingInput } from '../trade/hobbing.ts';
import { hobRotationSense } from '../trade/hobbing-law.ts';
import { shown } from '../trade/quantity.ts';
import type { Values } from './fields.ts';
import { beyondMachine, defineProcess, exactlyOne, type Composition, type Problem, type QuantityLookup, type Setting } from './process.ts';
import { BlockWriter, cardLength, caution, decimal, feedWord, lengthWord, unitName, xWord } from './words.ts';

const fields = {
  MODULE: { kind: 'number', label: 'Normal module', dimension: 'module', above: 0, most: 40, optional: true, absent: 'use DP', help: 'Module in the normal section, always in mm. Give MODULE or DP.' },
  DP: { kind: 'number', label: 'Normal diametral pitch', dimension: 'diametralPitch', above: 0, most: 500, optional: true, absent: 'use MODULE', help: 'Teeth per inch of reference diameter, normal section. Give DP or MODULE.' },
  TEETH: { kind: 'number', label: 'Number of teeth', dimension: 'count', least: 3, most: 1000, whole: true, help: 'Teeth of the gear.' },
  HELIX: { kind: 'number', label: 'Helix angle', dimension: 'angle', least: 0, most: 60, default: 0, help: 'Helix angle of the gear at the reference diameter, without a sign; HAND gives the direction.' },
  HAND: { kind: 'choice', label: 'Hand of the gear', choices: ['RIGHT', 'LEFT'], default: 'RIGHT', help: 'Direction of the helix. Without meaning for a spur gear.' },
  'PRESSURE-ANGLE': { kind: 'number', label: 'Normal pressure angle', dimension: 'angle', least: 10, most: 45, default: 20, help: 'Pressure angle of the basic rack, normal section.' },
  'PROFILE-SHIFT': { kind: 'number', label: 'Profile shift coefficient', dimension: 'number', least: -2, most: 3, default: 0, help: 'x: profile shift divided by the normal module.' },
  FACE: { kind: 'number', label: 'Face width', dimension: 'length', above: 0, most: 1000, help: 'Length of the teeth along the work axis.' },
  'TIP-DIA': { kind: 'number', label: 'Tip diameter', dimension: 'length', above: 0, most: 5000, optional: true, absent: 'computed', help: 'Outside diameter of the blank. Computed from module, teeth and profile shift where it is not given.' },
  DEPTH: { kind: 'number', label: 'Whole depth', dimension: 'length', above: 0, most: 100, optional: true, absent: 'computed', help: 'Radial depth of the teeth. Computed for a basic rack with 1 and 1.25 modules where it is not given.' },
  CLASS: { kind: 'number', label: 'Flank tolerance class', dimension: 'count', least: 1, most: 11, whole: true, default: 8, help: 'Class of ISO 1328-1:2013 that the flanks must hold.' },
  'HOB-DIA': { kind: 'number', label: 'Hob outside diameter', dimension: 'length', above: 0, most: 500, help: 'Outside diameter of the hob.' },
  'HOB-STARTS': { kind: 'number', label: 'Hob starts', dimension: 'count', least: 1, most: 20, whole: true, default: 1, help: 'Starts (threads) of the hob.' },
  'HOB-HAND': { kind: 'choice', label: 'Hand of the hob', choices: ['RIGHT', 'LEFT'], default: 'RIGHT', help: 'Direction of the hob thread.' },
  'HOB-GASHES': { kind: 'number', label: 'Hob gashes', dimension: 'count', least: 2, most: 200, whole: true, default: 12, help: 'Gashes (rows of cutting edges) round the hob.' },
  'HOB-LENGTH': { kind: 'number', label: 'Hob length', dimension: 'length', above: 0, most: 1000, optional: true, absent: 'not checked', help: 'Usable length of the hob. Checked against the generating length where it is given.' },
  SPEED: { kind: 'number', label: 'Cutting speed', dimension: 'surfaceSpeed', above: 0, most: 2000, optional: true, absent: 'use RPM', help: 'Cutting speed at the outside of the hob. Give SPEED or RPM.' },
  RPM: { kind: 'number', label: 'Hob speed', dimension: 'rpm', above: 0, most: 20000, optional: true, absent: 'use SPEED', help: 'Revolutions of the hob. Give RPM or SPEED.' },
  FEED: { kind: 'number', label: 'Axial feed', dimension: 'feedPerRevolution', above: 0, most: 20, help: 'Axial feed for one revolution of the work.' },
  CUTS: { kind: 'number', label: 'Number of cuts', dimension: 'count', least: 1, most: 20, whole: true, default: 1, help: 'Passes over the face, each deeper than the one before.' },
  METHOD: { kind: 'choice', label: 'Climb or conventional', choices: ['CLIMB', 'CONVENTIONAL'], default: 'CLIMB', help: 'Climb: the cut runs against the feed. Conventional: with it.' },
  CLEARANCE: { kind: 'number', label: 'Clearance', dimension: 'length', least: 0, most: 100, default: { mm: 2, inch: 0.08 }, help: 'Safety added to approach and overrun together.' },
  'FACE-Z': { kind: 'number', label: 'Z of the front face', dimension: 'length', least: -10000, most: 10000, default: 0, help: 'Z of the face of the teeth where the cut begins. The teeth reach from here toward -Z.' },
  SHIFT: { kind: 'number', label: 'Hob shift', dimension: 'length', least: -1000, most: 1000, default: 0, help: 'Position along the hob axis, toward its +Y end.' },
} as const;

type HobbingValues = Values<typeof fields>;

const setup = ['settingAngle', 'hobLeadAngle', 'hobHelixAngle', 'hobReferenceDiameter'] as const;
const running = ['syncRatio', 'workRpm', 'cuttingSpeed', 'hobRpm', 'feedPerMinute'] as const;
const size = ['referenceDiameter', 'tipDiameter', 'rootDiameter', 'baseDiameter', 'wholeDepth', 'spanTeeth', 'spanLength', 'pinDiameter', 'overPins'] as const;
const helixFigures = ['settingAngle', 'lead', 'differential', 'hobLeadAngle', 'hobHelixAngle'] as const;
const path = ['travel', 'approach', 'overrun', 'cuttingTime'] as const;
const marks = ['feedMarkDepth', 'profileTolerance', 'maxFeedForClass', 'generatingMarkDepth'] as const;
const feeding = ['feedPerMinute', 'feedMarkDepth', 'maxFeedForClass', 'maxChipThickness', 'cuttingTime'] as const;
const shifting = ['shiftY', 'shiftZ', 'shiftWorkAngle', 'generatingLength'] as const;
const hobFigures = ['hobLeadAngle', 'hobHelixAngle', 'settingAngle', 'hobReferenceDiameter', 'syncRatio'] as const;

export const hobbing = defineProcess({
  id: 'hobbing',
  keyword: 'HOBBING',
  title: 'Hobbing',
  summary: 'Hobs the teeth of an external spur or helical gear with hob and work in synchronous running.',
  fields,
  keyQuantities: ['syncRatio', 'settingAngle', 'hobRpm', 'workRpm', 'feedPerMinute', 'travel', 'cuttingTime', 'feedMarkDepth'],
  governs: {
    S: ['syncRatio', 'workRpm', 'cuttingSpeed', 'hobRpm', 'feedPerMinute'],
    F: feeding,
    sync: [...running, 'differential', 'lead'],
    T: hobFigures,
    MODULE: size, DP: size, TEETH: ['syncRatio', 'workRpm', ...size], HELIX: helixFigures, HAND: helixFigures,
    'PRESSURE-ANGLE': ['baseDiameter', ...size], 'PROFILE-SHIFT': size, FACE: path, 'TIP-DIA': ['tipDiameter', 'wholeDepth', 'rootDiameter', ...path],
    DEPTH: ['wholeDepth', 'rootDiameter', 'approach', 'travel'], CLASS: ['profileTolerance', 'maxFeedForClass', 'feedMarkDepth'],
    'HOB-DIA': hobFigures, 'HOB-STARTS': hobFigures, 'HOB-HAND': setup, 'HOB-GASHES': ['generatingMarkDepth', 'maxChipThickness'], 'HOB-LENGTH': shifting,
    SPEED: ['hobRpm', 'workRpm', 'cuttingSpeed', 'syncRatio'], RPM: ['cuttingSpeed', 'hobRpm', 'workRpm', 'syncRatio'], FEED: feeding,
    CUTS: path, METHOD: ['feedPerMinute', ...path], CLEARANCE: path, 'FACE-Z': path, SHIFT: shifting,
    HOBBING: [...running, ...setup, ...path, ...marks],
  },
  parameterOf: {
    normalModule: ['MODULE', 'DP'], teeth: 'TEETH', helixAngleDegrees: 'HELIX', gearHand: 'HAND', normalPressureAngleDegrees: 'PRESSURE-ANGLE',
    profileShift: 'PROFILE-SHIFT', faceWidth: 'FACE', tipDiameter: 'TIP-DIA', depth: 'DEPTH', flankClass: 'CLASS', hobTipDiameter: 'HOB-DIA',
    hobStarts: 'HOB-STARTS', hobHand: 'HOB-HAND', hobGashes: 'HOB-GASHES', hobLength: 'HOB-LENGTH', cuttingSpeed: 'SPEED', hobRpm: 'RPM',
    feedPerWorkRevolution: 'FEED', cuts: 'CUTS', clearance: 'CLEARANCE', shift: 'SHIFT',
  },
  rules: (values) => [...exactlyOne(values, 'MODULE', 'DP'), ...exactlyOne(values, 'SPEED', 'RPM')],
  compute: (values, setting) => Object.values(computeHobbing(inputOf(values, setting))).filter((each) => each !== undefined),
  checks: (values, quantities, setting) => [...machineChecks(values, quantities, setting), ...riskChecks(values, quantities, setting)],
  compose: composeHobbing,
});

const millimetresPerInch = 25.4;

/** The module in the program's units: module is a figure in mm, diametral pitch one per inch. */
function moduleLength(values: HobbingValues, { units }: Setting): number {
  const millimetres = values.MODULE ?? millimetresPerInch / (values.DP ?? NaN);
  return units === 'mm' ? millimetres : values.DP === undefined ? millimetres / millimetresPerInch : 1 / values.DP;
}

function inputOf(values: HobbingValues, setting: Setting): HobbingInput {
  const { senses } = setting.card;
  return {
    units: setting.units,
    normalModule: moduleLength(values, setting),
    teeth: values.TEETH,
    helixAngleDegrees: values.HELIX,
    gearHand: handOf(values.HAND),
    normalPressureAngleDegrees: values['PRESSURE-ANGLE'],
    profileShift: values['PROFILE-SHIFT'],
    faceWidth: values.FACE,
    ...given('tipDiameter', values['TIP-DIA']),
    ...given('depth', values.DEPTH),
    flankClass: values.CLASS,
    hobTipDiameter: values['HOB-DIA'],
    hobStarts: values['HOB-STARTS'],
    hobHand: handOf(values['HOB-HAND']),
    hobGashes: values['HOB-GASHES'],
    ...given('hobLength', values['HOB-LENGTH']),
    ...given('cuttingSpeed', values.SPEED),
    ...given('hobRpm', values.RPM),
    feedPerWorkRevolution: values.FEED,
    cuts: values.CUTS,
    climb: values.METHOD === 'CLIMB',
    clearance: values.CLEARANCE,
    shift: values.SHIFT,
    hobSide: hobSide(setting.card),
    workRotationSense: senses.workRotation ?? 1,
  };
}

function given<K extends string>(key: K, value: number | undefined): Partial<Record<K, number>> {
  return value === undefined ? {} : ({ [key]: value } as Record<K, number>);
}

function handOf(hand: 'RIGHT' | 'LEFT'): 1 | -1 {
  return hand === 'RIGHT' ? 1 : -1;
}

/** X points from the work axis toward the tool unless the card puts the hob on the other side. */
function hobSide(card: MachineCard): 1 | -1 {
  return card.senses.hobSide === '-X' ? -1 : 1;
}

function machineChecks(values: HobbingValues, quantity: QuantityLookup, setting: Setting): Problem[] {
  return [...unitChecks(values, quantity, setting), ...speedChecks(values, quantity, setting), ...travelChecks(values, setting)];
}

function unitChecks(values: HobbingValues, quantity: QuantityLookup, { card, units }: Setting): Problem[] {
  const unit = toolUnit(card, 'hobbing');
  if (!unit) return [];
  const problems: Problem[] = [];
  const millimetres = values.MODULE ?? millimetresPerInch / (values.DP ?? NaN);
  if (unit.maxModule !== undefined && millimetres > unit.maxModule + 1e-9) problems.push(moduleBeyond(values, unit.maxModule, unit.name));
  const limit = (parameter: 'HOB-DIA' | 'HOB-LENGTH', most: number | undefined) => {
    const value = values[parameter];
    if (most === undefined || value === undefined || value <= cardLength(most, card, units) + 1e-9) return;
    problems.push(beyondMachine(parameter, shown(value), `more than 0, at most ${shown(cardLength(most, card, units), 4)} ${units === 'mm' ? 'mm' : 'inch'} (${unit.name})`));
  };
  limit('HOB-DIA', unit.maxHobDiameter);
  limit('HOB-LENGTH', unit.maxHobLength);
  const setting = quantity('settingAngle') ?? 0;
  if (unit.maxSetting !== undefined && Math.abs(setting) > unit.maxSetting) {
    problems.push(beyondMachine('HELIX', shown(values.HELIX), `such that the setting angle, now ${shown(setting, 3)} deg, is from -${unit.maxSetting} to ${unit.maxSetting} deg (${unit.name})`));
  }
  return problems;
}

function moduleBeyond(values: HobbingValues, most: number, unit: string): Problem {
  return values.MODULE === undefined
    ? beyondMachine('DP', shown(values.DP ?? NaN), `at least ${shown(millimetresPerInch / most, 3)} (module ${most} mm, ${unit})`)
    : beyondMachine('MODULE', shown(values.MODULE), `more than 0, at most ${most} mm (${unit})`);
}

function speedChecks(values: HobbingValues, quantity: QuantityLookup, { card }: Setting): Problem[] {
  const unit = toolUnit(card, 'hobbing');
  const ratio = unit?.ratio ?? 1;
  const hobRpm = quantity('hobRpm') ?? 0;
  const candidates = [unit?.maxRpm, card.limits.syncHobRpm, card.limits.drivenToolRpm && card.limits.drivenToolRpm / ratio].filter((each) => each !== undefined);
  const most = Math.min(...candidates);
  const parameter = values.RPM === undefined ? 'SPEED' : 'RPM';
  const problems: Problem[] = [];
  if (hobRpm > most + 1e-9) problems.push(beyondMachine(parameter, shown(values[parameter] ?? NaN), `such that the hob, now ${shown(hobRpm, 1)} rev/min, turns at most ${shown(most, 1)} rev/min`));
  const workRpm = quantity('workRpm') ?? 0;
  const mostWork = card.limits.mainSpindleRpm;
  if (mostWork !== undefined && workRpm > mostWork) problems.push(beyondMachine(parameter, shown(values[parameter] ?? NaN), `such that the work, now ${shown(workRpm, 1)} rev/min, turns at most ${mostWork} rev/min`));
  return problems;
}

function travelChecks(values: HobbingValues, setting: Setting): Problem[] {
  const places = placesOf(values, setting);
  const { limits } = setting.card;
  const check = (parameter: string, value: string, axis: 'x' | 'y' | 'z', positions: number[]): Problem[] => {
    const range = limits[axis]?.map((each) => cardLength(each, setting.card, setting.units));
    if (!range) return [];
    const [low = -Infinity, high = Infinity] = range;
    const outside = positions.find((each) => each < low - 1e-9 || each > high + 1e-9);
    if (outside === undefined) return [];
    return [beyondMachine(parameter, value, `such that ${axis.toUpperCase()}, now ${shown(outside, 3)}, is from ${shown(low, 3)} to ${shown(high, 3)}`)];
  };
  return [
    ...check('FACE-Z', shown(values['FACE-Z']), 'z', [places.startZ, places.endZ]),
    ...check('SHIFT', shown(values.SHIFT), 'y', [places.y]),
    ...check('HOB-DIA', shown(values['HOB-DIA']), 'x', places.cutX.concat(places.clearX).map((radius) => (setting.card.diameterProgramming ? 2 * radius : radius))),
  ];
}

/** What is legal and still likely to spoil the gear. */
function riskChecks(values: HobbingValues, quantity: QuantityLookup, setting: Setting): Problem[] {
  const problems: Problem[] = [];
  const warn = (parameter: string, rule: Problem['rule'], message: string) => problems.push({ parameter, rule, severity: 'warning', message });
  const mark = quantity('feedMarkDepth') ?? 0;
  const most = quantity('maxFeedForClass');
  const tolerance = quantity('profileTolerance');
  const unit = setting.units === 'mm' ? 'mm' : 'inch';
  if (tolerance !== undefined && most !== undefined && mark > tolerance) {
    warn('FEED', 'feed-marks', `FEED: ${shown(values.FEED)} leaves feed marks of ${shown(mark)} ${unit}; class ${values.CLASS} allows ${shown(tolerance)} ${unit}: at most ${shown(most, 3)} ${unit}/rev.`);
  }
  if (commonFactor(values.TEETH, values['HOB-STARTS']) > 1) {
    warn('HOB-STARTS', 'common-factor', `HOB-STARTS: ${values['HOB-STARTS']} and ${values.TEETH} teeth have a common factor: each start meets the same teeth again and prints its errors on them (rule of practice, from memory).`);
  }
  const length = values['HOB-LENGTH'];
  const needed = quantity('generatingLength') ?? 0;
  if (length !== undefined && length < needed) {
    problems.push({ parameter: 'HOB-LENGTH', rule: 'hob-too-short', severity: 'error', message: `HOB-LENGTH: ${shown(length)} is not allowed: it must be at least the generating length, ${shown(needed, 3)} ${unit}.` });
  }
  return problems;
}

function commonFactor(first: number, second: number): number {
  return second === 0 ? first : commonFactor(second, first % second);
}

interface Places {
  /** Radii of the hob axis, one a cut, signed by the side on which the hob stands. */
  cutX: number[];
  clearX: number;
  y: number;
  startZ: number;
  endZ: number;
}

/** Where the hob axis goes. Each cut has its own approach; all start from the farthest, so that one safe place serves. */
function placesOf(values: HobbingValues, setting: Setting): Places {
  const input = inputOf(values, setting);
  const cuts = cutsOf(input);
  const figures = computeHobbing(input);
  const side = hobSide(setting.card);
  const shiftZ = figures.shiftZ.value;
  const tipRadii = (figures.tipDiameter.value + values['HOB-DIA']) / 2;
  return {
    cutX: cuts.map((cut) => side * cut.hobAxisToWorkAxis),
    clearX: side * (tipRadii + Math.max(values.CLEARANCE, moduleLength(values, setting))),
    y: figures.shiftY.value,
    startZ: values['FACE-Z'] + Math.max(...cuts.map((cut) => cut.startZOffset)) + shiftZ,
    endZ: values['FACE-Z'] - values.FACE - Math.max(...cuts.map((cut) => cut.endZOffset)) + shiftZ,
  };
}

function composeHobbing(values: HobbingValues, setting: Setting): Composition {
  const writer = new BlockWriter(setting);
  const quantities = computeHobbing(inputOf(values, setting));
  const figures = figuresOf(values, quantities, setting);
  const places = placesOf(values, setting);
  writer.problems.push(...directionProblems(values, setting));
  operatorComments(writer, values, quantities, setting);
  writer.takeModes();
  writer.block('G00', xWord(places.clearX, setting));
  writer.block('G00', lengthWord('Y', places.y, setting), lengthWord('Z', places.startZ, setting));
  writer.optionalCode('workUnclamp');
  writer.code('workAxisOn');
  writer.code(drivenCode(values, setting), figures);
  writer.code('syncOn', figures);
  writer.optionalCode('coolantOn');
  const feed = feedWord(quantities.feedPerMinute.value, setting);
  for (const radius of places.cutX) {
    writer.block('G00', xWord(radius, setting));
    writer.block('G01', lengthWord('Z', places.endZ, setting), feed);
    writer.block('G00', xWord(places.clearX, setting));
    writer.block('G00', lengthWord('Z', places.startZ, setting));
  }
  writer.optionalCode('coolantOff');
  writer.code('syncOff');
  writer.code('drivenStop');
  writer.code('workAxisOff');
  writer.block('G00', lengthWord('Y', 0, setting));
  writer.restoreModes();
  return { lines: writer.lines, problems: writer.problems };
}

type HobbingQuantities = ReturnType<typeof computeHobbing>;

function operatorComments(writer: BlockWriter, values: HobbingValues, quantities: HobbingQuantities, { card }: Setting): void {
  caution.forEach((line) => writer.comment(line));
  const setting = quantities.settingAngle.value;
  const sense = setting < 0 ? 'counter-clockwise' : 'clockwise';
  const unit = unitName(card, 'hobbing');
  if (unit !== '') writer.comment(`Unit: ${unit}`);
  writer.comment(`Swivel the hob axis ${decimal(Math.abs(setting), card.angleDecimals)} deg ${sense}, seen from hob to work, +Z up`);
  writer.comment('X, Y, Z are of the centre of the hob: offsets measured to its axis');
  writer.comment(`Hob ${shown(quantities.hobRpm.value, 1)} rev/min, work ${shown(quantities.workRpm.value, 2)} rev/min, ratio ${values['HOB-STARTS']}/${values.TEETH}`);
}

/** The figures that a template may ask for. What the card does not settle is left out, and becomes a hole. */
function figuresOf(values: HobbingValues, quantities: HobbingQuantities, setting: Setting): Figures {
  const { card } = setting;
  const driveRatio = toolUnit(card, 'hobbing')?.ratio ?? 1;
  const ratio = new Fraction(values['HOB-STARTS']).div(new Fraction(values.TEETH).mul(new Fraction(driveRatio)));
  const plain = driveRatio === 1;
  const signed = !placeholdersOf(card.codes.syncOn).has('hand');
  const handSign = signed ? handOf(values.HAND) : 1;
  const lead = quantities.lead;
  return {
    rpm: (quantities.hobRpm.value * driveRatio).toFixed(0),
    starts: plain ? String(values['HOB-STARTS']) : String(ratio.n),
    teeth: plain ? String(values.TEETH) : String(ratio.d),
    ratio: ratio.valueOf().toFixed(10),
    helix: decimal(handSign * values.HELIX, Math.max(card.angleDecimals, 4)),
    hand: String(handOf(values.HAND)),
    angle: decimal(quantities.settingAngle.value, card.angleDecimals),
    ...(lead === undefined ? {} : { lead: decimal(handSign * lead.value, card.decimals) }),
    ...senseFigure(values, setting),
  };
}

/**
 * The sign of the work rotation for positive hob rotation. It comes from the law
 * of the trade library, and only where the card says which way C counts.
 */
function senseFigure(values: HobbingValues, { card }: Setting): Figures {
  const { workRotation, toolRotation = 1 } = card.senses;
  if (workRotation === undefined) return {};
  const sense = -handOf(values['HOB-HAND']) * hobSide(card) * workRotation * toolRotation;
  return { sense: sense < 0 ? '-' : '' };
}

function drivenCode(values: HobbingValues, { card }: Setting): 'drivenStart' | 'drivenReverse' {
  const wanted = hobRotationSense(values.METHOD === 'CLIMB', -1, hobSide(card));
  return wanted === (card.senses.toolRotation ?? 1) ? 'drivenStart' : 'drivenReverse';
}

/** Directions that the card cannot express or does not state. */
function directionProblems(values: HobbingValues, { card }: Setting): Problem[] {
  if (templateBlocks(card.codes.syncOn).length === 0) return [];
  const placeholders = placeholdersOf(card.codes.syncOn);
  const problems: Problem[] = [];
  const helical = values.HELIX !== 0;
  if (helical && !placeholders.has('helix') && !placeholders.has('lead')) {
    problems.push({ parameter: 'HELIX', cardKey: 'codes.syncOn', rule: 'no-differential', severity: 'error', message: `HELIX: ${shown(values.HELIX)} needs a differential, but codes.syncOn of the machine card has neither {helix} nor {lead}: allowed is 0.` });
  }
  if (!placeholders.has('sense')) problems.push(unsignedSync(values));
  if (card.senses.toolRotation === undefined) {
    problems.push({ cardKey: 'senses.toolRotation', rule: 'unstated-sense', severity: 'warning', message: 'The machine card does not say senses.toolRotation: climb or conventional is right only if drivenStart turns the hob right-handed about +Y.' });
  }
  return problems;
}

function unsignedSync(values: HobbingValues): Problem {
  const left = values['HOB-HAND'] === 'LEFT';
  return {
    ...(left ? { parameter: 'HOB-HAND' } : {}),
    cardKey: 'codes.syncOn',
    rule: 'unstated-sense',
    severity: left ? 'error' : 'warning',
    message: left
      ? 'HOB-HAND: LEFT needs the work to turn the other way, but codes.syncOn of the machine card has no {sense}: allowed is RIGHT.'
      : 'codes.syncOn of the machine card has no {sense}: the direction of the work is not in the block. Prove it before the hob touches.',
  };
}
