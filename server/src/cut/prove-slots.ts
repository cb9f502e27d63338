import { cutsUnclamped, turnsClamped } from './clamping.ts';
import { measuredPolygon, polygonFigures, polygonFindings } from './polygon-verdict.ts';
import type { CutFigure, CutFinding, StretchProof } from './rules.ts';
import { cutFinding } from './rules.ts';
import type { Bite } from './slot-cut.ts';
import { bitesOf } from './slot-cut.ts';
import { movesThroughMaterial, strokesIntoReliefWall } from './slot-dangers.ts';
import { measureSlots } from './slot-measure.ts';
import { slotMotion } from './slot-motion.ts';
import type { SlotJudgement } from './slot-places.ts';
import type { SlotStretch } from './slot-stretch.ts';
import { nothingCut, slotFigures, slotFindings } from './slot-verdict.ts';
import { toldIn } from './told.ts';
import type { ToolStep } from './tool-steps.ts';

/**
 * Proves one slotting stretch: the strokes that the program makes are carried
 * out on a virtual bore, what they leave is measured, and what differs from what
 * is wanted is named. Lengths in mm.
 */

/** A first stroke may take a little more than the feed: an insert ground to a wide class touches before one of the nominal width. */
const BITE_ALLOWANCE_SHARE = 1.25;
const BITE_ALLOWANCE = 0.005;
/** Thinner than this is no cut to speak of, in mm. */
const LEAST_BITE = 0.001;

export function proveSlots(stretch: SlotStretch, steps: readonly ToolStep[]): StretchProof {
  const motion = slotMotion(stretch, steps);
  const { sweeps } = motion;
  const context: SlotJudgement = { stretch, sweeps, line: steps.find((step) => step.kind === 'feed')?.line ?? steps[0]?.line ?? 0, told: toldIn(stretch.units) };
  const bites = bitesOf(sweeps, stretch.bore);
  const { findings, figures } = judgeShape(context);
  const ofMotion = [...turnsClamped(steps), ...strokesUnclamped(steps, bites), ...unitStands(stretch, steps), ...movesThroughMaterial(context, motion), ...strokesIntoReliefWall(context), ...judgeBites(context, bites)];
  return { findings: inOrder([...ofMotion, ...findings]), figures, assumptions: [] };
}

function judgeShape(context: SlotJudgement): { findings: CutFinding[]; figures: CutFigure[] } {
  const { stretch: { form, bore }, sweeps, line } = context;
  const nothing = (): CutFinding[] => [cutFinding(line, 'slot-nothing', nothingCut(context))];
  if (form.kind === 'polygon') {
    const measured = measuredPolygon(context);
    return { findings: measured.corners.length === 0 ? nothing() : polygonFindings(context, form, measured), figures: polygonFigures(context, form, measured) };
  }
  const slots = measureSlots(sweeps, bore);
  return { findings: slots.length === 0 ? nothing() : slotFindings(context, form, slots), figures: slotFigures(context, form, slots) };
}

/** A driven unit that stands while the slide feeds outward inside or before the bore. */
function unitStands(stretch: SlotStretch, steps: readonly ToolStep[]): CutFinding[] {
  if (!stretch.stroke) return [];
  const standing = steps.find((step) => step.kind === 'feed' && step.driveRpm === 0 && Math.abs(step.to.x) > Math.abs(step.from.x));
  return standing ? [cutFinding(standing.line, 'slot-not-stroking', 'The slide feeds outward while the stroke unit stands: the driven tool is not started.')] : [];
}

/** A bite is told by the line of its stroke. */
function strokesUnclamped(steps: readonly ToolStep[], bites: readonly Bite[]): CutFinding[] {
  const cutting = new Set(bites.filter(({ depth }) => depth > LEAST_BITE).map(({ line }) => line));
  return cutsUnclamped(steps, 'work-unclamped', ({ line }) => cutting.has(line));
}

/** The first stroke too deep is enough: what follows is its consequence. */
function judgeBites({ stretch, told }: SlotJudgement, bites: readonly Bite[]): CutFinding[] {
  const most = BITE_ALLOWANCE_SHARE * stretch.feedPerStroke + BITE_ALLOWANCE;
  const deep = bites.find((bite) => bite.depth > most);
  if (!deep) return [];
  const worst = bites.reduce((greatest, bite) => Math.max(greatest, bite.depth), 0);
  const how = deep.rapid ? 'A rapid move cuts' : 'A stroke cuts';
  return [cutFinding(deep.line, 'slot-bite', `${how} ${told.size(worst)} at once; the feed is ${told.size(stretch.feedPerStroke, 4)} a stroke. The infeed starts beyond the first contact of the insert's corners, or the feed is too fast.`)];
}

/** Of several findings of one rule on one line the first is told, and how many more there are. */
function inOrder(findings: readonly CutFinding[]): CutFinding[] {
  const groups = new Map<string, CutFinding[]>();
  for (const finding of findings) {
    const key = `${finding.line} ${finding.rule}`;
    groups.set(key, [...(groups.get(key) ?? []), finding]);
  }
  return [...groups.values()].map(withCount).sort((a, b) => a.line - b.line);
}

function withCount([first, ...others]: CutFinding[]): CutFinding {
  return others.length === 0 ? first! : { ...first!, message: `${first!.message} The same holds ${others.length === 1 ? 'once' : `${others.length} times`} more.` };
}
