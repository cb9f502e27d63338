import type { GearSection } from './gear-section.ts';

/**
 * The polyline that one tooth of the hob draws in a section of the work, and
 * what it takes away there: on every circle the arc inside the tooth. One trace
 * is used again for every tooth, so that nothing is allocated on the way.
 */
export class ToothTrace {
  /** Work rotation that still has to be taken off the angles of the points. */
  work = 0;
  readonly turn: Float64Array;
  readonly #x: Float64Array;
  readonly #y: Float64Array;
  readonly #distance: Float64Array;
  readonly #middle: number;
  readonly #crossings: number[] = [];
  #isValley = false;
  /** Distance of the nearest corner from the work axis. */
  #lowest = 0;
  /** First point below the circle from the left, last one from the right. */
  #left = 1;
  #right = 0;

  constructor(points: number, middle: number) {
    this.turn = new Float64Array(points);
    this.#x = new Float64Array(points);
    this.#y = new Float64Array(points);
    this.#distance = new Float64Array(points);
    this.#middle = middle;
  }

  place(index: number, x: number, y: number, workRate: number, turn: number): void {
    const lag = -workRate * (turn - this.turn[this.#middle]!);
    const own = index === this.#middle ? 0 : lag;
    const isSmall = own > -SMALL_ANGLE && own < SMALL_ANGLE;
    const cos = isSmall ? smallCosine(own) : Math.cos(own);
    const sin = isSmall ? smallSine(own) : Math.sin(own);
    this.turn[index] = turn;
    this.#x[index] = x * cos - y * sin;
    this.#y[index] = x * sin + y * cos;
    this.#distance[index] = Math.sqrt(x * x + y * y);
  }

  angleOfMiddle(): number {
    return Math.atan2(this.#y[this.#middle]!, this.#x[this.#middle]!) - this.work;
  }

  /** Returns the longest arc taken from any circle, in mm. */
  removeFrom(section: GearSection): number {
    let removed = 0;
    const deepest = this.#deepest();
    section.deepestRadius = Math.min(section.deepestRadius, deepest);
    for (let circle = section.radii.length - 1; circle >= 0 && section.radii[circle]! > deepest; circle -= 1) {
      removed = Math.max(removed, this.#removeFromCircle(section, circle) * section.radii[circle]!);
    }
    return removed;
  }

  /** Between two consecutive crossings the outline runs below the circle, so the arc between them lies inside the tooth. */
  #removeFromCircle(section: GearSection, circle: number): number {
    if (this.#isValley) this.#findTwoCrossings(section.radii[circle]!);
    else this.#findCrossings(section.radii[circle]!);
    let removed = 0;
    for (let index = 0; index + 1 < this.#crossings.length; index += 2) {
      const a = this.#crossings[index]!;
      const b = a + nearZero(this.#crossings[index + 1]! - a);
      removed += section.circles[circle]!.remove(Math.min(a, b) - this.work, Math.max(a, b) - this.work);
    }
    return removed;
  }

  /** In a plain valley the crossings move inward with the circle, so the search goes on where it stood. */
  #findTwoCrossings(radius: number): void {
    this.#crossings.length = 0;
    if (this.#lowest >= radius) return;
    if (this.#distance[0]! <= radius || this.#distance.at(-1)! <= radius) return this.#findCrossings(radius);
    while (this.#distance[this.#left]! > radius) this.#left += 1;
    while (this.#distance[this.#right]! > radius) this.#right -= 1;
    this.#crossings.push(this.#crossingAngle(this.#left, radius), this.#crossingAngle(this.#right + 1, radius));
  }

  #findCrossings(radius: number): void {
    this.#crossings.length = 0;
    for (let index = 1; index < this.#distance.length; index += 1) {
      const before = this.#distance[index - 1]! > radius;
      if (before !== this.#distance[index]! > radius) this.#crossings.push(this.#crossingAngle(index, radius));
    }
  }

  /** Where the straight piece that ends at `index` meets the circle. */
  #crossingAngle(index: number, radius: number): number {
    const x = this.#x[index - 1]!;
    const y = this.#y[index - 1]!;
    const dx = this.#x[index]! - x;
    const dy = this.#y[index]! - y;
    const a = dx * dx + dy * dy;
    const b = x * dx + y * dy;
    const c = x * x + y * y - radius * radius;
    const root = Math.sqrt(Math.max(b * b - a * c, 0));
    const share = c > 0 ? (-b - root) / a : (-b + root) / a;
    return Math.atan2(y + share * dy, x + share * dx);
  }

  /** Whether the trace comes nearer to the axis up to one point and goes away from it behind: then every circle meets it twice. */
  #looksLikeValley(nearest: number): boolean {
    for (let index = 1; index < this.#distance.length; index += 1) {
      if (this.#distance[index]! < this.#distance[index - 1]! !== index <= nearest) return false;
    }
    return true;
  }

  /** The nearest point need not be a corner: a straight piece may pass closer to the axis than its ends. */
  #deepest(): number {
    let nearest = 0;
    for (let index = 1; index < this.#distance.length - 1; index += 1) {
      if (this.#distance[index]! < this.#distance[nearest]!) nearest = index;
    }
    this.#isValley = this.#looksLikeValley(nearest);
    this.#lowest = this.#distance[nearest]!;
    this.#left = 1;
    this.#right = this.#distance.length - 2;
    return Math.sqrt(Math.min(this.#squareOfPiece(Math.max(nearest, 1)), this.#squareOfPiece(nearest + 1)));
  }

  #squareOfPiece(index: number): number {
    const x = this.#x[index - 1]!;
    const y = this.#y[index - 1]!;
    const dx = this.#x[index]! - x;
    const dy = this.#y[index]! - y;
    const length = dx * dx + dy * dy;
    const share = length > 0 ? Math.min(1, Math.max(0, -(x * dx + y * dy) / length)) : 0;
    const nearX = x + share * dx;
    const nearY = y + share * dy;
    return nearX * nearX + nearY * nearY;
  }
}

/** Below this angle in radians the series are exact to 1e-11; the library functions cost most of the cut's time. */
const SMALL_ANGLE = 0.05;

function smallCosine(angle: number): number {
  const square = angle * angle;
  return 1 - square * (0.5 - square / 24);
}

function smallSine(angle: number): number {
  const square = angle * angle;
  return angle * (1 - square * (1 / 6 - square / 120));
}

function nearZero(angle: number): number {
  return angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));
}
