/**
 * Writes the block of a hobbing job: what the operator must set, then the order
 * in which a machine does it. Every sign comes from the trade library's law and
 * the senses of the card; what the card does not settle becomes a hole.
 */
import Fraction from 'fraction.js';
import { toolUnit, type CodeName } from '../machine/card.ts';
import { hole, placeholdersOf, type Figures } from '../machine/template.ts';
import { degrees } from '../trade/angles.ts';
import { settingAngleRadians } from '../trade/hobbing-law.ts';
import { shown } from '../trade/quantity.ts';
import { directionProblems, drivenCode, senseFigure, senseKey } from './hobbing-directions.ts';
import type { HobbingValues } from './hobbing-fields.ts';
import { differentialOf, handOf, hobbingJob, incrementalC, turnForPlaceDegrees, turnForTravelDegrees, workRotationOf, type CutPlace, type Differential, type HobbingJob } from './hobbing-job.ts';
import { helixSignOf, syncCode, syncTemplate } from './hobbing-senses.ts';
import type { Composition, Problem, Setting } from './process.ts';
import { senseOf, workCode, yWord, zWord } from './work-side.ts';
import { hobSpeeds, ofDrive } from './unit-speeds.ts';
import { angleWord, BlockWriter, caution, decimal, feedWord, speedFigure, unitName, xWord } from './words.ts';

export function composeHobbing(values: HobbingValues, setting: Setting): Composition {
  const writer = new BlockWriter(setting, { feed: 'FEED', speed: values.RPM === undefined ? 'SPEED' : 'RPM' });
  const job = hobbingJob(values, setting);
  writer.problems.push(...directionProblems(values, setting.card));
  writeOperatorComments(writer, values, job, setting);
  writer.takeModes(values.SPINDLE);
  writeStart(writer, values, job, setting);
  writeCuts(writer, values, job, setting);
  writeEnd(writer, values, job, setting);
  return { lines: writer.lines, problems: writer.problems };
}

/** C words that follow count from a stated C. */
function writeStart(writer: BlockWriter, values: HobbingValues, job: HobbingJob, setting: Setting): void {
  const figures = figuresOf(values, job, setting);
  const syncOn = syncCode(setting.card, values.SPINDLE, 'syncOn');
  writeApproach(writer, values, job, setting);
  writer.codeOfPair(workCode(values.SPINDLE, 'unclamp'), workCode(values.SPINDLE, 'clamp'));
  writer.code(workCode(values.SPINDLE, 'axisOn'));
  if (turnsByC(differentialOf(values, setting.card))) writer.block('G00', angleWord('C', 0, setting));
  if (values['TOOTH-ANGLE'] !== undefined && !placeholdersOf(syncTemplate(setting.card, values.SPINDLE)).has('phase')) writePhaseHole(writer, values['TOOTH-ANGLE'], syncOn);
  const keys = { sense: senseKey(values, setting.card) };
  writer.code(drivenCode(values, setting.card), figures, keys);
  writer.code(syncOn, figures, keys);
  writer.coolant('coolantOn');
}

/** The hob must be clear of the work before anything else moves: beside it where X leads away from the work, in front of it where X leads across. */
function writeApproach(writer: BlockWriter, values: HobbingValues, job: HobbingJob, setting: Setting): void {
  if (job.crossingOffset !== undefined) writer.block('G00', placeWord(job.crossingOffset, values, setting));
  writer.block('G00', xWord(job.clearRadius, setting));
  writer.block('G00', yWord(job.shift.deltaY, values.SPINDLE, setting), placeWord(firstStart(job), values, setting));
}

/** Each cut from its own start. The hob is retracted fully before it goes back. */
function writeCuts(writer: BlockWriter, values: HobbingValues, job: HobbingJob, setting: Setting): void {
  const turn = turnWords(values, job, setting);
  const feed = feedWord(job.plan.feedPerMinute, setting);
  job.cuts.forEach((cut, index) => {
    const back = (job.cuts[index + 1] ?? cut).startOffset;
    writeEntry(writer, cut, setting);
    writer.block('G01', placeWord(cut.endOffset, values, setting), ...turn(cut.startOffset, cut.endOffset), feed);
    writer.block('G00', xWord(job.clearRadius, setting));
    writer.block('G00', placeWord(back, values, setting), ...turn(cut.endOffset, back));
  });
  const signless = workRotationOf(values, setting.card) === undefined;
  if (signless && turnsByC(differentialOf(values, setting.card))) writer.problems.push(signlessTurn);
}

/**
 * To the depth of a cut: in rapid where the hob stands free before the work, else
 * in radial feed. No tooth wants a turn of its own on the way in, so X moves alone.
 */
function writeEntry(writer: BlockWriter, { radius, plunge }: CutPlace, setting: Setting): void {
  if (!plunge) return writer.block('G00', xWord(radius, setting));
  const feed = plunge.feedPerMinute * (setting.card.xFeedOnDiameter ? 2 : 1);
  writer.block('G00', xWord(plunge.startRadius, setting));
  writer.blockFedBy('RADIAL-FEED', 'G01', xWord(radius, setting), feedWord(feed, setting));
  if (plunge.sparkOutSeconds > 0) writer.code('dwell', { seconds: decimal(Math.ceil(plunge.sparkOutSeconds * 1000) / 1000, 3) });
}

/** A hob beyond the work ends where the program may take it back across. */
function writeEnd(writer: BlockWriter, values: HobbingValues, job: HobbingJob, setting: Setting): void {
  writer.coolant('coolantOff');
  writer.code(syncCode(setting.card, values.SPINDLE, 'syncOff'));
  writer.code('drivenStop');
  writer.code(workCode(values.SPINDLE, 'axisOff'));
  writer.block('G00', yWord(0, values.SPINDLE, setting));
  if (job.crossingOffset !== undefined) writer.block('G00', placeWord(job.crossingOffset, values, setting));
  writer.restoreModes();
}

function firstStart({ cuts }: HobbingJob): number {
  return cuts[0]?.startOffset ?? NaN;
}

function placeWord(offset: number, values: HobbingValues, setting: Setting): string {
  return zWord(values['FACE-Z'], offset, values.SPINDLE, setting);
}

function writeOperatorComments(writer: BlockWriter, values: HobbingValues, job: HobbingJob, { card }: Setting): void {
  const { gear, hob, hobRpm, workRpm } = job.plan;
  const swivel = degrees(settingAngleRadians(gear, hob));
  const unit = unitName(card, 'hobbing');
  caution.forEach((line) => writer.comment(line));
  if (unit !== '') writer.comment(`Unit: ${unit}`);
  if (values.SPINDLE === 'SUB') writer.comment('Work in the sub-spindle: its C axis is the one that the hob is coupled to');
  writer.comment(`Swivel hob axis ${decimal(Math.abs(swivel), Math.min(card.angleDecimals, 3))} deg ${swivel < 0 ? 'counter-clockwise' : 'clockwise'}, seen from hob to work, ${values.SPINDLE === 'SUB' ? 'face' : '+Z'} up`);
  writer.comment(`Hob ${decimal(hob.tipDiameter, card.decimals)} dia, ${hob.starts} ${hob.starts === 1 ? 'start' : 'starts'}, ${values['HOB-HAND']} hand, ${values.METHOD}`);
  writer.comment(`Mount the hob so that at the work it cuts ${values.METHOD === 'CLIMB' ? 'away from' : 'toward'} the chuck`);
  writer.comment('X, Y, Z are of the centre of the hob: offsets measured to its axis');
  writer.comment(`Start from a clear place: ${job.crossingOffset === undefined ? 'X moves first' : 'Z moves first, then X across in front of the work'}`);
  if (values.ENTRY === 'PLUNGE') writer.comment(`Radial entry: X feeds in beside the face, then ${shown(values['SPARK-OUT'])} rev of the work at depth, then along the work`);
  writer.comment(`Hob ${shown(hobRpm, 1)} rev/min, work ${shown(workRpm, 2)} rev/min, ratio ${hob.starts}/${gear.teeth}`);
  for (const text of [...shiftComment(values, job, workRotationOf(values, card)), ...turnComment(values, card)]) writer.comment(text);
}

/** A shift turns the teeth against the work unless C goes along; that matters to whoever recuts a gear or needs its teeth in place. */
function shiftComment(values: HobbingValues, { shift }: HobbingJob, sense: 1 | -1 | undefined): string[] {
  if (values.SHIFT === 0 || values['TOOTH-ANGLE'] !== undefined || sense === undefined) return [];
  return [`Hob shift ${shown(values.SHIFT, 4)}: turning C by ${shown(shift.workDegrees, 3)} deg keeps the teeth in their place`];
}

function turnComment(values: HobbingValues, card: Setting['card']): string[] {
  return turnsByC(differentialOf(values, card)) ? ['C beside Z makes the helix: F must count along Z alone'] : [];
}

function turnsByC(differential: Differential): boolean {
  return differential === 'absoluteC' || differential === 'incrementalC';
}

/**
 * The words that turn the work while the hob goes from one place to another, told from the face. All
 * angles are counted from the first start, and increments are differences of
 * rounded angles, so that no rounding adds up from cut to cut.
 */
function turnWords(values: HobbingValues, job: HobbingJob, setting: Setting): (from: number, to: number) => string[] {
  const { card } = setting;
  const differential = differentialOf(values, card);
  if (!turnsByC(differential)) return () => [];
  const at = (offset: number) => Number(turnForTravelDegrees(job, offset - firstStart(job)).toFixed(card.angleDecimals));
  const word = (letter: string, angle: number) => (workRotationOf(values, card) === undefined ? `${letter}${hole('sense')}${decimal(Math.abs(angle), card.angleDecimals)}` : angleWord(letter, angle, setting));
  if (differential === 'absoluteC') return (_from, to) => [word('C', at(to))];
  return (from, to) => [word(incrementalC(card) ?? hole('incrementalAxes'), at(to) - at(from))];
}

const signlessTurn: Problem = {
  rule: 'hole', severity: 'error', cardKey: 'senses.workRotation',
  message: 'The sign of the C words needs <sense>, which the machine card does not give: the block holds it as a hole, which a control refuses.',
};

/** Without {phase} nobody knows at which angle the control couples hob and work, so teeth that must have their place cannot be promised. */
function writePhaseHole(writer: BlockWriter, toothAngle: number, syncOn: CodeName): void {
  writer.block('G00', `C${hole('phase')}`);
  writer.problems.push({
    parameter: 'TOOTH-ANGLE', rule: 'hole', severity: 'error', cardKey: `codes.${syncOn}`,
    message: `TOOTH-ANGLE: ${shown(toothAngle)} needs {phase} in codes.${syncOn} of the machine card: without it the block holds <phase>, which a control refuses. Leave TOOTH-ANGLE out where the teeth may stand anywhere.`,
  });
}

/** The figures that a template may ask for. What neither note nor card settles is left out, and becomes a hole. */
function figuresOf(values: HobbingValues, job: HobbingJob, setting: Setting): Figures {
  const { card } = setting;
  const { gear, hob, hobRpm } = job.plan;
  const driveRatio = toolUnit(card, 'hobbing')?.ratio ?? 1;
  const ratio = new Fraction(hob.starts).div(new Fraction(gear.teeth).mul(new Fraction(driveRatio)));
  const isPlain = driveRatio === 1;
  return {
    rpm: speedFigure(hobRpm * driveRatio, ofDrive(hobSpeeds(card), driveRatio)),
    starts: String(isPlain ? hob.starts : ratio.n),
    teeth: String(isPlain ? gear.teeth : ratio.d),
    ratio: ratio.valueOf().toFixed(10),
    ...swivelFigure(degrees(settingAngleRadians(gear, hob)), values, card),
    ...helixFigures(values, gear.lead, card),
    ...senseFigure(values, card),
    ...phaseFigure(values, job, card),
  };
}

/** Which way the swivel of another turret, or of one with mirrored axes, counts is not known. */
function swivelFigure(settingDegrees: number, { SPINDLE }: HobbingValues, card: Setting['card']): Figures {
  return senseOf(card, SPINDLE, 'ySense') === (SPINDLE === 'SUB' ? -1 : 1) ? { angle: decimal(settingDegrees, card.angleDecimals) } : {};
}

/** The sign stands in {hand} where the template asks for it, else in the figure itself. Straight teeth need none. */
function helixFigures(values: HobbingValues, lead: number | undefined, card: Setting['card']): Figures {
  const sign = helixSignOf(card, values.SPINDLE) ?? (values.HELIX === 0 ? 1 : undefined);
  if (sign === undefined) return {};
  const hand = sign * handOf(values.HAND);
  const ofFigure = placeholdersOf(syncTemplate(card, values.SPINDLE)).has('hand') ? 1 : hand;
  return { hand: String(hand), helix: decimal(ofFigure * values.HELIX, Math.max(card.angleDecimals, 4)), ...leadFigure(lead === undefined ? undefined : ofFigure * lead, card) };
}

/** Straight teeth have no lead; what stands for it is for the card to say. */
function leadFigure(signedLead: number | undefined, card: Setting['card']): Figures {
  const figure = signedLead ?? card.straightLead;
  return figure === undefined ? {} : { lead: decimal(figure, card.decimals) };
}

/** Any angle does for teeth that may stand anywhere. For the others the phase of the hob must be known, and the way C counts. */
function phaseFigure(values: HobbingValues, job: HobbingJob, card: Setting['card']): Figures {
  const toothAngle = values['TOOTH-ANGLE'];
  const hobPhase = values['HOB-PHASE'];
  if (toothAngle === undefined) return { phase: decimal(0, card.angleDecimals) };
  if (hobPhase === undefined || workRotationOf(values, card) === undefined) return {};
  const angle = hobPhase + toothAngle + turnForPlaceDegrees(job, firstStart(job));
  return { phase: decimal(wholeTurnsOff(angle), card.angleDecimals) };
}

function wholeTurnsOff(angleDegrees: number): number {
  return angleDegrees - 360 * Math.floor(angleDegrees / 360);
}
