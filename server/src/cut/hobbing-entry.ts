import type { CuttingSpan } from './hobbing-judgement.ts';
import { isRadial } from './hobbing-judgement.ts';
import type { HobbingStretch } from './hobbing-stretch.ts';
import type { HobbingSpan } from './motion.ts';
import type { CutFinding } from './rules.ts';
import { cutFinding } from './rules.ts';
import { toldIn, type Told } from './told.ts';

/**
 * How the hob comes to its depth: along the work or radially, as was asked for,
 * and with the radial feed that was asked for. Only feeds are judged here; what
 * cuts in rapid is wrong in any case and named elsewhere.
 */

const FEED_ALLOWANCE_SHARE = 0.02;

export function judgeEntry(stretch: HobbingStretch, cutting: readonly CuttingSpan[]): CutFinding[] {
  const radial = cutting.map(({ span }) => span).filter((span) => !span.rapid && isRadial(span));
  const asked = stretch.radialFeedPerWorkTurn;
  const [first] = cutting;
  if (asked === undefined) return radial.slice(0, 1).map(({ line }) => cutFinding(line, 'cut-entry', 'The hob feeds into the work radially; the note asks for axial entry.'));
  if (radial.length === 0 && first) return [cutFinding(first.span.line, 'cut-entry', 'The hob does not feed into the work radially; the note asks for a plunge.')];
  return radial.flatMap((span) => radialFeedFinding(span, asked, toldIn(stretch.units)));
}

function radialFeedFinding(span: HobbingSpan, asked: number, told: Told): CutFinding[] {
  const workTurns = Math.abs(span.end.workRadians - span.start.workRadians) / (2 * Math.PI);
  if (workTurns === 0) return [];
  const feed = Math.abs(span.end.x - span.start.x) / workTurns;
  if (Math.abs(feed / asked - 1) <= FEED_ALLOWANCE_SHARE) return [];
  return [cutFinding(span.line, 'cut-feed', `The hob feeds ${told.size(feed, 4)} radially for one revolution of the work; the note asks for ${told.place(asked, 4)}.`)];
}
