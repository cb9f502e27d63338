import type { Hand } from '../trade/hands.ts';
import { shown } from '../trade/quantity.ts';
import type { CutFigure, CutFinding, StretchProof } from './rules.ts';
import { cutFinding } from './rules.ts';
import type { ToolPlace, ToolStep } from './tool-steps.ts';

/**
 * Follows the tip of an engraving cutter over its surface: where it goes in, how
 * deep it runs, and that it neither rapids nor stands in the work. What the
 * letters say is not read. Lengths in mm.
 */
export interface EngravingStretch {
  /** The face's Z and the way along Z that leaves it, or the cylinder's radius. */
  surface: { kind: 'face'; z: number; outward: Hand } | { kind: 'cylinder'; radius: number };
  depth: number;
}

const DEPTH_ALLOWANCE = 0.002;

export function proveEngraving(stretch: EngravingStretch, steps: readonly ToolStep[]): StretchProof {
  const cutting = steps.filter((step) => step.kind === 'feed' && isIn(stretch, step.to));
  const deepest = Math.max(0, ...steps.map((step) => depthAt(stretch, step.to)));
  const findings = cutting.length === 0 ? [nothingCut(stretch, steps)] : [...wrongMoves(stretch, steps), ...wrongDepths(stretch, cutting)];
  return { findings, figures: figuresOf(stretch, steps, deepest), assumptions: [] };
}

/** How far a place lies under the surface; negative above it. */
function depthAt({ surface }: EngravingStretch, place: ToolPlace): number {
  return surface.kind === 'face' ? surface.outward * (surface.z - place.z) : surface.radius - Math.abs(place.x);
}

function isIn(stretch: EngravingStretch, place: ToolPlace): boolean {
  return depthAt(stretch, place) > 1e-6;
}

function nothingCut({ surface }: EngravingStretch, steps: readonly ToolStep[]): CutFinding {
  const where = surface.kind === 'face' ? `the face at Z ${shown(surface.z, 3)}` : `the cylinder of diameter ${shown(2 * surface.radius, 3)}`;
  return cutFinding(steps[0]?.line ?? 0, 'engrave-nothing', `The cutter never feeds below ${where}.`);
}

/** A rapid move may leave the work, but neither enter it nor go along in it. */
function wrongMoves(stretch: EngravingStretch, steps: readonly ToolStep[]): CutFinding[] {
  const rapid = steps.find((step) => step.kind === 'rapid' && isIn(stretch, step.to));
  const standing = steps.find((step) => step.kind === 'feed' && isIn(stretch, step.to) && step.driveRpm === 0);
  return [
    ...(rapid ? [cutFinding(rapid.line, 'engrave-rapid', `A rapid move ends ${shown(depthAt(stretch, rapid.to), 3)} mm below the surface.`)] : []),
    ...(standing ? [cutFinding(standing.line, 'engrave-standing', 'The cutter feeds into the work without turning.')] : []),
  ];
}

/** Strokes are measured where they end: the plunge and every point after it. */
function wrongDepths(stretch: EngravingStretch, cutting: readonly ToolStep[]): CutFinding[] {
  const wrong = cutting.find((step) => Math.abs(depthAt(stretch, step.to) - stretch.depth) > DEPTH_ALLOWANCE);
  if (!wrong) return [];
  return [cutFinding(wrong.line, 'engrave-depth', `The cutter runs ${shown(depthAt(stretch, wrong.to), 4)} mm below the surface; ${shown(stretch.depth, 4)} is wanted.`)];
}

function figuresOf(stretch: EngravingStretch, steps: readonly ToolStep[], deepest: number): CutFigure[] {
  const plunges = steps.filter((step) => isIn(stretch, step.to) && !isIn(stretch, step.from)).length;
  const along = steps.filter((step) => isIn(stretch, step.to) && isIn(stretch, step.from));
  return [
    { id: 'strokes', name: 'strokes', value: plunges, unit: '' },
    { id: 'depth', name: 'greatest depth', value: deepest, unit: 'mm', wanted: stretch.depth },
    { id: 'pathLength', name: 'length of the strokes', value: along.reduce((sum, step) => sum + lengthOn(stretch, step), 0), unit: 'mm' },
  ];
}

function lengthOn({ surface }: EngravingStretch, { from, to }: ToolStep): number {
  if (surface.kind === 'face') return Math.hypot(to.x - from.x, to.y - from.y);
  return Math.hypot(((to.c - from.c) * Math.PI * surface.radius) / 180, to.z - from.z);
}
