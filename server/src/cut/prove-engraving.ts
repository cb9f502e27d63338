import { radians } from '../trade/angles.ts';
import { cutsUnclamped, turnsClamped } from './clamping.ts';
import { lengthOf } from './drawn-lines.ts';
import { engravingCuts, type EngravingCut } from './engraving-cuts.ts';
import type { EngravingStretch } from './engraving-stretch.ts';
import type { CutFigure, CutFinding, StretchProof } from './rules.ts';
import { cutFinding } from './rules.ts';
import { strokeAllowance, textFigures, textFindings, type TextJudgement } from './text-verdict.ts';
import { toldIn, type Told } from './told.ts';
import type { ToolStep } from './tool-steps.ts';

/**
 * Proves one engraving stretch: follows the tip of the cutter over its surface,
 * how deep it runs, that it neither rapids nor stands in the work, and reads what
 * it writes. Lengths in mm.
 */
const DEPTH_ALLOWANCE = 0.002;

export function proveEngraving(stretch: EngravingStretch, steps: readonly ToolStep[]): StretchProof {
  const cuts = engravingCuts(stretch, steps);
  const feeding = cuts.filter(({ rapid }) => !rapid);
  const context: TextJudgement = { stretch, cuts: feeding, told: toldIn(stretch.units) };
  const findings = feeding.length === 0 ? [nothingCut(stretch, steps)] : [...wrongMoves(cuts, context.told), ...wrongClamping(stretch, steps, feeding), ...wrongDepth(context), ...textFindings(context)];
  return {
    findings: findings.sort((a, b) => a.line - b.line),
    figures: [...depthFigures(stretch, feeding), ...textFigures(context)],
    assumptions: [`A stroke counts as in its place within ${context.told.size(strokeAllowance(stretch))}.`],
  };
}

function nothingCut({ surface }: EngravingStretch, steps: readonly ToolStep[]): CutFinding {
  return cutFinding(steps[0]?.line ?? 0, 'engrave-nothing', `The cutter never feeds below the ${surface.kind === 'face' ? 'face' : 'surface of the cylinder'}.`);
}

/** A rapid move may leave the work, but neither enter it nor go along in it. */
function wrongMoves(cuts: readonly EngravingCut[], told: Told): CutFinding[] {
  const rapid = cuts.find((cut) => cut.rapid && (cut.to.depth > cut.from.depth + 1e-6 || lengthOf(cut) > DEPTH_ALLOWANCE));
  const standing = cuts.find(({ rapid: isRapid, turning }) => !isRapid && !turning);
  return [
    ...(rapid ? [cutFinding(rapid.line, 'engrave-rapid', `A rapid move goes ${told.size(Math.max(rapid.from.depth, rapid.to.depth))} below the surface.`)] : []),
    ...(standing ? [cutFinding(standing.line, 'engrave-standing', 'The cutter feeds into the work without turning.')] : []),
  ];
}

/** Round a cylinder C cuts, so it cannot be clamped. */
function wrongClamping({ surface }: EngravingStretch, steps: readonly ToolStep[], cuts: readonly EngravingCut[]): CutFinding[] {
  if (surface.kind === 'cylinder') return turnsClamped(steps);
  const cutting = new Set(cuts.map(({ line }) => line));
  return [...turnsClamped(steps), ...cutsUnclamped(steps, 'engrave-unclamped', ({ line }) => cutting.has(line))];
}

/** Strokes are measured along all of their way; on its way in and out the cutter is anywhere. */
function wrongDepth({ stretch, cuts, told }: TextJudgement): CutFinding[] {
  const wrong = depthsOf(cuts).find(({ depth }) => Math.abs(depth - stretch.depth) > DEPTH_ALLOWANCE);
  if (!wrong) return [];
  const width = `the line comes to ${told.size(lineWidth(stretch, wrong.depth))} instead of ${told.place(lineWidth(stretch, stretch.depth))}`;
  return [cutFinding(wrong.line, 'engrave-depth', `The cutter runs ${told.size(wrong.depth, 4)} below the surface; ${told.place(stretch.depth, 4)} is wanted: ${width}.`)];
}

function depthsOf(cuts: readonly EngravingCut[]): { depth: number; line: number }[] {
  return cuts.filter(({ atDepth }) => atDepth).map(({ to, line }) => ({ depth: to.depth, line }));
}

/** The cutter is a cone with a flat tip. */
function lineWidth({ tipDiameter, tipAngleDegrees }: EngravingStretch, depth: number): number {
  return tipDiameter + 2 * depth * Math.tan(radians(tipAngleDegrees / 2));
}

function depthFigures(stretch: EngravingStretch, cuts: readonly EngravingCut[]): CutFigure[] {
  const deepest = depthsOf(cuts).reduce((most, { depth }) => Math.max(most, depth), 0);
  return [
    { id: 'strokes', name: 'strokes', value: cuts.filter(({ goesOn }) => !goesOn).length, unit: '' },
    { id: 'depth', name: 'greatest depth', value: deepest, unit: 'mm', wanted: stretch.depth },
    { id: 'lineWidth', name: 'greatest width of the line', value: lineWidth(stretch, deepest), unit: 'mm', wanted: lineWidth(stretch, stretch.depth) },
    { id: 'pathLength', name: 'length of the strokes', value: cuts.reduce((sum, cut) => sum + lengthOf(cut), 0), unit: 'mm' },
  ];
}
