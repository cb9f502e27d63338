import { radians } from '../trade/angles.ts';
import type { EngravingStretch } from './engraving-stretch.ts';
import type { ToolPlace } from './tool-steps.ts';

/**
 * Where the tip of an engraving cutter stands on the work: along and up on the
 * flat, or unrolled, surface as a reader of the text sees it, and how deep. It is
 * worked out from the machine's axes alone: the work has been turned by C, and
 * the tip stands over another place of it.
 *
 * Face: up is away from the axis where the text starts, along is clockwise.
 * Cylinder: up leaves the face, along is counter-clockwise. Lengths in mm.
 */
export interface SurfacePlace {
  along: number;
  up: number;
  /** Under the surface; negative above it. */
  depth: number;
}

export function surfacePlace(stretch: EngravingStretch, place: ToolPlace): SurfacePlace {
  const { surface } = stretch;
  const turned = -radians(stretch.workRotation * place.c + stretch.angleDegrees);
  if (surface.kind === 'face') {
    const x = place.x * Math.cos(turned) - place.y * Math.sin(turned);
    const y = place.x * Math.sin(turned) + place.y * Math.cos(turned);
    return { along: 0 - y, up: x - surface.baselineRadius, depth: surface.z - place.z };
  }
  const angle = Math.atan2(place.y, place.x) + turned;
  return { along: surface.radius * angle, up: place.z - surface.baselineZ, depth: surface.radius - Math.hypot(place.x, place.y) };
}

/** Whether the place moves on the surface in a straight line when the axes do. */
export function movesStraight({ surface }: EngravingStretch, from: ToolPlace, to: ToolPlace): boolean {
  return surface.kind === 'face' ? from.c === to.c : from.y === 0 && to.y === 0;
}
