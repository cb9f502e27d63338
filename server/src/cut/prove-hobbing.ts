import { turnsClamped } from './clamping.ts';
import type { HobbingJob, Progress } from './gear-cut.ts';
import { cutGear } from './gear-cut.ts';
import { measureGear } from './gear-report.ts';
import { collisions, indexing, standingHob } from './hobbing-dangers.ts';
import { hobbingFigures } from './hobbing-figures.ts';
import type { Judgement } from './hobbing-judgement.ts';
import type { HobbingMachine } from './hobbing-motion.ts';
import { hobbingMotion } from './hobbing-motion.ts';
import { rapidsIntoMaterial } from './hobbing-rapids.ts';
import type { HobbingStretch } from './hobbing-stretch.ts';
import { hobbingVerdict } from './hobbing-verdict.ts';
import type { CutFinding, StretchProof } from './rules.ts';
import type { ToolStep } from './tool-steps.ts';

/**
 * Proves one hobbing stretch: the steps of the program are carried out on a
 * virtual blank, the gear is measured, and what differs from the wanted gear is
 * named together with the cause that the motion shows.
 */

export function* proveHobbing(stretch: HobbingStretch, steps: readonly ToolStep[], machine: HobbingMachine): Generator<Progress, StretchProof> {
  const motion = hobbingMotion(steps, machine);
  const job: HobbingJob = { ...stretch, spans: motion.spans };
  const standing = standingHob(stretch, motion);
  const beforehand = [...standing, ...turnsClamped(steps), ...indexing(steps), ...collisions(stretch, motion)];
  const cut = yield* cutGear(job);
  const measured = measureGear(cut);
  const context: Judgement = { stretch, motion, machine, cut, measured };
  return {
    findings: inOrder([...beforehand, ...hobbingVerdict(context).filter(({ rule }) => standing.length === 0 || rule !== 'cut-nothing'), ...rapidsIntoMaterial(stretch, motion)]),
    figures: hobbingFigures(context),
    assumptions: [],
  };
}

/** One finding of a rule on a line is enough. */
function inOrder(findings: CutFinding[]): CutFinding[] {
  const seen = new Set<string>();
  const once = findings.filter(({ line, rule }) => !seen.has(`${line} ${rule}`) && seen.add(`${line} ${rule}`));
  return once.sort((a, b) => a.line - b.line);
}
