import type { GearSection } from './gear-section.ts';
import type { HobEdges } from './hob-tool.ts';
import type { HobbingSpan } from './motion.ts';
import { isDwell, seenFromPlusX } from './motion.ts';
import { ToothTrace } from './tooth-trace.ts';

/**
 * The virtual cut of a hob: every passage of every cutting edge through a
 * transverse section of the work takes away what lies inside the tooth's trace.
 *
 * Nothing here knows what gear is wanted or by which law hob and work are
 * coupled; the shape follows from the vector geometry of the motion alone. The
 * traces are exact but for the polyline through the points of the tooth
 * outline; the removed arcs are united without a raster.
 *
 * Geometry, for a hob at +X: the hob axis is (0, cos eta, -sin eta); a point at
 * distance r from it and u along it passes, turned by phi from the direction
 * toward the work, through
 *   x = X - r cos phi
 *   y = Y + u cos eta + r sin phi sin eta
 *   z = Z - u sin eta + r sin phi cos eta.
 * Setting z to the section gives phi, and with it the instant and the place.
 */

/** What one span did to a section. */
export interface SpanEffect {
  line: number;
  rapid: boolean;
  /** The longest arc that a single tooth took away, in mm; 0 when the span removed nothing. */
  removed: number;
}

/** Beyond so many hob revolutions a standing hob only repeats itself or the program is not a hobbing program. */
const LARGEST_REVOLUTIONS_PER_SPAN = 2e5;

/**
 * Cuts one section with all spans. Yields now and then so that a caller can
 * show progress or stop; returns what each span removed.
 */
export function* cutSection(
  section: GearSection,
  edges: HobEdges,
  settingRadians: number,
  spans: readonly HobbingSpan[],
): Generator<void, SpanEffect[]> {
  const effects: SpanEffect[] = [];
  for (const span of spans) {
    const passage = new SpanPassage(section, edges, settingRadians, seenFromPlusX(span));
    yield* passage.run();
    effects.push({ line: span.line, rapid: span.rapid, removed: passage.removed });
  }
  return effects;
}

/** One span against one section. A class because the inner loop wants its numbers at hand and no allocation. */
class SpanPassage {
  removed = 0;
  readonly #section: GearSection;
  readonly #edges: HobEdges;
  readonly #span: HobbingSpan;
  readonly #cosEta: number;
  readonly #sinEta: number;
  readonly #hobTurn: number;
  /** Changes per radian of hob rotation. */
  readonly #workRate: number;
  readonly #xRate: number;
  readonly #yRate: number;
  readonly #zRate: number;
  readonly #earliest: number;
  readonly #latest: number;
  /** How much nearer to the work axis than the middle of its tip a tooth may come, and what the quick look neglects. */
  readonly #tipMargin: number;
  readonly #trace: ToothTrace;

  constructor(section: GearSection, edges: HobEdges, settingRadians: number, span: HobbingSpan) {
    const { start, end } = span;
    this.#section = section;
    this.#edges = edges;
    this.#span = span;
    this.#cosEta = Math.cos(settingRadians);
    this.#sinEta = Math.sin(settingRadians);
    this.#hobTurn = end.hobRadians - start.hobRadians;
    this.#workRate = (end.workRadians - start.workRadians) / this.#hobTurn;
    this.#xRate = (end.x - start.x) / this.#hobTurn;
    this.#yRate = (end.y - start.y) / this.#hobTurn;
    this.#zRate = (end.z - start.z) / this.#hobTurn;
    this.#earliest = Math.min(0, this.#hobTurn);
    this.#latest = Math.max(0, this.#hobTurn);
    const drift = Math.abs(this.#zRate) + Math.abs(this.#xRate) + Math.abs(this.#yRate);
    this.#tipMargin = edges.axialPitch / 4 + drift * Math.PI;
    this.#trace = new ToothTrace(edges.outline.radius.length, edges.outline.middle);
  }

  *run(): Generator<void> {
    if (this.#hobTurn === 0) return;
    const [from, to] = this.#hobRangeNearSection();
    if (from > to) return;
    const first = Math.ceil((from - Math.PI / 2) / (2 * Math.PI)) - 1;
    const last = Math.floor((to + Math.PI / 2) / (2 * Math.PI)) + 1;
    const end = Math.min(last, first + LARGEST_REVOLUTIONS_PER_SPAN);
    for (let revolution = first; revolution <= end; revolution += 1) {
      this.#cutRevolution(revolution);
      if ((revolution & 15) === 0) yield;
    }
  }

  #cutRevolution(revolution: number): void {
    const { gashes } = this.#edges.tool;
    if (!this.#seesAnythingOf(revolution)) return;
    for (let gash = 0; gash < gashes; gash += 1) {
      const gashAngle = (2 * Math.PI * gash) / gashes;
      this.#cutWithGash(2 * Math.PI * revolution - gashAngle - this.#span.start.hobRadians, gashAngle);
    }
  }

  /** Skips a whole hob revolution during which the windows are turned away from the hob. */
  #seesAnythingOf(revolution: number): boolean {
    const middle = 2 * Math.PI * (revolution - 0.5) - this.#span.start.hobRadians;
    const x = this.#span.start.x + this.#xRate * middle;
    const slack = Math.PI * (Math.abs(this.#workRate) + Math.abs(this.#xRate) / this.#section.outermostRadius);
    const half = this.#contactHalfAngle(Math.max(this.#contactHalfChord(x), 0), x) + slack;
    return this.#section.sees(-(this.#span.start.workRadians + this.#workRate * middle), half);
  }

  /** `turned` is the hob rotation since the start of the span at which this gash points straight at the work. */
  #cutWithGash(turned: number, gashAngle: number): void {
    const x = this.#span.start.x + this.#xRate * turned;
    const aboveSection = this.#section.z - (this.#span.start.z + this.#zRate * turned);
    const reach = this.#contactHalfChord(x);
    if (reach < 0) return;
    const work = this.#span.start.workRadians + this.#workRate * turned;
    if (!this.#section.sees(-work, this.#contactHalfAngle(reach, x))) return;
    const y = this.#span.start.y + this.#yRate * turned;
    const offset = wrappedTo(this.#edges.advancePerRadian * gashAngle, this.#edges.axialPitch);
    this.#cutWithTeeth(turned, offset, x, y, aboveSection, reach);
  }

  /** At the section a tooth at u along the axis stands at y = yAtMiddle + u / cos eta, whatever its radius. */
  #cutWithTeeth(turned: number, offset: number, x: number, y: number, aboveSection: number, reach: number): void {
    const { axialPitch, tool } = this.#edges;
    const yAtMiddle = y + (aboveSection * this.#sinEta) / this.#cosEta;
    const lowest = Math.max((-reach - yAtMiddle) * this.#cosEta, -tool.length / 2);
    const highest = Math.min((reach - yAtMiddle) * this.#cosEta, tool.length / 2);
    const lastTooth = Math.floor((highest - offset) / axialPitch);
    for (let tooth = Math.ceil((lowest - offset) / axialPitch); tooth <= lastTooth; tooth += 1) {
      const along = offset + tooth * axialPitch;
      const rise = (aboveSection + along * this.#sinEta) / this.#cosEta;
      if (this.#mayReach(x, yAtMiddle + along / this.#cosEta, rise)) this.#cutWithTooth(turned, along);
    }
  }

  #cutWithTooth(atFacing: number, axial: number): void {
    const { outline } = this.#edges;
    const trace = this.#trace;
    const middle = outline.middle;
    if (!this.#tracePoint(atFacing, atFacing, axial, middle)) return;
    const turnOfMiddle = trace.turn[middle]!;
    if (turnOfMiddle < this.#earliest || turnOfMiddle > this.#latest) return;
    trace.work = this.#span.start.workRadians + this.#workRate * turnOfMiddle;
    if (!this.#section.sees(trace.angleOfMiddle(), 0)) return;
    for (let index = 0; index < outline.radius.length; index += 1) {
      if (!this.#tracePoint(atFacing, turnOfMiddle, axial, index)) return;
    }
    this.removed = Math.max(this.removed, trace.removeFrom(this.#section));
  }

  /** A quick look at the tip alone, with the hob standing still meanwhile: can the tooth reach the outermost circle? */
  #mayReach(x: number, y: number, rise: number): boolean {
    const tip = this.#edges.tipRadialReach;
    const square = tip * tip - rise * rise;
    if (square <= 0) return false;
    const tipX = x - Math.sqrt(square);
    const reached = this.#section.outermostRadius + this.#tipMargin;
    return tipX * tipX + y * y < reached * reached;
  }

  /**
   * Places one point of the outline where it crosses the section, in axes that
   * turn with the work but for `trace.work`. All turns are hob rotations since
   * the start of the span; `expectedTurn` is one near the crossing.
   */
  #tracePoint(atFacing: number, expectedTurn: number, axial: number, index: number): boolean {
    const { radius, axial: axialOffset } = this.#edges.outline;
    const along = axial + axialOffset[index]!;
    const start = this.#span.start;
    const r = radius[index]!;
    const guess = (this.#section.z - start.z - this.#zRate * expectedTurn + along * this.#sinEta) / this.#cosEta;
    if (Math.abs(guess) >= r) return false;
    const guessedTurn = atFacing + Math.asin(guess / r);
    const correction = (this.#zRate * (expectedTurn - guessedTurn)) / this.#cosEta;
    const rise = guess + correction;
    const depth = Math.sqrt(r * r - rise * rise);
    const turn = guessedTurn + correction / depth;
    const x = start.x + this.#xRate * turn - depth;
    const y = start.y + this.#yRate * turn + along * this.#cosEta + rise * this.#sinEta;
    this.#trace.place(index, x, y, this.#workRate, turn);
    return true;
  }

  /** Half the chord of the blank that the tip cylinder reaches; -1 if it stays outside. */
  #contactHalfChord(x: number): number {
    const blank = this.#section.outermostRadius;
    const gap = Math.max(x - this.#edges.tipRadialReach, 0);
    if (gap >= blank) return -1;
    return Math.sqrt(blank * blank - gap * gap) + this.#edges.axialPitch;
  }

  #contactHalfAngle(reach: number, x: number): number {
    const gap = x - this.#edges.tipRadialReach;
    return gap > 0 ? Math.atan2(reach, gap) : Math.PI;
  }

  /** The part of the hob's rotation during which its teeth can reach the section. */
  #hobRangeNearSection(): [number, number] {
    const { start, end } = this.#span;
    const reach = this.#reachAlongWork(Math.min(start.x, end.x));
    const [from, to] = shareWithin(start.z, end.z, this.#section.z - reach, this.#section.z + reach);
    const limited = isDwell(this.#span) ? Math.min(to, this.#shareOfOneWorkTurn()) : to;
    const a = start.hobRadians + this.#hobTurn * from;
    const b = start.hobRadians + this.#hobTurn * limited;
    return from > limited ? [1, 0] : [Math.min(a, b), Math.max(a, b)];
  }

  /** How far from the hob's centre, along Z, a tooth can touch the blank when the hob stands at distance `x`. */
  #reachAlongWork(x: number): number {
    const tip = this.#edges.tipRadialReach;
    const gap = Math.max(Math.min(x - this.#section.outermostRadius, tip), 0);
    const rise = Math.sqrt(tip * tip - gap * gap);
    const alongHob = Math.min(this.#edges.tool.length / 2, (Math.max(this.#contactHalfChord(x), 0) + rise) / this.#cosEta);
    return rise * this.#cosEta + alongHob * Math.abs(this.#sinEta);
  }

  /** A dwell repeats itself; so many work revolutions as the hob has starts show everything it can do. */
  #shareOfOneWorkTurn(): number {
    const workTurns = Math.abs(this.#workRate * this.#hobTurn) / (2 * Math.PI);
    const needed = 1.05 * this.#edges.tool.starts;
    return workTurns > needed ? needed / workTurns : 1;
  }
}

function wrappedTo(value: number, period: number): number {
  return value - period * Math.floor(value / period);
}

/** The shares of the way from `a` to `b` between which the value lies within the bounds; [1, 0] if nowhere. */
function shareWithin(a: number, b: number, low: number, high: number): [number, number] {
  if (a === b) return a >= low && a <= high ? [0, 1] : [1, 0];
  const one = (low - a) / (b - a);
  const two = (high - a) / (b - a);
  return [Math.max(0, Math.min(one, two)), Math.min(1, Math.max(one, two))];
}
