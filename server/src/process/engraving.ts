/**
 * Engraving of a text with a small pointed cutter, on a face or round a
 * cylinder. Figures and letter strokes come from the trade library; this file
 * says which parameter means what there, and in which order a machine does it.
 */
import { toolUnit } from '../machine/card.ts';
import { engraving as computeEngraving, engravingFeed, engravingPath, farthestFromAxis, minutesOfSteps, plungeFeed, type CylinderPath, type EngravingInput, type FacePath } from '../trade/engraving.ts';
import { shown } from '../trade/quantity.ts';
import type { Values } from './fields.ts';
import { beyondTravel } from './machine-travel.ts';
import { beyondMachine, defineProcess, type Composition, type Problem, type QuantityLookup, type Setting } from './process.ts';
import { cutterSpeeds, ofDrive } from './unit-speeds.ts';
import { engravingHints } from './usual-ranges.ts';
import { BlockWriter, cardLength, caution, feedWord, speedFigure, unitName, xWord } from './words.ts';
import { senseOf, spindleField, subSpindleRules, workCode, workWord, yWord, zWord } from './work-side.ts';

const fields = {
  TEXT: { kind: 'text', label: 'Text', longest: 100, help: 'Letters, digits and signs; a text with spaces stands in double quotes.' },
  HEIGHT: { kind: 'number', label: 'Letter height', dimension: 'length', above: 0, most: 200, help: 'Height of the capitals.' },
  DEPTH: { kind: 'number', label: 'Depth', dimension: 'length', above: 0, most: 5, help: 'Depth below the surface.' },
  'TIP-DIA': { kind: 'number', label: 'Tip diameter', dimension: 'length', least: 0, most: 20, help: 'Diameter of the flat at the tip of the cutter.' },
  'TIP-ANGLE': { kind: 'number', label: 'Included tip angle', dimension: 'angle', least: 0, most: 179, help: 'Included angle of the cutter; 0 for a straight one.' },
  FLUTES: { kind: 'number', label: 'Flutes', dimension: 'count', least: 1, most: 12, whole: true, help: 'Cutting edges of the cutter.' },
  RPM: { kind: 'number', label: 'Cutter speed', dimension: 'rpm', above: 0, most: 200000, help: 'Revolutions of the cutter.' },
  'CHIP-LOAD': { kind: 'number', label: 'Chip load', dimension: 'chipLoad', above: 0, most: 0.5, help: 'Feed of one tooth.' },
  SURFACE: { kind: 'choice', label: 'Surface', choices: ['FACE', 'CYLINDER'], default: 'FACE', help: 'FACE: on the face of the work. CYLINDER: wrapped round its outside.' },
  DIA: { kind: 'number', label: 'Cylinder diameter', dimension: 'length', above: 0, most: 2000, optional: true, absent: 'needed for CYLINDER', help: 'CYLINDER: its diameter. FACE: diameter of the face, where it is given; the text must lie inside it.' },
  ANGLE: { kind: 'number', label: 'Angle', dimension: 'angle', least: -360, most: 360, default: 0, help: 'Place of the start of the text on the work, counter-clockwise as seen by somebody who looks at its face.' },
  'AT-Z': { kind: 'number', label: 'Z of the baseline', dimension: 'length', least: -10000, most: 10000, optional: true, absent: 'needed for CYLINDER', help: 'CYLINDER: Z on which the letters stand.' },
  'AT-X': { kind: 'number', label: 'X of the baseline', dimension: 'length', least: -2000, most: 2000, optional: true, absent: 'needed for FACE', help: 'FACE: X word on which the letters stand, a diameter where X words are diameters.' },
  'FACE-Z': { kind: 'number', label: 'Z of the face', dimension: 'length', least: -10000, most: 10000, default: 0, help: 'FACE: Z of the surface.' },
  'RUN-OUT': { kind: 'number', label: 'Run-out', dimension: 'length', least: 0, most: 1, default: { mm: 0.005, inch: 0.0002 }, help: 'Total indicated run-out at the tip.' },
  ...spindleField,
} as const;

type EngravingValues = Values<typeof fields>;

const tool = ['cuttingSpeed', 'effectiveDiameter', 'feedPerMinute', 'runOutShare'] as const;
const line = ['lineWidth', 'effectiveDiameter', 'cuttingSpeed'] as const;
const feeding = ['feedPerMinute', 'runOutShare', 'cuttingTime', 'pathLength'] as const;
const path = ['pathLength', 'cuttingTime', 'lineWidth'] as const;

export const engraving = defineProcess({
  id: 'engraving',
  keyword: 'ENGRAVING',
  title: 'Engraving',
  summary: 'Engraves a text in single-stroke letters on a face or round a cylinder.',
  fields,
  keyQuantities: ['lineWidth', 'cuttingSpeed', 'feedPerMinute', 'runOutShare', 'pathLength', 'cuttingTime'],
  governs: {
    S: tool, F: feeding, T: line, sync: tool,
    TEXT: path, HEIGHT: path, DEPTH: line, 'TIP-DIA': line, 'TIP-ANGLE': line, FLUTES: ['feedPerMinute', 'runOutShare'], RPM: ['cuttingSpeed', 'feedPerMinute', 'cuttingTime'],
    'CHIP-LOAD': ['feedPerMinute', 'runOutShare', 'cuttingTime'], SURFACE: path, DIA: path, ANGLE: path, 'AT-Z': path, 'AT-X': path, 'FACE-Z': path, 'RUN-OUT': ['runOutShare', 'lineWidth'], SPINDLE: path,
    ENGRAVING: [...line, ...feeding],
  },
  parameterOf: {
    text: 'TEXT', height: 'HEIGHT', depth: 'DEPTH', tipDiameter: 'TIP-DIA', tipAngleDegrees: 'TIP-ANGLE', flutes: 'FLUTES', rpm: 'RPM', chipLoad: 'CHIP-LOAD', feed: 'CHIP-LOAD',
    cylinderDiameter: 'DIA', startAngleDegrees: 'ANGLE', atZ: 'AT-Z', atRadius: 'AT-X', runOut: 'RUN-OUT',
  },
  rules: (values, setting) => [...surfaceRules(values), ...senseRules(values, setting)],
  compute: (values, setting) => Object.values(computeEngraving(inputOf(values, setting))),
  hints: (_values, { units }) => engravingHints(units),
  checks: (values, quantity, setting) => [...speedChecks(values, setting), ...runOutChecks(values, quantity), ...placeChecks(values, quantity, setting)],
  compose: composeEngraving,
});

function surfaceRules(values: Partial<EngravingValues>): Problem[] {
  const needed = values.SURFACE === 'FACE' ? (['AT-X'] as const) : (['DIA', 'AT-Z'] as const);
  return needed.filter((name) => values[name] === undefined).map((name) => ({
    parameter: name, rule: 'missing-parameter', severity: 'error', message: `${name} is missing: SURFACE=${values.SURFACE} needs it. ${fields[name].help}`,
  }));
}

/** By a wrong sense the text would be mirrored or stand in another place, so the card must state it. */
function senseRules(values: Partial<EngravingValues>, setting: Setting): Problem[] {
  const { SURFACE: surface, SPINDLE: spindle = 'MAIN' } = values;
  const turns = surface === 'CYLINDER' || (values.ANGLE ?? 0) !== 0;
  if (spindle === 'SUB') return subSpindleRules(spindle, ['zSense', ...(surface === 'FACE' ? (['ySense'] as const) : []), ...(turns ? (['workRotation'] as const) : [])], setting);
  if (!turns || senseOf(setting.card, spindle, 'workRotation') !== undefined) return [];
  const parameter = surface === 'CYLINDER' ? 'SURFACE' : 'ANGLE';
  return [{ parameter, cardKey: 'senses.workRotation', rule: 'unstated-sense', severity: 'error', message: `${parameter}: ${values[parameter]} needs the sense of C, and the machine card does not say senses.workRotation: allowed is ${parameter === 'SURFACE' ? 'FACE' : '0'} until it does.` }];
}

function inputOf(values: EngravingValues, { units, card }: Setting): EngravingInput {
  const atX = values['AT-X'] ?? 0;
  return {
    units,
    text: values.TEXT,
    height: values.HEIGHT,
    depth: values.DEPTH,
    tipDiameter: values['TIP-DIA'],
    tipAngleDegrees: values['TIP-ANGLE'],
    flutes: values.FLUTES,
    rpm: values.RPM,
    chipLoad: values['CHIP-LOAD'],
    runOut: values['RUN-OUT'],
    surface: values.SURFACE === 'FACE' ? 'face' : 'cylinder',
    ...(values.DIA === undefined ? {} : { cylinderDiameter: values.DIA }),
    startAngleDegrees: values.ANGLE,
    atRadius: card.diameterProgramming ? atX / 2 : atX,
    atZ: values['AT-Z'] ?? 0,
  };
}

function speedChecks(values: EngravingValues, { card }: Setting): Problem[] {
  const unit = toolUnit(card, 'highSpeed');
  const { least, most } = cutterSpeeds(card);
  if (values.RPM >= least && values.RPM <= most) return [];
  return [beyondMachine('RPM', shown(values.RPM), `from ${shown(least)} to ${shown(most, 1)} rev/min${unit ? ` (${unit.name})` : ''}`)];
}

function runOutChecks(values: EngravingValues, quantity: QuantityLookup): Problem[] {
  if ((quantity('runOutShare') ?? 0) < 1) return [];
  return [{ parameter: 'CHIP-LOAD', rule: 'tooth-not-cutting', severity: 'warning', message: `CHIP-LOAD: ${shown(values['CHIP-LOAD'], 6)} is less than what run-out takes away: a tooth no longer cuts, the others take its share.` }];
}

/** Whether a text on a face lies on it, and whether all axes reach the text. */
function placeChecks(values: EngravingValues, quantity: QuantityLookup, setting: Setting): Problem[] {
  const place = engravingPath(inputOf(values, setting));
  if (place.surface === 'cylinder') return cylinderTravel(values, place, setting);
  return [...rimChecks(values, 2 * farthestFromAxis(place) + (quantity('lineWidth') ?? 0), setting), ...faceTravel(values, place, setting)];
}

function rimChecks({ DIA: diameter }: EngravingValues, reach: number, { units }: Setting): Problem[] {
  if (diameter === undefined || reach <= diameter + 1e-9) return [];
  const unit = units === 'mm' ? 'mm' : 'inch';
  return [{ parameter: 'TEXT', rule: 'text-off-face', severity: 'error', message: `TEXT reaches to a diameter of ${shown(reach, 3)} ${unit}, and the face has ${shown(diameter)}: it must be shorter, smaller (HEIGHT) or nearer to the axis (AT-X).` }];
}

function faceTravel(values: EngravingValues, place: FacePath, setting: Setting): Problem[] {
  const { 'FACE-Z': faceZ, DEPTH: depth } = values;
  return [
    ...beyondTravel('AT-X', 'x', place.strokes.flat().map(({ x }) => asProgrammed(x, setting)), setting),
    ...yTravel(place, setting),
    ...zTravel('FACE-Z', values, [faceZ + standOff[setting.units], faceZ - depth], setting),
  ];
}

function cylinderTravel(values: EngravingValues, place: CylinderPath, setting: Setting): Problem[] {
  const surface = place.diameter / 2;
  return [
    ...beyondTravel('DIA', 'x', [surface + standOff[setting.units], surface - values.DEPTH].map((radius) => asProgrammed(radius, setting)), setting),
    ...zTravel('AT-Z', values, place.strokes.flat().map(({ z }) => z), setting),
  ];
}

/** The card's limits count from the zero of the main spindle, so Z in the sub-spindle is not judged by them. */
function zTravel(parameter: string, { SPINDLE: spindle }: EngravingValues, places: readonly number[], setting: Setting): Problem[] {
  return spindle === 'MAIN' ? beyondTravel(parameter, 'z', places, setting) : [];
}

function asProgrammed(radius: number, { card }: Setting): number {
  return card.diameterProgramming ? 2 * radius : radius;
}

function yTravel(place: FacePath, { card, units }: Setting): Problem[] {
  const [low = -Infinity, high = Infinity] = card.limits.y?.map((each) => cardLength(each, card, units)) ?? [];
  const reach = Math.max(...place.strokes.flat().map(({ y }) => Math.abs(y)));
  if (reach <= Math.min(-low, high) + 1e-9) return [];
  return [beyondMachine('TEXT', `a text that reaches ${shown(reach, 3)} along Y`, `such that Y is from ${shown(low, 3)} to ${shown(high, 3)}`)];
}

/** How far the tip stands off the surface between strokes. Common practice, no source. */
const standOff = { mm: 0.5, inch: 0.02 } as const;

function composeEngraving(values: EngravingValues, setting: Setting): Composition {
  const writer = new BlockWriter(setting, { feed: 'CHIP-LOAD', speed: 'RPM' });
  const input = inputOf(values, setting);
  const place = engravingPath(input);
  operatorComments(writer, values, setting);
  writer.takeModes(values.SPINDLE);
  writer.code(workCode(values.SPINDLE, 'axisOn'));
  if (place.surface === 'face') engraveFace(writer, values, place, input, setting);
  else engraveCylinder(writer, values, place, input, setting);
  writer.coolant('coolantOff');
  writer.code('drivenStop');
  writer.code(workCode(values.SPINDLE, 'axisOff'));
  writer.restoreModes();
  return { lines: writer.lines, problems: writer.problems };
}

function operatorComments(writer: BlockWriter, values: EngravingValues, { card }: Setting): void {
  caution.forEach((text) => writer.comment(text));
  const unit = unitName(card, 'highSpeed');
  if (unit !== '') writer.comment(`Unit: ${unit}`);
  if (values.SPINDLE === 'SUB') writer.comment('Work in the sub-spindle: the cutter must point to it');
  const where = values.SURFACE === 'FACE' ? 'face, cutter along Z' : 'cylinder, cutter along X';
  writer.comment(`Engraves on the ${where}: offsets measured to the tip`);
  writer.comment(values.SURFACE === 'FACE' ? 'Start from a clear place in front of the work: X and Y move first' : 'Start from a clear place outside the cylinder: C, Y and Z move first');
}

function startCutter(writer: BlockWriter, values: EngravingValues, { card }: Setting): void {
  const ratio = toolUnit(card, 'highSpeed')?.ratio ?? 1;
  writer.code('drivenStart', { rpm: speedFigure(values.RPM * ratio, ofDrive(cutterSpeeds(card), ratio)) });
  writer.coolant('coolantOn');
}

function engraveFace(writer: BlockWriter, values: EngravingValues, place: FacePath, input: EngravingInput, setting: Setting): void {
  const { SPINDLE: spindle, 'FACE-Z': faceZ } = values;
  const above = zWord(faceZ, standOff[setting.units], spindle, setting);
  const bottom = zWord(faceZ, -values.DEPTH, spindle, setting);
  const feed = feedWord(engravingFeed(input), setting);
  const plunge = feedWord(plungeFeed(input), setting);
  const words = place.strokes.map((stroke) => stroke.map(({ x, y }) => [xWord(x, setting), yWord(y, spindle, setting)]));
  writer.block('G00', ...(words[0]?.[0] ?? []));
  writer.block('G00', above);
  writer.codeOfPair(workCode(spindle, 'unclamp'), workCode(spindle, 'clamp'));
  writer.block('G00', workWord(place.angleDegrees, spindle, setting));
  writer.code(workCode(spindle, 'clamp'));
  startCutter(writer, values, setting);
  for (const [start = [], ...rest] of words) {
    writer.block('G00', ...start);
    writer.block('G01', bottom, plunge);
    rest.forEach((point, index) => writer.block('G01', ...point, ...(index === 0 ? [feed] : [])));
    writer.block('G00', above);
  }
  writer.block('G00', yWord(0, spindle, setting));
  writer.code(workCode(spindle, 'unclamp'));
}

/**
 * The tool goes down in X only above the first stroke: before that it may stand
 * anywhere along the work. C and Z move together in the cut, and the definitions
 * differ on what F means then. Inverse time says it without doubt: each block
 * takes 1/F minutes.
 */
function engraveCylinder(writer: BlockWriter, values: EngravingValues, place: CylinderPath, input: EngravingInput, setting: Setting): void {
  const { SPINDLE: spindle, 'AT-Z': atZ = 0 } = values;
  const surface = place.diameter / 2;
  const above = xWord(surface + standOff[setting.units], setting);
  const bottom = xWord(surface - values.DEPTH, setting);
  const plunge = feedWord(plungeFeed(input) * (setting.card.xFeedOnDiameter ? 2 : 1), setting);
  const wordsOf = (stroke: CylinderPath['strokes'][number]) => stroke.map((point) => [workWord(point.angleDegrees, spindle, setting), zWord(atZ, point.z - atZ, spindle, setting)]);
  writer.codeOfPair(workCode(spindle, 'unclamp'), workCode(spindle, 'clamp'));
  writer.block('G00', ...(wordsOf(place.strokes[0] ?? [])[0] ?? []), yWord(0, spindle, setting));
  writer.block('G00', above);
  startCutter(writer, values, setting);
  for (const stroke of place.strokes) {
    const words = wordsOf(stroke);
    const minutes = minutesOfSteps(stroke, place.diameter, engravingFeed(input));
    writer.block('G00', ...(words[0] ?? []));
    writer.block('G01', bottom, plunge);
    writer.code('inverseTime');
    words.slice(1).forEach((point, index) => writer.block('G01', ...point, feedWord(1 / (minutes[index] ?? NaN), setting)));
    writer.code('feedPerMinute');
    writer.block('G00', above);
  }
}
