import type { EdgeSweep } from './slot-cut.ts';

/**
 * A driven stroke unit seen as sweeps of its edge: a crank moves the insert to
 * and fro along Z while the slide feeds it outward in X. The edge cuts on the
 * way out and is lifted on the way back.
 *
 * The crank is taken to be at the near end of its stroke when the feed begins,
 * and its motion to be a sine; neither changes the finished slot, because the
 * last strokes run at a standing slide.
 */
export interface StrokeFeed {
  workRadians: number;
  y: number;
  insertWidth: number;
  /** Distance of the edge from the work axis at the start and end of the feed, in mm. */
  fromX: number;
  toX: number;
  /** Where the stroke begins, and its length with the sign of the cutting direction. */
  strokeStartZ: number;
  strokeAlongZ: number;
  strokesPerMinute: number;
  /** Duration of the feed and of the dwell that follows it. */
  feedSeconds: number;
  dwellSeconds: number;
  line: number;
}

/** Pieces into which one cutting stroke is divided, so that the edge's slant along Z is followed. */
const PIECES_PER_STROKE = 6;
/** More strokes than any slot needs; a feed that asks for more is not a slotting feed. */
export const LARGEST_STROKE_COUNT = 20_000;

/** The cutting strokes of one feed and its dwell, in order. */
export function strokesOf(feed: StrokeFeed): EdgeSweep[] {
  const secondsPerStroke = 60 / feed.strokesPerMinute;
  const count = Math.floor((feed.feedSeconds + feed.dwellSeconds) / secondsPerStroke + 1e-6);
  const sweeps: EdgeSweep[] = [];
  for (let stroke = 0; stroke < Math.min(count, LARGEST_STROKE_COUNT); stroke += 1) {
    for (let piece = 0; piece < PIECES_PER_STROKE; piece += 1) {
      sweeps.push(pieceOfStroke(feed, stroke * secondsPerStroke, secondsPerStroke, piece));
    }
  }
  return sweeps;
}

function pieceOfStroke(feed: StrokeFeed, begin: number, secondsPerStroke: number, piece: number): EdgeSweep {
  const from = piece / PIECES_PER_STROKE;
  const to = (piece + 1) / PIECES_PER_STROKE;
  return {
    workRadians: feed.workRadians,
    y: feed.y,
    insertWidth: feed.insertWidth,
    fromX: edgeAfter(feed, begin + (from * secondsPerStroke) / 2),
    fromZ: feed.strokeStartZ + feed.strokeAlongZ * crankShare(from),
    toX: edgeAfter(feed, begin + (to * secondsPerStroke) / 2),
    toZ: feed.strokeStartZ + feed.strokeAlongZ * crankShare(to),
    line: feed.line,
    rapid: false,
  };
}

function edgeAfter(feed: StrokeFeed, seconds: number): number {
  const share = feed.feedSeconds > 0 ? Math.min(1, seconds / feed.feedSeconds) : 1;
  return feed.fromX + share * (feed.toX - feed.fromX);
}

/** The share of the stroke that a sinusoidal crank has covered at a share of its cutting half turn. */
function crankShare(halfTurnShare: number): number {
  return (1 - Math.cos(Math.PI * halfTurnShare)) / 2;
}
