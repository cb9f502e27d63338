/**
 * Proof of a hand-over to the sub-spindle. Nothing is cut, so there is no virtual
 * cut: the words of the machine card are followed in order, and each moment is
 * asked who holds the part, whether the spindles are coupled, and in which phase.
 * What the phase must be is worked out here from the geometry of facing
 * spindles, not taken from the block's own figures.
 */
import { cutFinding, type CutFigure, type CutFinding, type StretchProof } from '../cut/rules.ts';
import { toldIn, type Told } from '../cut/told.ts';
import type { CodeName } from '../machine/card.ts';
import { codeWord, placeholdersOf } from '../machine/template.ts';
import type { ModalState, PatternEvent, Program } from '../program/index.ts';
import { MILLIMETRES_PER_INCH } from '../trade/lengths.ts';
import { shown } from '../trade/quantity.ts';
import type { ProcessNote } from './note.ts';
import type { EvaluatedNote } from './program-notes.ts';
import { proofValues, type ProofValues } from './proof-values.ts';
import { senseOf } from './work-side.ts';

/** The coupling that a hand-over leaves the part with. */
export interface Coupling {
  line: number;
  /** C of the sub-spindle while the main spindle stands at C 0; undefined where the word does not say it. */
  angleDegrees: number | undefined;
}

interface PlacedEvent extends PatternEvent {
  line: number;
}

const PHASE_ALLOWANCE_DEGREES = 0.01;
const PLACE_ALLOWANCE = 0.01;

/** The last word on the lines of a note that couples the spindles. */
export function couplingIn(program: Program, { headLine, lastLine }: { headLine: number; lastLine: number }): Coupling | undefined {
  const event = eventsBetween(program, headLine, lastLine).findLast(({ name }) => name === 'spindleSyncOn');
  return event && { line: event.line, angleDegrees: event.slots['angle'] };
}

/** Without these words it cannot be told who holds the part, and whether the spindles are coupled. */
export function handoverCodes({ entries }: ProcessNote): CodeName[] {
  const method = entries.find(({ name }) => name === 'METHOD')?.value.toUpperCase() ?? 'RELEASE';
  if (method === 'RETRACT') return ['subRapid', 'spindleSyncOff'];
  return ['spindleSyncOn', 'subChuckOpen', 'subChuckClose', 'subFeed', 'subRapid', ...(method === 'RELEASE' ? (['mainChuckOpen', 'spindleSyncOff'] as const) : [])];
}

export function proveHandover(program: Program, evaluated: EvaluatedNote): StretchProof {
  const { note, setting } = evaluated;
  const values = proofValues(evaluated);
  const events = eventsBetween(program, note.headEndLine + 1, note.lastLine);
  const walk = new HandoverWalk(values, evaluated, toldIn(setting.units));
  for (const event of events) walk.take(event);
  walk.end(note.lastLine);
  walk.judgeTurning(note.lastLine, program.stateAfter(note.lastLine));
  return { findings: walk.findings, figures: walk.figures, assumptions: assumptionsOf(values, evaluated) };
}

function eventsBetween(program: Program, fromLine: number, toLine: number): PlacedEvent[] {
  const events: PlacedEvent[] = [];
  for (let line = fromLine; line <= toLine; line += 1) events.push(...program.events(line).map((event) => ({ ...event, line })));
  return events;
}

function assumptionsOf(values: ProofValues, { setting: { card } }: EvaluatedNote): string[] {
  const said = [values.word('METHOD') === 'RETRACT' ? 'The part is off the bar, and the sub-spindle holds it.' : 'The main spindle holds the part when the block begins.'];
  if (values.word('METHOD') !== 'RETRACT' && !placeholdersOf(card.codes.spindleSyncOn).has('angle')) said.push('The coupled spindles keep the angle that they have: codes.spindleSyncOn of the machine card has no {angle}.');
  return said;
}

/**
 * Spindles that face each other turn, coupled, the other way about the direction
 * that leaves the face of each: with s of each the sense of its C, s C of one and
 * s C of the other add up to a constant. At main C 0 that is s A of the
 * sub-spindle, so a feature at C main stands at A - s s' C.
 */
export function angleOnOther(angle: number, phaseDegrees: number, sensesProduct: 1 | -1): number {
  return phaseDegrees - sensesProduct * angle;
}

/** What is known of the part and both spindles from one word to the next. */
class HandoverWalk {
  readonly findings: CutFinding[] = [];
  readonly figures: CutFigure[] = [];
  private mainHolds: boolean;
  private subHolds: boolean;
  /** Undefined until a word opens or closes the jaws. */
  private subOpen: boolean | undefined;
  private coupled = false;
  private place: number | undefined;
  /** The main chuck has let go, and what it held may still be inside it. */
  private isLetGo = false;
  private hasGripped = false;

  constructor(private readonly values: ProofValues, private readonly evaluated: EvaluatedNote, private readonly told: Told) {
    const isRetract = values.word('METHOD') === 'RETRACT';
    this.mainHolds = !isRetract;
    this.subHolds = isRetract;
  }

  take(event: PlacedEvent): void {
    const { line, name, slots } = event;
    if (name === 'spindleSyncOn') this.couple(line, slots['angle']);
    else if (name === 'spindleSyncOff') this.coupled = false;
    else if (name === 'subRapid' || name === 'subFeed') this.move(event);
    else if (name === 'subChuckOpen') this.openSub(line);
    else if (name === 'subChuckClose') this.grip(line);
    else if (name === 'mainChuckOpen') this.openMain(line);
    else if (name === 'mainChuckClose') this.closeMain();
  }

  /** What the method promises must have happened by the end. */
  end(line: number): void {
    const method = this.values.word('METHOD');
    if (method !== 'RETRACT' && !this.hasGripped) this.find(line, 'handover-grip', 'The sub-spindle never closes its chuck: the part is not taken over.');
    if (method === 'RELEASE' && this.hasGripped && this.mainHolds) this.find(line, 'handover-held', 'The main chuck is not opened: both spindles still hold the part.');
    if (method !== 'CUT-OFF') this.judgeRetract(line);
  }

  /** Of the sub-spindle only what a word of its own could have stopped counts. */
  judgeTurning(line: number, { leftTurning }: ModalState): void {
    const { subStop } = this.evaluated.setting.card.codes;
    const turning = [...(leftTurning?.main ? ['the main spindle'] : []), ...(leftTurning?.sub && codeWord(subStop) !== undefined ? ['the sub-spindle'] : [])];
    if (turning.length > 0) this.find(line, 'handover-turning', `The coupling has ended, and nothing has stopped ${turning.join(' and ')}.`);
  }

  private judgeRetract(line: number): void {
    const wanted = this.values.length('RETRACT-Z') ?? NaN;
    if (this.place !== undefined && Math.abs(this.place - wanted) <= PLACE_ALLOWANCE) return;
    const where = this.place === undefined ? 'does not move' : `ends at ${this.told.place(this.place)}`;
    this.find(line, 'handover-retract', `The sub-spindle ${where}; the note takes it to ${this.told.place(wanted)}.`);
  }

  private couple(line: number, angle: number | undefined): void {
    this.coupled = true;
    if (angle === undefined) return;
    const wanted = this.wantedPhase();
    this.figures.push({ id: 'phaseAngle', name: 'C of the sub-spindle at C 0 of the main spindle', value: angle, unit: 'deg', ...(wanted === undefined ? {} : { wanted }) });
    if (wanted === undefined || Math.abs(withinHalfTurn(angle - wanted)) <= PHASE_ALLOWANCE_DEGREES) return;
    const [given, taken] = [this.values.number('MAIN-ANGLE') ?? 0, this.values.number('SUB-ANGLE') ?? 0];
    this.find(line, 'handover-phase', `The spindles are coupled at ${shown(angle, 3)} degrees; what stands at C ${shown(given, 3)} on the main spindle comes to C ${shown(taken, 3)} on the sub-spindle only at ${shown(wanted, 3)}.`);
  }

  /** Undefined where the card does not say how both count C and it matters. */
  private wantedPhase(): number | undefined {
    const { card } = this.evaluated.setting;
    const [given, taken] = [this.values.number('MAIN-ANGLE') ?? 0, this.values.number('SUB-ANGLE') ?? 0];
    const [main, sub] = [senseOf(card, 'MAIN', 'workRotation'), senseOf(card, 'SUB', 'workRotation')];
    if (given === 0) return withinTurn(taken);
    return main === undefined || sub === undefined ? undefined : withinTurn(taken + main * sub * given);
  }

  private move({ line, name, slots }: PlacedEvent): void {
    const to = slots['z'] === undefined ? undefined : this.millimetres(slots['z']);
    const isFeed = name === 'subFeed';
    if (this.mainHolds && this.subHolds) this.find(line, 'handover-held', 'The sub-spindle moves while both chucks hold the part.');
    else if (!this.subHolds && this.subOpen !== true && isFeed) this.find(line, 'handover-grip', 'The sub-spindle goes over the part, and no word has opened its chuck.');
    if (!isFeed && !this.subHolds && to !== undefined && this.isOverPart(to)) this.find(line, 'handover-rapid', `A rapid move takes the sub-spindle to ${this.told.place(to)}, where its jaws already reach over the part: they go over it by ${this.told.size(this.values.length('OVERLAP') ?? 0)}.`);
    if (!isFeed && this.isLetGo && this.isInMainChuck()) this.find(line, 'handover-rapid', this.drawnInRapid());
    this.place = to;
  }

  /** Told by where the part stands when a move begins, against where it was gripped. What nobody has said is inside may be inside all the way. */
  private isInMainChuck(): boolean {
    const [grip, retract] = [this.values.length('GRIP-Z') ?? NaN, this.values.length('RETRACT-Z') ?? NaN];
    const inside = Math.min(this.values.length('HELD') ?? Infinity, Math.abs(retract - grip));
    return this.place === undefined || Math.abs(this.place - grip) < inside - PLACE_ALLOWANCE;
  }

  private drawnInRapid(): string {
    const held = this.values.length('HELD');
    const known = held === undefined ? 'how much of it is in there is not known, since the note does not give HELD' : `${this.told.size(held)} of it are in there`;
    return `A rapid move draws the part out of the main chuck: ${known}. It must come out at feed.`;
  }

  /** On the way from the retract place to the grip place the jaws reach over the part at the end, by the overlap. */
  private isOverPart(place: number): boolean {
    const [grip, retract] = [this.values.length('GRIP-Z') ?? NaN, this.values.length('RETRACT-Z') ?? NaN];
    const away = Math.sign(retract - grip);
    return away * (place - grip) < (this.values.length('OVERLAP') ?? 0) - PLACE_ALLOWANCE;
  }

  private openSub(line: number): void {
    this.subOpen = true;
    if (this.subHolds && !this.mainHolds) this.find(line, 'handover-dropped', 'The chuck of the sub-spindle opens while nothing else holds the part.');
    this.subHolds = false;
  }

  private grip(line: number): void {
    this.hasGripped = true;
    this.subHolds = true;
    this.subOpen = false;
    if (!this.coupled) this.find(line, 'handover-uncoupled', 'The sub-spindle grips the part while the spindles are not coupled: speed and angle do not agree.');
    const grip = this.values.length('GRIP-Z');
    if (grip === undefined || this.place === undefined || Math.abs(this.place - grip) <= PLACE_ALLOWANCE) return;
    this.find(line, 'handover-grip', `The chuck of the sub-spindle closes at ${this.told.place(this.place)}; the note grips at ${this.told.place(grip)}.`);
  }

  private openMain(line: number): void {
    if (!this.subHolds) this.find(line, 'handover-dropped', 'The main chuck opens before the sub-spindle holds the part.');
    else if (!this.coupled) this.find(line, 'handover-uncoupled', 'The main chuck opens while the spindles are not coupled.');
    this.mainHolds = false;
    this.isLetGo = true;
  }

  private closeMain(): void {
    this.mainHolds = true;
    this.isLetGo = false;
  }

  private millimetres(length: number): number {
    return this.evaluated.setting.units === 'inch' ? length * MILLIMETRES_PER_INCH : length;
  }

  private find(line: number, rule: Parameters<typeof cutFinding>[1], message: string): void {
    this.findings.push(cutFinding(line, rule, message));
  }
}

function withinTurn(angle: number): number {
  return angle - 360 * Math.floor(angle / 360);
}

function withinHalfTurn(angle: number): number {
  return angle - 360 * Math.round(angle / 360);
}
