import type { HobTool } from './hob-tool.ts';
import type { HobbingMotion } from './hobbing-motion.ts';
import type { HobbingStretch, Obstacle } from './hobbing-stretch.ts';
import type { HobbingSpan } from './motion.ts';
import type { CutFinding } from './rules.ts';
import { cutFinding } from './rules.ts';
import { toldIn, type Told } from './told.ts';
import type { ToolStep } from './tool-steps.ts';

/**
 * What is wrong with the motion of a hob whatever it cuts: standing still in the
 * blank, running into something, work turned or tool changed while coupled.
 */

/** The hob moves while it overlaps the blank and does not turn. */
export function standingHob(stretch: HobbingStretch, { spans }: HobbingMotion): CutFinding[] {
  return spans
    .filter((span) => span.end.hobRadians === span.start.hobRadians && movesThrough(span, stretch))
    .slice(0, 1)
    .map((span) => cutFinding(span.line, 'cut-standing-hob', 'The hob moves into the blank without turning.'));
}

function movesThrough(span: HobbingSpan, stretch: HobbingStretch): boolean {
  const moves = span.end.x !== span.start.x || span.end.y !== span.start.y || span.end.z !== span.start.z;
  return moves && overlaps(span, stretch.tool, { name: 'blank', radius: stretch.gear.tipDiameter / 2, zLow: stretch.zLow, zHigh: stretch.zHigh }, stretch.settingRadians);
}

export function collisions(stretch: HobbingStretch, { spans }: HobbingMotion): CutFinding[] {
  const told = toldIn(stretch.units);
  return (stretch.obstacles ?? []).flatMap((obstacle) => {
    const span = spans.find((each) => overlaps(each, stretch.tool, obstacle, stretch.settingRadians));
    return span ? [cutFinding(span.line, 'cut-collision', `The hob runs into the ${obstacle.name}: diameter ${told.size(2 * obstacle.radius)}, ${placeAlongZ(obstacle, told)}.`)] : [];
  });
}

/** An end that nobody knows is not told. */
function placeAlongZ({ zLow, zHigh }: Obstacle, told: Told): string {
  if (zLow === -Infinity) return `from Z ${told.place(zHigh)} downward`;
  return zHigh === Infinity ? `from Z ${told.place(zLow)} upward` : `Z ${told.place(zLow)} to ${told.place(zHigh)}`;
}

/** Whether the hob's tip cylinder enters a cylinder about the work axis anywhere on the way; looked at in sixty-four places. */
function overlaps(span: HobbingSpan, tool: HobTool, body: Obstacle, settingRadians: number): boolean {
  for (let step = 0; step <= 64; step += 1) {
    const share = step / 64;
    const x = Math.abs(span.start.x + share * (span.end.x - span.start.x));
    const y = span.start.y + share * (span.end.y - span.start.y);
    const z = span.start.z + share * (span.end.z - span.start.z);
    const reach = reachAlongWork(tool, body.radius, { x, y }, settingRadians);
    if (reach > 0 && z - reach < body.zHigh && z + reach > body.zLow) return true;
  }
  return false;
}

/** How far along Z the swivelled tip cylinder reaches inside a cylinder of the work: the largest over points across it, within the length of the hob. */
function reachAlongWork(tool: HobTool, bodyRadius: number, centre: { x: number; y: number }, settingRadians: number): number {
  const tip = tool.tipDiameter / 2;
  let reach = 0;
  for (let step = -32; step <= 32; step += 1) {
    const y = (bodyRadius * step) / 32;
    const fromMiddle = Math.abs(y - centre.y);
    if (fromMiddle > (tool.length / 2) * Math.cos(settingRadians)) continue;
    const gap = centre.x - Math.sqrt(bodyRadius ** 2 - y ** 2);
    if (gap >= tip) continue;
    reach = Math.max(reach, Math.sqrt(tip ** 2 - Math.max(gap, 0) ** 2) / Math.cos(settingRadians) + fromMiddle * Math.abs(Math.tan(settingRadians)));
  }
  return reach;
}

/** C beside Z makes a helix, also on the way back between cuts; whether it is the right one, the cut shows. */
export function indexing(steps: readonly ToolStep[]): CutFinding[] {
  return steps.flatMap((step) => {
    if (!step.sync) return [];
    if (step.changesTool) return [cutFinding(step.line, 'cut-index', 'The tool is changed while hob and work are coupled.')];
    if (step.from.c !== step.to.c && step.from.z === step.to.z) return [cutFinding(step.line, 'cut-index', 'The work is turned by a C word while hob and work are coupled.')];
    return [];
  });
}
