/**
 * Handing the part over to the sub-spindle: both spindles coupled in speed and
 * angle, so that teeth and keyways keep their clocking. All figures come from
 * the trade library; every code is the machine card's, and a code that the card
 * does not say is a hole.
 *
 * Places along the sub-spindle's axis are words of the program as the machine
 * counts them; which way is away from the main spindle follows from the grip
 * place and the retract place, and so no sense is taken for granted.
 */
import type { MachineCard } from '../machine/card.ts';
import { codeWord, placeholdersOf, templateBlocks, templateWords } from '../machine/template.ts';
import { handOver, handOverPlan, retractFigures, type HandOverInput, type HandOverPlan, type Sense } from '../trade/hand-over.ts';
import { shown } from '../trade/quantity.ts';
import type { Values } from './fields.ts';
import { beyondMachine, defineProcess, type Composition, type Problem, type Setting } from './process.ts';
import { coupledSpeeds } from './unit-speeds.ts';
import { BlockWriter, cardLength, caution, decimal, lengthDecimals, speedFigure } from './words.ts';
import { senseOf } from './work-side.ts';

const fields = {
  METHOD: { kind: 'choice', label: 'What happens to the part', choices: ['RELEASE', 'CUT-OFF', 'RETRACT'], default: 'RELEASE', help: 'RELEASE: the main chuck opens and the sub-spindle takes the part away. CUT-OFF: both hold, still coupled, for cutting off behind this block. RETRACT: the part is off; take it away and uncouple.' },
  RPM: { kind: 'number', label: 'Speed of both spindles', dimension: 'rpm', above: 0, most: 10000, optional: true, absent: 'needed but for RETRACT', help: 'Revolutions of both spindles while the part changes hands.' },
  'GRIP-Z': { kind: 'number', label: 'Grip place', dimension: 'length', least: -10000, most: 10000, help: 'Place of the sub-spindle, as its axis counts, where its jaws close; for RETRACT where it stands.' },
  'RETRACT-Z': { kind: 'number', label: 'Retract place', dimension: 'length', least: -10000, most: 10000, help: 'Place of the sub-spindle before and after: clear of the part and of the tools.' },
  OVERLAP: { kind: 'number', label: 'Overlap', dimension: 'length', least: 0, most: 500, default: 0, help: 'Length over which the jaws reach over the part at the grip place. They go over it at FEED.' },
  APPROACH: { kind: 'number', label: 'Approach gap', dimension: 'length', above: 0, most: 500, default: { mm: 5, inch: 0.2 }, help: 'Gap between jaws and part where rapid ends and FEED begins, and where FEED ends on the way out of the main chuck. Common practice, no source.' },
  FEED: { kind: 'number', label: 'Creep feed', dimension: 'feedPerMinute', above: 0, most: 5000, optional: true, absent: 'needed but for RETRACT', help: 'Feed per minute of the last way to the grip, out of the main chuck, and of drawing out the bar.' },
  HELD: { kind: 'number', label: 'Length held in the main chuck', dimension: 'length', above: 0, most: 2000, optional: true, absent: 'not known: FEED all the way', help: 'RELEASE: how far the part reaches into the main chuck. Over this length and the approach gap it is drawn out at FEED, then in rapid; without it at FEED all the way.' },
  PULL: { kind: 'number', label: 'Bar drawn out', dimension: 'length', least: 0, most: 2000, default: 0, help: 'CUT-OFF: length by which the sub-spindle draws the bar out of the open main chuck; 0 to cut off where it is.' },
  PAUSE: { kind: 'number', label: 'Pause for a chuck', dimension: 'seconds', least: 0, most: 60, default: 1, help: 'Dwell after each opening and closing; 0 where the machine waits by itself. Common practice, no source.' },
  'MAIN-ANGLE': { kind: 'number', label: 'C on the main spindle', dimension: 'angle', least: -360, most: 360, default: 0, help: 'C of a feature of the part, a tooth or a keyway, on the main spindle.' },
  'SUB-ANGLE': { kind: 'number', label: 'C on the sub-spindle', dimension: 'angle', least: -360, most: 360, default: 0, help: 'C at which the same feature shall stand on the sub-spindle.' },
} as const;

type HandoverValues = Values<typeof fields>;

const ways = ['creepStart', 'creepLength', 'drawOutLength', 'retractLength', 'handOverTime'] as const;
const wayOut = ['drawOutLength', 'retractLength', 'handOverTime'] as const;
const phase = ['phaseAngle'] as const;
const time = ['handOverTime', 'creepLength', 'drawOutLength'] as const;

export const handover = defineProcess({
  id: 'handover',
  keyword: 'HANDOVER',
  title: 'Hand-over to the sub-spindle',
  summary: 'Hands the part over to the sub-spindle with both spindles coupled in speed and angle.',
  fields,
  keyQuantities: ['phaseAngle', 'creepStart', 'creepLength', 'drawOutLength', 'retractLength', 'handOverTime'],
  governs: {
    S: phase, F: time, T: ways, sync: phase,
    METHOD: time, RPM: phase, 'GRIP-Z': ways, 'RETRACT-Z': ['retractLength', 'creepStart'], OVERLAP: ways, APPROACH: ways, FEED: time, HELD: wayOut, PULL: ['retractLength', 'handOverTime'], PAUSE: time,
    'MAIN-ANGLE': phase, 'SUB-ANGLE': phase,
    HANDOVER: [...phase, ...ways],
  },
  parameterOf: {
    givenAngleDegrees: 'MAIN-ANGLE', wantedAngleDegrees: 'SUB-ANGLE', sensesProduct: 'MAIN-ANGLE', gripPlace: 'GRIP-Z', retractPlace: 'RETRACT-Z',
    overlap: 'OVERLAP', approach: 'APPROACH', creepFeed: 'FEED', held: 'HELD', pull: 'PULL', pauseSeconds: 'PAUSE',
  },
  rules: (values, setting) => [...methodRules(values), ...senseRules(values, setting)],
  compute: (values, setting) => Object.values(values.METHOD === 'RETRACT' ? retractFigures(setting.units, values['GRIP-Z'], values['RETRACT-Z']) : handOver(inputOf(values, setting))),
  checks: (values, _quantity, setting) => [...speedChecks(values, setting), ...travelChecks(values, setting), ...phaseChecks(values, setting)],
  compose: composeHandover,
});

function methodRules(values: Partial<HandoverValues>): Problem[] {
  const { METHOD: method, HELD: held, PULL: pull = 0 } = values;
  if (method === undefined) return [];
  const missing = method === 'RETRACT' ? [] : (['RPM', 'FEED'] as const).filter((name) => values[name] === undefined);
  const drawn: Problem[] = method === 'CUT-OFF' || pull === 0 ? [] : [{ parameter: 'PULL', rule: 'bad-value', severity: 'error', message: `PULL: ${shown(pull)} is not allowed: METHOD=${method} draws no bar out, so it must be 0.` }];
  const unused: Problem[] = method === 'RELEASE' || held === undefined ? [] : [{ parameter: 'HELD', rule: 'bad-value', severity: 'error', message: `HELD does not go with METHOD=${method}: leave it out. It is of the part that the main chuck lets go with METHOD=RELEASE.` }];
  return [...missing.map((name): Problem => ({ parameter: name, rule: 'missing-parameter', severity: 'error', message: `${name} is missing: METHOD=${method} needs it. ${fields[name].help}` })), ...drawn, ...unused];
}

/** The place of a feature on the other spindle depends on how both count C. */
function senseRules(values: Partial<HandoverValues>, { card }: Setting): Problem[] {
  if (values['MAIN-ANGLE'] === undefined || values['MAIN-ANGLE'] === 0) return [];
  const missing = senseOf(card, 'MAIN', 'workRotation') === undefined ? 'senses.workRotation' : senseOf(card, 'SUB', 'workRotation') === undefined ? 'subSpindle.workRotation' : undefined;
  if (missing === undefined) return [];
  return [{ parameter: 'MAIN-ANGLE', cardKey: missing, rule: 'unstated-sense', severity: 'error', message: `MAIN-ANGLE: ${shown(values['MAIN-ANGLE'])} needs ${missing}, which the machine card does not say: allowed is 0 until it does.` }];
}

function inputOf(values: HandoverValues, { card, units }: Setting): HandOverInput {
  const [main, sub] = [senseOf(card, 'MAIN', 'workRotation'), senseOf(card, 'SUB', 'workRotation')];
  return {
    units,
    givenAngleDegrees: values['MAIN-ANGLE'],
    wantedAngleDegrees: values['SUB-ANGLE'],
    ...(main === undefined || sub === undefined ? {} : { sensesProduct: (main * sub) as Sense }),
    gripPlace: values['GRIP-Z'],
    retractPlace: values['RETRACT-Z'],
    overlap: values.OVERLAP,
    approach: values.APPROACH,
    creepFeed: values.FEED ?? NaN,
    pull: values.PULL,
    ...(values.METHOD === 'RELEASE' ? { release: { held: values.HELD } } : {}),
    pauseSeconds: values.PAUSE * pausesOf(values),
  };
}

/** Openings and closings: sub open and close, main open, and main close after drawing out. */
function pausesOf({ METHOD: method, PULL: pull }: HandoverValues): number {
  if (method === 'RETRACT') return 0;
  return method === 'RELEASE' ? 3 : pull > 0 ? 4 : 2;
}

function speedChecks({ RPM: rpm }: HandoverValues, { card }: Setting): Problem[] {
  const { most } = coupledSpeeds(card);
  return rpm === undefined || rpm <= most ? [] : [beyondMachine('RPM', shown(rpm), `more than 0, at most ${shown(most)} rev/min, which both spindles reach`)];
}

function travelChecks(values: HandoverValues, { card, units }: Setting): Problem[] {
  const range = card.subSpindle?.travel?.map((each) => cardLength(each, card, units));
  if (!range) return [];
  const [low = -Infinity, high = Infinity] = range;
  return (['GRIP-Z', 'RETRACT-Z'] as const).filter((name) => values[name] < low - 1e-9 || values[name] > high + 1e-9)
    .map((name) => beyondMachine(name, shown(values[name]), `from ${shown(low, 4)} to ${shown(high, 4)}, the travel of the sub-spindle`));
}

/** A coupling without an angle in its word may or may not hold one: nothing in the block says it. */
function phaseChecks(values: HandoverValues, { card }: Setting): Problem[] {
  const { spindleSyncOn } = card.codes;
  if (values.METHOD === 'RETRACT' || templateBlocks(spindleSyncOn).length === 0 || placeholdersOf(spindleSyncOn).has('angle')) return [];
  const wanted = (['SUB-ANGLE', 'MAIN-ANGLE'] as const).find((name) => values[name] !== 0);
  const common = { cardKey: 'codes.spindleSyncOn' } as const;
  if (wanted === undefined) return [{ ...common, rule: 'phase-not-held', severity: 'warning', message: 'codes.spindleSyncOn of the machine card has no {angle}: teeth and keyways keep their clocking only if that word holds the angle of the spindles. Prove it before it counts.' }];
  return [{ ...common, parameter: wanted, rule: 'bad-value', severity: 'error', message: `${wanted}: ${shown(values[wanted])} needs an angle between the spindles, but codes.spindleSyncOn of the machine card has no {angle}: allowed is 0.` }];
}

function composeHandover(values: HandoverValues, setting: Setting): Composition {
  const block = new HandoverBlock(values, setting);
  if (values.METHOD === 'RETRACT') block.retractOnly();
  else block.handOver(handOverPlan(inputOf(values, setting)));
  return { lines: block.writer.lines, problems: block.writer.problems };
}

type ChuckCode = 'mainChuckOpen' | 'mainChuckClose' | 'subChuckOpen' | 'subChuckClose';

/** One block in the making. */
class HandoverBlock {
  readonly writer: BlockWriter;

  constructor(private readonly values: HandoverValues, private readonly setting: Setting) {
    this.writer = new BlockWriter(setting, { feed: 'FEED', speed: 'RPM' });
    caution.forEach((line) => this.writer.comment(line));
  }

  retractOnly(): void {
    this.writer.comment('Only when the part is off: the sub-spindle takes it away');
    this.writer.takeAbsolute();
    this.retract();
    this.writer.restoreIncremental();
  }

  /** The jaws of the sub-spindle open before it comes near, and close before anything lets go of the part. */
  handOver(plan: HandOverPlan): void {
    const { writer, values, setting } = this;
    this.comments(plan);
    writer.takeModes('COUPLED');
    this.chuck('subChuckOpen');
    writer.code('spindleSyncOn', { rpm: speedFigure(values.RPM ?? NaN, coupledSpeeds(setting.card)), angle: decimal(plan.phaseAngleDegrees, setting.card.angleDecimals) });
    writer.code('subRapid', { z: this.length(plan.creepStartPlace) });
    this.creepTo(values['GRIP-Z']);
    this.chuck('subChuckClose');
    if (values.METHOD === 'RELEASE') this.release(plan);
    else if (values.PULL > 0) this.drawOut(plan);
    writer.restoreModes();
  }

  private comments(plan: HandOverPlan): void {
    const { writer, values, setting } = this;
    writer.comment('Turret and tools clear of both chucks before this block');
    writer.comment(`Spindles coupled at ${shown(values.RPM ?? NaN, 1)} rev/min, phase ${decimal(plan.phaseAngleDegrees, setting.card.angleDecimals)} deg, creep ${decimal(plan.creepLength, setting.card.decimals)}`);
    if (values.METHOD === 'RELEASE') writer.comment(this.wayOut(plan));
    if (values.METHOD === 'CUT-OFF') writer.comment('Both chucks hold and stay coupled: cut off behind this block, then hand over with METHOD RETRACT');
  }

  private wayOut({ drawOutLength }: HandOverPlan): string {
    if (this.values.HELD === undefined) return 'Out of the main chuck at feed all the way: HELD is not given';
    return `Out of the main chuck at feed over ${decimal(drawOutLength, this.setting.card.decimals)}: ${decimal(this.values.HELD, this.setting.card.decimals)} of the part are in it`;
  }

  /** No rapid while the part may be inside the chuck: a jaw that hangs would bend it, or tear it out of the other chuck. */
  private release({ freePlace }: HandOverPlan): void {
    this.chuck('mainChuckOpen');
    this.creepTo(freePlace);
    this.retract(freePlace);
  }

  private retract(from?: number): void {
    const place = this.length(this.values['RETRACT-Z']);
    if (from === undefined || place !== this.length(from)) this.writer.code('subRapid', { z: place });
    this.writer.code('spindleSyncOff');
    this.stopBoth();
  }

  /**
   * The coupling started both spindles and its end stops neither: an empty chuck
   * would turn on with open jaws, or a block behind this one take a turning
   * spindle as its axis. M05 (ISO 6983, RS274/NGC) is of the main spindle where
   * the machine card starts and stops the other by words of its own. Where the
   * card has M05 for something else, the operator is told that nobody knows.
   */
  private stopBoth(): void {
    const { writer, setting: { card } } = this;
    writer.block('M05');
    writer.codeOfPair('subStop', 'subStart');
    writer.comment(stopInWords(card));
  }

  private drawOut(plan: HandOverPlan): void {
    this.chuck('mainChuckOpen');
    this.creepTo(plan.pulledPlace);
    this.chuck('mainChuckClose');
  }

  private creepTo(place: number): void {
    this.writer.code('subFeed', { z: this.length(place), feed: this.length(this.values.FEED ?? NaN) });
  }

  private chuck(code: ChuckCode): void {
    const { writer, values } = this;
    writer.code(code);
    if (values.PAUSE > 0) writer.code('dwell', { seconds: decimal(values.PAUSE, 3) });
  }

  private length(value: number): string {
    return decimal(value, lengthDecimals(this.setting));
  }
}

function stopInWords(card: MachineCard): string {
  const other = codeOfM05(card);
  if (other !== undefined) return `M05 is for codes.${other} by the machine card: both spindles must stand here`;
  return codeWord(card.codes.subStop) === undefined ? 'Both spindles must stand after M05: the machine card has no other stop' : 'Both spindles uncoupled and stopped: start what turns next';
}

/** The code of the card that is M05 alone, if there is one. */
function codeOfM05({ codes }: MachineCard): string | undefined {
  return Object.entries(codes).find(([, template]) => {
    const [block, ...others] = templateWords(template);
    return others.length === 0 && block?.length === 1 && block[0]!.letter === 'M' && block[0]!.value === 5;
  })?.[0];
}
