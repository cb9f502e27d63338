/**
 * Slotting of internal keyways, by a driven stroke unit or by a tool that stands
 * in the turret while the axes stroke. All figures come from the trade library;
 * this file says which parameter means what there, and in which order a machine
 * does it.
 */
import { toolUnit } from '../machine/card.ts';
import { BOX_CYCLE_DEFAULTS, keyway as computeKeyway, keywayPlan, type KeywayInput, type KeywayPass, type KeywayPlan } from '../trade/keyway.ts';
import { shown } from '../trade/quantity.ts';
import type { RawValues, Values } from './fields.ts';
import { beyondMachine, defineProcess, type Composition, type Problem, type QuantityLookup, type Setting } from './process.ts';
import { angleWord, BlockWriter, cardLength, caution, decimal, feedWord, lengthWord, unitName, xWord } from './words.ts';

const freeTravel = { mm: 2, inch: 0.08 } as const;

const fields = {
  BORE: { kind: 'number', label: 'Bore diameter', dimension: 'length', above: 0, most: 500, help: 'Diameter of the bore that carries the keyway.' },
  WIDTH: { kind: 'number', label: 'Keyway width', dimension: 'length', above: 0, most: 200, optional: true, absent: 'from the standard by bore', help: 'Nominal width. From DIN 6885-1 by bore, in inch programs from ASME B17.1, where it is not given.' },
  DEPTH: { kind: 'number', label: 'Keyway depth', dimension: 'length', above: 0, most: 100, optional: true, absent: 'from the standard by bore', help: 'Depth at the centre line, from the bore (t2). From the standard by bore where it is not given.' },
  FIT: { kind: 'text', label: 'Class of the width', longest: 10, default: 'JS9', form: { pattern: /^([A-Z]{1,2}\d{1,2}|CLASS[12])$/, words: 'an ISO 286 class of a hole such as JS9, P9 or D10, or CLASS1 or CLASS2 of ASME B17.1 in inch programs' }, help: 'Tolerance class of the keyway width.' },
  LENGTH: { kind: 'number', label: 'Keyway length', dimension: 'length', above: 0, most: 1000, help: 'Length of the keyway along Z.' },
  INSERT: { kind: 'number', label: 'Insert width', dimension: 'length', above: 0, most: 200, optional: true, absent: '= WIDTH', help: 'Width of the cutting edge. A narrower one cuts the width in several passes with Y.' },
  METHOD: { kind: 'choice', label: 'Driven unit or static tool', choices: ['DRIVEN', 'STATIC'], default: 'DRIVEN', help: 'DRIVEN: a stroke unit in a driven station strokes. STATIC: the axes stroke with a standing tool.' },
  RPM: { kind: 'number', label: 'Driven tool speed', dimension: 'rpm', above: 0, most: 20000, optional: true, absent: 'needed for DRIVEN', help: 'Revolutions of the driven-tool drive. Strokes a minute are RPM times RATIO.' },
  RATIO: { kind: 'number', label: 'Strokes per revolution', dimension: 'number', above: 0, most: 100, default: 1, help: 'Strokes for one revolution of the drive. The machine card of the unit may say another default.' },
  FEED: { kind: 'number', label: 'Radial feed', dimension: 'feedPerStroke', above: 0, most: 2, help: 'Radial advance for one stroke.' },
  'SPARK-OUT': { kind: 'number', label: 'Spark-out strokes', dimension: 'count', least: 0, most: 1000, whole: true, default: 2, help: 'Strokes at full depth without feed.' },
  'LEAD-IN': { kind: 'number', label: 'Lead-in', dimension: 'length', least: 0, most: 100, default: freeTravel, help: 'Free travel before the cut.' },
  'LEAD-OUT': { kind: 'number', label: 'Lead-out', dimension: 'length', least: 0, most: 100, default: freeTravel, help: 'Free travel behind the cut.' },
  STROKE: { kind: 'number', label: 'Stroke set on the unit', dimension: 'length', above: 0, most: 2000, optional: true, absent: 'computed', help: 'Stroke as set on the unit: at least length, lead-in and lead-out together.' },
  COUNT: { kind: 'number', label: 'Number of keyways', dimension: 'count', least: 1, most: 360, whole: true, default: 1, help: 'Keyways, evenly spaced.' },
  ANGLE: { kind: 'number', label: 'Angle of the first keyway', dimension: 'angle', least: -360, most: 360, default: 0, help: 'C position of the first keyway.' },
  RELIEF: { kind: 'number', label: 'Relief groove width', dimension: 'length', least: 0, most: 1000, default: 0, help: 'Width of the groove into which a blind keyway runs; 0 for a through keyway.' },
  'FACE-Z': { kind: 'number', label: 'Z of the front face', dimension: 'length', least: -10000, most: 10000, default: 0, help: 'Z of the face where the stroke enters. The keyway reaches from here toward -Z.' },
  SPEED: { kind: 'number', label: 'Cutting speed', dimension: 'surfaceSpeed', above: 0, most: 200, optional: true, absent: 'needed for STATIC', help: 'STATIC: speed of the cutting stroke.' },
} as const;

type KeywayValues = Values<typeof fields>;

const strokes = ['strokesPerMinute', 'strokeTime', 'peakSpeed', 'meanSpeed', 'strokes', 'cuttingTime'] as const;
const feeding = ['feedPerMinute', 'strokes', 'radialDepth', 'cuttingTime'] as const;
const strokeFigures = ['strokeLength', 'peakSpeed', 'meanSpeed', 'strokeTime'] as const;
const section = ['overallDimension', 'bottomX', 'firstContactX', 'sagitta', 'radialDepth'] as const;
const width = ['widthUpper', 'widthLower', 'firstContactX', 'sagitta', 'radialDepth'] as const;

export const keyway = defineProcess({
  id: 'keyway',
  keyword: 'KEYWAY',
  title: 'Keyway',
  summary: 'Slots internal keyways by fast strokes, with a driven stroke unit or a static tool.',
  fields,
  keyQuantities: ['strokesPerMinute', 'strokeTime', 'strokeLength', 'peakSpeed', 'firstContactX', 'bottomX', 'strokes', 'cuttingTime'],
  governs: {
    S: strokes, F: feeding, T: strokeFigures, sync: strokes,
    BORE: [...section, 'widthUpper', 'widthLower'], WIDTH: width, DEPTH: section, FIT: width, LENGTH: strokeFigures, INSERT: ['strokes', 'cuttingTime', 'firstContactX'],
    METHOD: strokes, RPM: strokes, RATIO: strokes, FEED: feeding, 'SPARK-OUT': ['strokes', 'cuttingTime', 'strokeTime'],
    'LEAD-IN': strokeFigures, 'LEAD-OUT': strokeFigures, STROKE: strokeFigures, COUNT: ['cuttingTime', 'strokes'], ANGLE: ['overallDimension', 'bottomX'],
    RELIEF: strokeFigures, 'FACE-Z': strokeFigures, SPEED: ['strokeTime', 'strokesPerMinute', 'cuttingTime', 'strokes'],
    KEYWAY: [...strokes, 'strokeLength', ...section, 'widthUpper', 'widthLower', 'feedPerMinute'],
  },
  parameterOf: {
    boreDiameter: 'BORE', width: 'WIDTH', depth: 'DEPTH', fit: 'FIT', length: 'LENGTH', insertWidth: 'INSERT', method: 'METHOD', toolRpm: 'RPM', strokeRatio: 'RATIO',
    feedPerStroke: 'FEED', sparkOutStrokes: 'SPARK-OUT', leadIn: 'LEAD-IN', leadOut: 'LEAD-OUT', stroke: 'STROKE', count: 'COUNT', startAngleDegrees: 'ANGLE',
    relief: 'RELIEF', cuttingSpeed: 'SPEED', nominal: 'WIDTH', grade: 'FIT', clearance: 'BORE',
  },
  cardDefaults: unitDefaults,
  rules: methodRules,
  compute: (values, setting) => Object.values(computeKeyway(inputOf(values, setting))),
  checks: unitChecks,
  compose: composeKeyway,
});

/** What the card says of the stroke unit comes before the plain defaults. */
function unitDefaults({ card, units }: Setting): RawValues {
  const unit = toolUnit(card, 'stroke');
  if (!unit) return {};
  const lengths = { 'LEAD-IN': unit.leadIn, 'LEAD-OUT': unit.leadOut };
  const stated = Object.entries(lengths).filter((each): each is [string, number] => each[1] !== undefined);
  return { ...Object.fromEntries(stated.map(([name, length]) => [name, String(cardLength(length, card, units))])), RATIO: String(unit.ratio) };
}

function methodRules(values: Partial<KeywayValues>, { units }: Setting): Problem[] {
  const needed = values.METHOD === 'DRIVEN' ? 'RPM' : 'SPEED';
  if (values[needed] !== undefined) return [];
  const what = needed === 'RPM' ? 'speed of the driven tool, more than 0, at most 20000 rev/min' : `speed of the cutting stroke, more than 0, in ${units === 'mm' ? 'm/min' : 'ft/min'}`;
  return [{ parameter: needed, rule: 'missing-parameter', severity: 'error', message: `${needed} is missing: METHOD=${values.METHOD} needs the ${what}.` }];
}

function inputOf(values: KeywayValues, { units, card }: Setting): KeywayInput {
  const optional = { width: values.WIDTH, depth: values.DEPTH, insertWidth: values.INSERT, toolRpm: values.RPM, stroke: values.STROKE, cuttingSpeed: values.SPEED };
  return {
    units,
    boreDiameter: values.BORE,
    fit: values.FIT,
    length: values.LENGTH,
    method: values.METHOD === 'DRIVEN' ? 'driven' : 'static',
    strokeRatio: values.RATIO,
    feedPerStroke: values.FEED,
    sparkOutStrokes: values['SPARK-OUT'],
    leadIn: values['LEAD-IN'],
    leadOut: values['LEAD-OUT'],
    count: values.COUNT,
    startAngleDegrees: values.ANGLE,
    relief: values.RELIEF,
    diameterProgramming: card.diameterProgramming,
    xFeedOnDiameter: card.xFeedOnDiameter,
    ...Object.fromEntries(Object.entries(optional).filter(([, value]) => value !== undefined)),
  };
}

function unitChecks(values: KeywayValues, quantity: QuantityLookup, setting: Setting): Problem[] {
  if (values.METHOD === 'STATIC') return [];
  return [...strokeChecks(values, quantity, setting), ...rateChecks(values, quantity, setting), ...insertChecks(values, setting)];
}

function strokeChecks(values: KeywayValues, quantity: QuantityLookup, { card, units }: Setting): Problem[] {
  const unit = toolUnit(card, 'stroke');
  if (unit?.totalStroke === undefined) return [];
  const most = cardLength(unit.totalStroke, card, units);
  if ((quantity('strokeLength') ?? 0) <= most + 1e-9) return [];
  const unitOfLength = units === 'mm' ? 'mm' : 'inch';
  if (values.STROKE !== undefined) return [beyondMachine('STROKE', shown(values.STROKE), `at most ${shown(most, 4)} ${unitOfLength} (${unit.name})`)];
  const longest = most - values['LEAD-IN'] - values['LEAD-OUT'];
  return [beyondMachine('LENGTH', shown(values.LENGTH), `more than 0, at most ${shown(longest, 4)} ${unitOfLength}: the stroke of ${shown(most, 4)} less lead-in and lead-out (${unit.name})`)];
}

function rateChecks(values: KeywayValues, quantity: QuantityLookup, { card }: Setting): Problem[] {
  const unit = toolUnit(card, 'stroke');
  const rate = quantity('strokesPerMinute') ?? 0;
  const problems: Problem[] = [];
  const byRate = unit?.maxStrokesPerMinute === undefined ? Infinity : unit.maxStrokesPerMinute / values.RATIO;
  const most = Math.min(byRate, card.limits.drivenToolRpm ?? Infinity);
  if (values.RPM !== undefined && values.RPM > most + 1e-9) {
    problems.push(beyondMachine('RPM', shown(values.RPM), `more than 0, at most ${shown(most, 1)} rev/min (now ${shown(rate, 1)} strokes a minute${unit ? `, ${unit.name}` : ''})`));
  }
  return problems;
}

function insertChecks(values: KeywayValues, setting: Setting): Problem[] {
  const unit = toolUnit(setting.card, 'stroke');
  if (unit?.maxInsertWidth === undefined) return [];
  const most = cardLength(unit.maxInsertWidth, setting.card, setting.units);
  const insert = keywayPlan(inputOf(values, setting)).insertWidth;
  if (insert <= most + 1e-9) return [];
  const advice = values.INSERT === undefined ? '; give a narrower INSERT, which cuts the width in several passes' : '';
  return [beyondMachine('INSERT', shown(insert), `more than 0, at most ${shown(most, 4)} ${setting.units === 'mm' ? 'mm' : 'inch'} (${unit.name})${advice}`)];
}

/** Radial gap at which the feed starts, so that a rapid never ends on the work. Common practice, no source. */
const entryGap = { mm: 0.5, inch: 0.02 } as const;

/** A static cut with more passes than this is a slip of the keys, or a block that nobody can check. */
const mostExpandedPasses = 2000;

function composeKeyway(values: KeywayValues, setting: Setting): Composition {
  const plan = keywayPlan(inputOf(values, setting));
  const writer = new BlockWriter(setting);
  operatorComments(writer, values, plan, setting);
  writer.takeModes();
  const retract = Math.max(0, Math.min(...plan.passes.map((pass) => pass.startRadius)) - entryGap[setting.units]);
  writer.block('G00', xWord(retract, setting));
  writer.block('G00', lengthWord('Y', 0, setting), lengthWord('Z', values['FACE-Z'] + plan.strokeStartZOffset, setting));
  writer.code('workAxisOn');
  if (values.METHOD === 'DRIVEN') driveKeyways(writer, values, plan, retract, setting);
  else strokeKeyways(writer, values, plan, retract, setting);
  writer.code('workUnclamp');
  writer.code('workAxisOff');
  writer.restoreModes();
  return { lines: writer.lines, problems: [...writer.problems, ...passLimit(values, plan)] };
}

function operatorComments(writer: BlockWriter, values: KeywayValues, plan: KeywayPlan, setting: Setting): void {
  caution.forEach((line) => writer.comment(line));
  const length = (value: number) => decimal(value, setting.card.decimals);
  if (values.METHOD === 'DRIVEN') {
    const unit = unitName(setting.card, 'stroke');
    if (unit !== '') writer.comment(`Unit: ${unit}`);
    writer.comment(`Set stroke ${length(plan.strokeLength)}: lead-in ${length(values['LEAD-IN'])}, lead-out ${length(values['LEAD-OUT'])}`);
    writer.comment('Z is of the insert at the outer end of its stroke, X of its edge');
    writer.comment(`${shown(plan.strokesPerMinute, 1)} strokes/min, ${shown(plan.secondsPerStroke, 4)} s a stroke`);
  } else {
    writer.comment('Static tool: Z and X are of the insert edge');
  }
  writer.comment(`Keyway ${length(plan.width)} ${values.FIT} wide, bore and keyway ${length(values.BORE + plan.depth)}`);
}

function driveKeyways(writer: BlockWriter, values: KeywayValues, plan: KeywayPlan, retract: number, setting: Setting): void {
  writer.code('drivenStart', { rpm: (values.RPM ?? NaN).toFixed(0) });
  writer.optionalCode('coolantOn');
  const feed = feedWord(plan.feedPerMinute, setting);
  const dwell = { seconds: decimal(plan.dwellSecondsForSparkOut, 3) };
  for (const angle of plan.anglesDegrees) {
    indexWork(writer, angle, setting);
    for (const pass of plan.passes) {
      offsetPass(writer, pass, plan, setting);
      const start = Math.max(0, pass.startRadius - entryGap[setting.units]);
      if (start !== retract) writer.block('G00', xWord(start, setting));
      writer.block('G01', xWord(plan.floorRadius, setting), feed);
      if (values['SPARK-OUT'] > 0) writer.code('dwell', dwell);
      writer.block('G00', xWord(retract, setting));
    }
  }
  writer.optionalCode('coolantOff');
  writer.code('drivenStop');
  returnToCentre(writer, plan, setting);
}

function strokeKeyways(writer: BlockWriter, values: KeywayValues, plan: KeywayPlan, retract: number, setting: Setting): void {
  const { box } = plan;
  if (!box || plan.totalStrokes > mostExpandedPasses) return;
  writer.optionalCode('coolantOn');
  for (const angle of plan.anglesDegrees) {
    indexWork(writer, angle, setting);
    for (const pass of plan.passes) {
      offsetPass(writer, pass, plan, setting);
      for (const radius of strokeRadii(pass, plan, values)) strokeOnce(writer, values, plan, radius, setting);
      writer.block('G00', xWord(retract, setting));
    }
  }
  writer.optionalCode('coolantOff');
  returnToCentre(writer, plan, setting);
}

function indexWork(writer: BlockWriter, angle: number, setting: Setting): void {
  writer.code('workUnclamp');
  writer.block('G00', angleWord('C', angle, setting));
  writer.code('workClamp');
}

function offsetPass(writer: BlockWriter, pass: KeywayPass, plan: KeywayPlan, setting: Setting): void {
  if (plan.passes.length > 1) writer.block('G00', lengthWord('Y', pass.offsetY, setting));
}

function returnToCentre(writer: BlockWriter, plan: KeywayPlan, setting: Setting): void {
  if (plan.passes.length > 1) writer.block('G00', lengthWord('Y', 0, setting));
}

/** The radius of every stroke of a pass: feed by feed from the first contact to the floor, then the spark-out strokes. */
function strokeRadii(pass: KeywayPass, plan: KeywayPlan, values: KeywayValues): number[] {
  const feeding = Array.from({ length: pass.feedStrokes }, (_, index) => Math.min(plan.floorRadius, pass.contactRadius + (index + 1) * values.FEED));
  return [...feeding, ...Array.from({ length: values['SPARK-OUT'] }, () => plan.floorRadius)];
}

/** In with X before the face, cut along Z, lift off, back along Z: the corners of a box. */
function strokeOnce(writer: BlockWriter, values: KeywayValues, plan: KeywayPlan, radius: number, setting: Setting): void {
  const { box } = plan;
  const lift = box?.liftOff ?? BOX_CYCLE_DEFAULTS[setting.units].liftOff;
  const place = (offset: number) => lengthWord('Z', values['FACE-Z'] + offset, setting);
  writer.block('G00', xWord(radius, setting));
  writer.block('G01', place(plan.strokeEndZOffset), feedWord(box?.cutFeed ?? NaN, setting));
  writer.block('G00', xWord(Math.max(0, radius - lift), setting));
  writer.block('G00', place(plan.strokeStartZOffset));
}

function passLimit(values: KeywayValues, plan: KeywayPlan): Problem[] {
  if (values.METHOD === 'DRIVEN' || plan.totalStrokes <= mostExpandedPasses) return [];
  return [{ parameter: 'FEED', rule: 'too-many-strokes', severity: 'error', message: `FEED: ${shown(values.FEED)} makes ${plan.totalStrokes} strokes; a static cut is written out stroke by stroke, at most ${mostExpandedPasses}.` }];
}
