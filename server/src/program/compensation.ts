/**
 * Tool radius compensation (G41, G42): the path of the tool's centre, made from
 * the programmed path.
 *
 * Between two moves the centre goes around an outside corner on an arc, and
 * through an inside corner where the paths beside both moves cross. The first
 * move ends where its own straight way touches the circle of the tool about the
 * programmed end (from memory of RS274/NGC; the corner arc to the second move is
 * derived), or square to the second move where that turns to the tool's side
 * (derived). After G40 each axis keeps its place until it is moved.
 *
 * A control looks at its neighbours only, and so does this: a tool that gets in
 * the way of a contour farther on is not found. Where the radius is not known the
 * programmed path stays.
 */
import { type OffPath, shareInverseTime, stepAlong, stepAround, stepOff } from './centre-steps.ts';
import type { Dialect } from './dialect.ts';
import { INCH_IN_MM } from './inch.ts';
import { hasRoomInside, isConnected, type Leg, legOf } from './legs.ts';
import { clearance, cornerAfterEntry, directionTouching, entryRefusal } from './first-move.ts';
import { beside, type Corner, cornerBetween, distanceBetween, partBeside, partBetween, type PathPart, type Point } from './offset-path.ts';
import type { RecordedStep } from './recorded-steps.ts';
import * as r from './registers.ts';
import type { RuleId } from './rules.ts';
import { shown } from './shown.ts';
import { ARC, type Step } from './step.ts';
import { radiusNumber } from './tool-radius.ts';

/** A step as the tool makes it. */
export interface CentreStep extends RecordedStep {
  /** The programmed step that it belongs to. */
  readonly of: RecordedStep;
  /** Given where the step is of the centre of a tool with this radius. */
  readonly toolRadius?: number;
  /** It goes around the corner before its step. */
  readonly isCorner?: true;
}

export interface CompensationProblem {
  readonly line: number;
  readonly rule: RuleId;
  readonly message: string;
}

export interface CentrePath {
  readonly steps: readonly CentreStep[];
  readonly problems: readonly CompensationProblem[];
}

/** The path of a stretch of steps in their order. Of its first and last move in the plane only what the stretch shows is told. */
export function centrePath(recorded: readonly RecordedStep[], dialect: Dialect): CentrePath {
  const follower = new Follower(dialect);
  const legs = recorded.map((each) => legOf(each, dialect));
  let next: Leg | undefined;
  const nextMoves = legs.map(() => undefined as Leg | undefined);
  for (let index = legs.length - 1; index >= 0; index--) {
    nextMoves[index] = next;
    if (legs[index]!.moves) next = legs[index];
  }
  legs.forEach((leg, index) => follower.take(leg, nextMoves[index]));
  return follower;
}

/** Where the centre of the tool begins the next leg. */
interface Arrival {
  readonly leg: Leg;
  readonly corner: Corner;
}

const ON_PATH: OffPath = [0, 0, 0];
const ROUNDING = 1e-9;

class Follower implements CentrePath {
  readonly steps: CentreStep[] = [];
  readonly problems: CompensationProblem[] = [];
  #off = ON_PATH;
  #units = NaN;
  #arrival: Arrival | undefined;

  constructor(private readonly dialect: Dialect) {}

  /** `next` is the next leg that moves in its plane. */
  take(leg: Leg, next: Leg | undefined): void {
    this.#countIn(leg.row[r.UNITS]!);
    if (!leg.isOn) this.#withoutCompensation(leg);
    else if (!leg.moves) this.#stand(leg);
    else if (leg.part === undefined) this.#leaveOut(leg);
    else if (leg.isFirst) this.#enter(leg, leg.part, isConnected(leg, next) ? next : undefined);
    else if (!hasRoomInside(leg.part, leg.offset)) this.#refuseArc(leg);
    else this.#follow(leg, leg.part, isConnected(leg, next) ? next : undefined);
  }

  #countIn(units: number): void {
    if (units !== this.#units && this.#off !== ON_PATH) {
      const factor = units === 20 ? 1 / INCH_IN_MM : INCH_IN_MM;
      this.#off = this.#off.map((off) => off * factor) as unknown as OffPath;
    }
    this.#units = units;
  }

  /** Axes that take part go to their programmed places. */
  #withoutCompensation(leg: Leg): void {
    const before = this.#off;
    if (before.every((off) => off === 0)) return this.#push(leg, leg.step);
    const { axes } = leg.step;
    const after = before.map((off, axis) => ((axes & (1 << axis)) === 0 ? off : 0)) as unknown as OffPath;
    if (leg.step.kind === ARC && leg.moves && (before[leg.a] !== 0 || before[leg.b] !== 0)) return this.#refuseArcAtExit(leg);
    this.#off = after;
    this.#push(leg, stepOff(leg, before, after, this.dialect));
  }

  /** The tool stays where it is in the plane. */
  #stand(leg: Leg): void {
    const isOff = this.#off.some((off) => off !== 0);
    this.#push(leg, isOff ? stepOff(leg, this.#off, this.#off, this.dialect) : leg.step);
  }

  /** A move that cannot be compensated stays as programmed, and the path is broken there. */
  #leave(leg: Leg): void {
    this.#off = ON_PATH;
    this.#push(leg, leg.step);
  }

  #leaveOut(leg: Leg): void {
    if (leg.isFirst && Number.isNaN(leg.offset) && leg.row[r.PLANE] !== 19) this.#missRadius(leg);
    this.#leave(leg);
  }

  #enter(leg: Leg, part: PathPart, next: Leg | undefined): void {
    if (part.arc !== undefined) return this.#leaveArc(leg);
    const start = this.#placeOf(leg, part.start);
    const refusal = entryRefusal(start, part, leg.offset);
    if (refusal !== undefined) return this.#refuseEntry(leg, refusal);
    const direction = directionTouching(start, part.end, leg.offset);
    const corner = next?.part === undefined ? undefined : cornerAfterEntry(direction, next.part, leg.offset);
    if (corner?.kind !== 'inside') return this.#go(leg, { start, end: beside(part.end, direction, leg.offset) }, undefined, next, corner);
    const radius = Math.abs(leg.offset);
    if (clearance(start, next!.part!, leg.offset) < radius - ROUNDING) return this.#refuseEntry(leg, `the first move under tool radius compensation begins nearer to the next one than the radius of the tool, ${shown(radius)}.`);
    this.#hint(leg, 'the next move turns to the side of the tool; RS274/NGC refuses such a first move under compensation.');
    this.#go(leg, { start, end: corner.at }, undefined, next, { kind: 'joined', at: corner.at });
  }

  #follow(leg: Leg, part: PathPart, next: Leg | undefined): void {
    const arriving = this.#arrival?.leg === leg ? this.#arrival.corner : undefined;
    const leaving = next?.part === undefined ? undefined : cornerBetween(part, next.part, leg.offset);
    const whole = partBeside(part, leg.offset);
    const trimmed = partBetween(whole, crossingOf(arriving), crossingOf(leaving));
    if (trimmed === undefined) this.#object(leg, 'compensation-gouge', `a tool of radius ${shown(Math.abs(leg.offset))} has no room between the moves before and after this one.`);
    if (next !== undefined) this.#checkCorner(next, leaving);
    this.#go(leg, joined(trimmed ?? whole, arriving, leaving), arriving, next, leaving);
  }

  #checkCorner(next: Leg, corner: Corner | undefined): void {
    const radius = shown(Math.abs(next.offset));
    if (corner?.kind === 'apart') this.#object(next, 'compensation-gouge', `a tool of radius ${radius} does not fit into the corner before this move.`);
    else if (corner?.kind === 'inside' && !corner.isRounded) this.#hint(next, `in the inside corner before this move a tool of radius ${radius} leaves a fillet; RS274/NGC refuses such a corner under compensation.`);
  }

  /** Goes around the corner before a leg, if there is one, and along the leg. */
  #go(leg: Leg, way: PathPart, arriving: Corner | undefined, next: Leg | undefined, leaving: Corner | undefined): void {
    const along = stepAlong(leg, way, this.dialect);
    if (arriving?.kind === 'around') {
      const around = stepAround(leg, aroundPoint(leg.part!.start, arriving), this.dialect);
      shareInverseTime(around, along, leg.row);
      this.#push(leg, around, { isCorner: true });
    }
    this.#push(leg, along);
    const off = [0, 0, 0] as [number, number, number];
    off[leg.a] = way.end.a - leg.part!.end.a;
    off[leg.b] = way.end.b - leg.part!.end.b;
    this.#off = off;
    this.#arrival = next === undefined || leaving === undefined ? undefined : { leg: next, corner: leaving };
  }

  #placeOf({ a, b }: Leg, programmed: Point): Point {
    return { a: programmed.a + this.#off[a]!, b: programmed.b + this.#off[b]! };
  }

  /** Whether and how a control begins with an arc is not settled by what is known of RS274/NGC here. */
  #leaveArc(leg: Leg): void {
    this.#object(leg, 'not-computed', 'the path of an arc as first move under tool radius compensation is not computed; it stays as programmed.');
    this.#leave(leg);
  }

  #refuseEntry(leg: Leg, message: string): void {
    this.#object(leg, 'compensation-entry', message);
    this.#leave(leg);
  }

  #refuseArc(leg: Leg): void {
    const { start, arc } = leg.part!;
    this.#object(leg, 'compensation-arc', `the radius of the arc, ${shown(distanceBetween(start, arc!.centre))}, must be greater than that of the tool on its inside, ${shown(Math.abs(leg.offset))}.`);
    this.#leave(leg);
  }

  #refuseArcAtExit(leg: Leg): void {
    const off = Math.hypot(this.#off[leg.a]!, this.#off[leg.b]!);
    this.#object(leg, 'compensation-exit', `after tool radius compensation the tool stands ${shown(off)} off the programmed start of this arc; the first move must be straight.`);
    this.#leave(leg);
  }

  /** In a subprogram the tool is that of whoever calls it. */
  #missRadius(leg: Leg): void {
    if (leg.row[r.SECONDARY] === 1 && leg.row[r.RADIUS_NUMBER] === r.NEVER && Number.isNaN(leg.row[r.TOOL]!)) return;
    const number = radiusNumber(leg.row);
    const what = leg.row[r.RADIUS_NUMBER] === r.NEVER ? 'tool' : 'radius number';
    const which = Number.isNaN(number) ? 'which tool radius is meant is not known' : `the machine card gives no diameter for ${what} ${number}`;
    this.#object(leg, 'compensation-radius', `${which}, so moves and times are those of the programmed path.`);
  }

  /** RS274/NGC has compensation in XY only; a shoulder on a lathe is turned like this every day. */
  #hint(leg: Leg, message: string): void {
    if (leg.row[r.PLANE] === 17) this.#object(leg, 'compensation-corner', message);
  }

  #object({ line }: Leg, rule: RuleId, message: string): void {
    this.problems.push({ line, rule, message });
  }

  #push(leg: Leg, step: Step, more: Pick<CentreStep, 'isCorner'> = {}): void {
    const { line, row, isOn, offset } = leg;
    const isOfCentre = isOn && step !== leg.step && !Number.isNaN(offset);
    this.steps.push({ line, row, step, of: leg, ...(isOfCentre ? { toolRadius: Math.abs(offset) } : {}), ...more });
  }
}

function crossingOf(corner: Corner | undefined): Point | undefined {
  return corner?.kind === 'inside' ? corner.at : undefined;
}

/** A way whose ends are those of its neighbours, where rounding alone keeps them apart. */
function joined(way: PathPart, arriving: Corner | undefined, leaving: Corner | undefined): PathPart {
  return { ...way, ...(arriving?.kind === 'joined' ? { start: arriving.at } : {}), ...(leaving?.kind === 'joined' ? { end: leaving.at } : {}) };
}

function aroundPoint(centre: Point, { from, to, sweepRadians }: Extract<Corner, { kind: 'around' }>): Required<PathPart> {
  return { start: from, end: to, arc: { centre, sweepRadians } };
}
