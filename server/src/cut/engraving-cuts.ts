import { widthOfText } from '../trade/strokes.ts';
import { movesStraight, surfacePlace, type SurfacePlace } from './engraving-place.ts';
import type { EngravingStretch } from './engraving-stretch.ts';
import type { ToolStep } from './tool-steps.ts';

/** What an engraving cutter does under the surface, piece by piece. Lengths in mm. */
export interface EngravingCut {
  from: SurfacePlace;
  to: SurfacePlace;
  line: number;
  rapid: boolean;
  turning: boolean;
  /** It goes on where the cut before it ended. */
  goesOn: boolean;
  /** Its end is at the depth of a stroke: not on the way in or out. */
  atDepth: boolean;
}

/** Above this the tip is out of the work: rounding of words. */
const SURFACE = 1e-6;
/** Into so many pieces a motion is divided that bends on the surface. */
const PIECES_OF_A_BEND = 32;

export function engravingCuts(stretch: EngravingStretch, steps: readonly ToolStep[]): EngravingCut[] {
  const cuts = steps.flatMap((step) => cutsOf(stretch, step));
  return onOneTurn(stretch, cuts.map((cut, index) => ({ ...cut, goesOn: isSame(cuts[index - 1]?.to, cut.from) })));
}

function cutsOf(stretch: EngravingStretch, step: ToolStep): Omit<EngravingCut, 'goesOn'>[] {
  const pieces = piecesOf(stretch, step);
  const [first, last] = [pieces[0]!, pieces.at(-1)!];
  const isWithin = first.from.depth > SURFACE && last.to.depth > SURFACE;
  return pieces.flatMap((piece) => underSurface(piece, step).map((cut) => ({ ...cut, atDepth: isWithin || (piece === last && last.to.depth > SURFACE) })));
}

interface Piece {
  from: SurfacePlace;
  to: SurfacePlace;
}

function piecesOf(stretch: EngravingStretch, { from, to }: ToolStep): Piece[] {
  const count = movesStraight(stretch, from, to) ? 1 : PIECES_OF_A_BEND;
  const between = (start: number, end: number, share: number): number => start + share * (end - start);
  const places = Array.from({ length: count + 1 }, (_, index) => {
    const share = index / count;
    return surfacePlace(stretch, { x: between(from.x, to.x, share), y: between(from.y, to.y, share), z: between(from.z, to.z, share), c: between(from.c, to.c, share) });
  });
  return places.slice(1).map((end, index) => ({ from: places[index]!, to: end }));
}

/** The part of a piece that lies under the surface. */
function underSurface({ from, to }: Piece, { line, kind, driveRpm }: ToolStep): Omit<EngravingCut, 'goesOn' | 'atDepth'>[] {
  if (from.depth <= SURFACE && to.depth <= SURFACE) return [];
  const crossing = from.depth <= SURFACE || to.depth <= SURFACE ? placeBetween(from, to, from.depth / (from.depth - to.depth)) : undefined;
  const inside = { from: from.depth <= SURFACE ? crossing! : from, to: to.depth <= SURFACE ? crossing! : to };
  return [{ ...inside, line, rapid: kind === 'rapid', turning: driveRpm !== 0 }];
}

function placeBetween(from: SurfacePlace, to: SurfacePlace, share: number): SurfacePlace {
  const between = (start: number, end: number): number => start + share * (end - start);
  return { along: between(from.along, to.along), up: between(from.up, to.up), depth: between(from.depth, to.depth) };
}

function isSame(one: SurfacePlace | undefined, other: SurfacePlace): boolean {
  return one !== undefined && Math.hypot(one.along - other.along, one.up - other.up, one.depth - other.depth) < 1e-9;
}

/** Round a cylinder a place can be counted a whole turn further: each stroke is brought to where the text is nearest. */
function onOneTurn(stretch: EngravingStretch, cuts: readonly EngravingCut[]): EngravingCut[] {
  if (stretch.surface.kind === 'face') return [...cuts];
  const turn = 2 * Math.PI * stretch.surface.radius;
  let shift = 0;
  return cuts.map((cut) => {
    if (!cut.goesOn) shift = -turn * Math.round((cut.from.along - textMiddle(stretch)) / turn);
    const shifted = (place: SurfacePlace): SurfacePlace => ({ ...place, along: place.along + shift });
    return { ...cut, from: shifted(cut.from), to: shifted(cut.to) };
  });
}

function textMiddle({ text, height }: EngravingStretch): number {
  return widthOfText(text, height) / 2;
}
