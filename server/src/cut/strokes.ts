import type { EdgeSweep, InsertEdge } from './slot-cut.ts';

/**
 * A driven stroke unit seen as sweeps of its edge: a crank moves the insert to
 * and fro along Z while the slide moves it in X. The edge cuts on the way out
 * and is lifted on the way back.
 *
 * The crank is taken to be at the near end of its stroke when the unit takes its
 * place, and its motion to be a sine; neither changes the finished slot, because
 * the last strokes run at a standing slide.
 */
export interface StrokePath extends InsertEdge {
  workRadians: number;
  y: number;
  /** Where the stroke begins, and its length with the sign of the cutting direction, in mm. */
  strokeStartZ: number;
  strokeAlongZ: number;
  strokesPerMinute: number;
  /** Where the edge starts, and the moves of the slide one after the other. */
  startX: number;
  legs: readonly SlideLeg[];
}

/** One move of the slide: straight to `toX` in so many seconds; a dwell goes nowhere. */
export interface SlideLeg {
  toX: number;
  seconds: number;
  line: number;
  rapid: boolean;
}

/** Pieces into which one cutting stroke is divided, so that the edge's slant along Z is followed. */
const PIECES_PER_STROKE = 6;
/** More strokes than any slot needs; a path that asks for more is no slotting. */
export const LARGEST_STROKE_COUNT = 20_000;

/** The cutting strokes along the path, in order. A stroke counts when its cutting half is over before the path ends. */
export function strokesOf(path: StrokePath): EdgeSweep[] {
  const secondsPerStroke = 60 / path.strokesPerMinute;
  const slide = new SlidePath(path);
  const count = Math.floor((slide.seconds * (1 + 1e-6)) / secondsPerStroke + 0.5);
  const sweeps: EdgeSweep[] = [];
  for (let stroke = 0; stroke < Math.min(count, LARGEST_STROKE_COUNT); stroke += 1) {
    for (let piece = 0; piece < PIECES_PER_STROKE; piece += 1) {
      sweeps.push(pieceOfStroke(path, slide, stroke * secondsPerStroke, secondsPerStroke, piece));
    }
  }
  return sweeps;
}

function pieceOfStroke(path: StrokePath, slide: SlidePath, begin: number, secondsPerStroke: number, piece: number): EdgeSweep {
  const from = piece / PIECES_PER_STROKE;
  const to = (piece + 1) / PIECES_PER_STROKE;
  const start = slide.at(begin + (from * secondsPerStroke) / 2);
  const end = slide.at(begin + (to * secondsPerStroke) / 2);
  return {
    workRadians: path.workRadians,
    y: path.y,
    insertWidth: path.insertWidth,
    ...(path.point ? { point: path.point } : {}),
    fromX: start.x,
    fromZ: path.strokeStartZ + path.strokeAlongZ * crankShare(from),
    toX: end.x,
    toZ: path.strokeStartZ + path.strokeAlongZ * crankShare(to),
    line: end.line,
    rapid: end.rapid,
  };
}

/** Where the slide is at any time of the path. */
class SlidePath {
  readonly seconds: number;

  constructor(private readonly path: StrokePath) {
    this.seconds = path.legs.reduce((sum, leg) => sum + leg.seconds, 0);
  }

  at(seconds: number): { x: number; line: number; rapid: boolean } {
    let x = this.path.startX;
    let left = seconds;
    for (const leg of this.path.legs) {
      if (left <= leg.seconds) return { x: x + shareOf(left, leg) * (leg.toX - x), line: leg.line, rapid: leg.rapid };
      left -= leg.seconds;
      x = leg.toX;
    }
    const last = this.path.legs.at(-1);
    return { x, line: last?.line ?? 0, rapid: last?.rapid ?? false };
  }
}

function shareOf(seconds: number, leg: SlideLeg): number {
  return leg.seconds > 0 ? seconds / leg.seconds : 1;
}

/** The share of the stroke that a sinusoidal crank has covered at a share of its cutting half turn. */
function crankShare(halfTurnShare: number): number {
  return (1 - Math.cos(Math.PI * halfTurnShare)) / 2;
}
