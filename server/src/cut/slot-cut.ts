/**
 * The virtual cut of a slotting insert: an edge that faces outward is drawn along
 * Z through a bore. In a transverse section every stroke takes away a strip as
 * wide as the insert, out to where the edge passes; a pointed insert leaves the
 * end of its strip pointed. The shape of a section is the bore and the union of
 * such strips.
 *
 * Lengths in mm and true distances from the work axis; angles in radians. The
 * module knows neither what slot is wanted nor how a program describes one.
 */

/** How the edge of an insert falls back from its foremost place to its corners; a straight edge has none of it. */
export interface PointedEdge {
  /** Width of the flat at the point. */
  tipFlat: number;
  /** Fall along the infeed for one mm across: the cotangent of half the included angle. */
  fall: number;
}

export interface InsertEdge {
  insertWidth: number;
  point?: PointedEdge;
}

/** One straight way of the edge. An insert that cuts toward -X is described after half a turn of the work. */
export interface EdgeSweep extends InsertEdge {
  workRadians: number;
  /** Position of the middle of the insert across its direction of infeed. */
  y: number;
  /** Distance of the foremost place of the edge from the work axis, and its place along it, at both ends. */
  fromX: number;
  fromZ: number;
  toX: number;
  toZ: number;
  line: number;
  rapid: boolean;
}

/** A strip that is gone: from the bore out to `outerX`, between two places across, turned by `workRadians`. */
export interface Strip {
  workRadians: number;
  lowY: number;
  highY: number;
  outerX: number;
  point?: PointedEdge;
}

/** The bore in which the slot is cut, between its two faces. */
export interface Bore {
  radius: number;
  zLow: number;
  zHigh: number;
}

/** How much one sweep cut beyond what was open before it. */
export interface Bite {
  line: number;
  rapid: boolean;
  /** Greatest thickness taken anywhere along the sweep, radially, in mm. */
  depth: number;
  workRadians: number;
}

/** What stands open in the section at `z` after all sweeps. */
export function stripsAt(z: number, sweeps: readonly EdgeSweep[]): Strip[] {
  const strips = new Map<string, Strip>();
  for (const sweep of sweeps) {
    const outerX = edgeAt(sweep, z);
    if (outerX === undefined) continue;
    addStrip(strips, sweep, outerX);
  }
  return [...strips.values()];
}

/** Places along the bore that stand for all of it. */
export function placesAlongBore({ zLow, zHigh }: Bore): number[] {
  return [0.02, 0.25, 0.5, 0.75, 0.98].map((share) => zLow + share * (zHigh - zLow));
}

/** The bites of all sweeps in their order, each measured at several places along the bore. */
export function bitesOf(sweeps: readonly EdgeSweep[], bore: Bore): Bite[] {
  const sections = new GrowingSections(bore);
  return sweeps.map((sweep) => ({ line: sweep.line, rapid: sweep.rapid, depth: sections.cut(sweep), workRadians: sweep.workRadians }));
}

/** Sections at the places that stand for all of the bore, stroke by stroke. */
export class GrowingSections {
  private readonly sections: { z: number; strips: Map<string, Strip> }[];

  constructor(private readonly bore: Bore) {
    this.sections = placesAlongBore(bore).map((z) => ({ z, strips: new Map() }));
  }

  /** What is open so far at the place of an index. */
  at(index: number): Strip[] {
    return [...(this.sections[index]?.strips.values() ?? [])];
  }

  add(sweep: EdgeSweep): void {
    for (const { z, strips } of this.sections) {
      const outerX = edgeAt(sweep, z);
      if (outerX !== undefined) addStrip(strips, sweep, outerX);
    }
  }

  /** Adds a sweep; answers the greatest thickness that it took. */
  cut(sweep: EdgeSweep): number {
    const depths = this.sections.map(({ z, strips }) => biteAt(sweep, z, strips, this.bore.radius));
    return Math.max(...depths);
  }
}

/** Where an edge stands to the section: turned by the work, `y` across, its foremost place at `x`. */
export interface EdgePlace extends InsertEdge {
  workRadians: number;
  y: number;
  x: number;
}

/** How far an edge stands beyond what is open, in mm along its infeed, where it does so most; negative in the open. */
export function edgeBeyond(strips: readonly Strip[], boreRadius: number, edge: EdgePlace): number {
  const beyond = placesAcross(edge).map((y) => edge.x - fallAt(edge.point, y - edge.y) - openTo(strips, boreRadius, -edge.workRadians, y));
  return Math.max(...beyond);
}

/** How far out the section is open along the infeed direction `angle`, at `y` across it, all in mm. */
export function openTo(strips: readonly Strip[], boreRadius: number, angle: number, y: number): number {
  const inBore = Math.sqrt(Math.max(boreRadius ** 2 - y ** 2, 0));
  return strips.reduce((open, strip) => Math.max(open, exitFromStrip(strip, angle, y)), inBore);
}

/** Whether the place `x` along the direction `angle` and `y` across it lies in the open. */
export function isOpen(strips: readonly Strip[], boreRadius: number, angle: number, x: number, y: number): boolean {
  if (Math.hypot(x, y) <= boreRadius) return true;
  return strips.some((strip) => liesIn(strip, angle, x, y));
}

/** Where the edge stands when the sweep passes z; undefined when it does not. A sweep that stays at one z passes it there only. */
function edgeAt(sweep: EdgeSweep, z: number): number | undefined {
  const length = sweep.toZ - sweep.fromZ;
  if (length === 0) return z === sweep.fromZ ? Math.max(sweep.fromX, sweep.toX) : undefined;
  const share = (z - sweep.fromZ) / length;
  if (share < 0 || share > 1) return undefined;
  return sweep.fromX + share * (sweep.toX - sweep.fromX);
}

function stripKey({ workRadians, y, insertWidth, point }: EdgeSweep): string {
  return `${workRadians} ${y} ${insertWidth} ${point?.fall ?? ''} ${point?.tipFlat ?? ''}`;
}

function addStrip(strips: Map<string, Strip>, sweep: EdgeSweep, outerX: number): void {
  const known = strips.get(stripKey(sweep));
  if (known) known.outerX = Math.max(known.outerX, outerX);
  else strips.set(stripKey(sweep), stripOf(sweep, outerX));
}

function stripOf({ workRadians, y, insertWidth, point }: EdgeSweep, outerX: number): Strip {
  const half = insertWidth / 2;
  return { workRadians, lowY: y - half, highY: y + half, outerX, ...(point ? { point } : {}) };
}

function biteAt(sweep: EdgeSweep, z: number, strips: Map<string, Strip>, boreRadius: number): number {
  const outerX = edgeAt(sweep, z);
  if (outerX === undefined) return 0;
  const bite = edgeBeyond([...strips.values()], boreRadius, { ...sweep, x: outerX });
  addStrip(strips, sweep, outerX);
  return Math.max(0, bite);
}

/** Corners and middle of the insert, the corners a hair inside so that a neighbouring strip's wall does not decide. */
function placesAcross({ y, insertWidth }: EdgePlace): number[] {
  return [-0.9999, -0.5, 0, 0.5, 0.9999].map((share) => y + (share * insertWidth) / 2);
}

/** How far the edge lies behind its foremost place. */
function fallAt(point: PointedEdge | undefined, fromMiddle: number): number {
  return point ? point.fall * Math.max(0, Math.abs(fromMiddle) - point.tipFlat / 2) : 0;
}

/** Where the line at `y` across the direction `angle`, going outward, leaves the strip; -Infinity when it misses it. */
function exitFromStrip(strip: Strip, angle: number, y: number): number {
  const turn = angle + strip.workRadians;
  const across = y * Math.cos(turn);
  const outward = -y * Math.sin(turn);
  const exit = exitFromBand(across, Math.sin(turn), strip.lowY, strip.highY, exitFromBand(outward, Math.cos(turn), 0, strip.outerX, wholeLine));
  return leaving(strip.point ? exitFromPoint(strip, strip.point, { outward, across, turn }, exit) : exit);
}

/** A stretch of a line, by the distances at which it begins and ends. */
interface Stretch {
  from: number;
  to: number;
}

const wholeLine: Stretch = { from: 0, to: Infinity };

function leaving({ from, to }: Stretch): number {
  return to >= from ? to : -Infinity;
}

/** A pointed end is a strip cut off by two more straight lines. */
function exitFromPoint({ lowY, highY, outerX }: Strip, { fall, tipFlat }: PointedEdge, start: { outward: number; across: number; turn: number }, within: Stretch): Stretch {
  const fromMiddle = start.across - (lowY + highY) / 2;
  const most = outerX + (fall * tipFlat) / 2;
  const [cos, sin] = [Math.cos(start.turn), Math.sin(start.turn)];
  const oneSide = exitFromBand(start.outward + fall * fromMiddle, cos + fall * sin, -Infinity, most, within);
  return exitFromBand(start.outward - fall * fromMiddle, cos - fall * sin, -Infinity, most, oneSide);
}

function liesIn(strip: Strip, angle: number, x: number, y: number): boolean {
  const turn = angle + strip.workRadians;
  const outward = x * Math.cos(turn) - y * Math.sin(turn);
  const across = x * Math.sin(turn) + y * Math.cos(turn);
  const middle = (strip.lowY + strip.highY) / 2;
  return outward >= 0 && outward <= strip.outerX - fallAt(strip.point, across - middle) && across >= strip.lowY && across <= strip.highY;
}

/** The part of a stretch in which start + s * rate lies between low and high. */
function exitFromBand(start: number, rate: number, low: number, high: number, within: Stretch): Stretch {
  if (Math.abs(rate) < 1e-15) return start >= low && start <= high ? within : { from: Infinity, to: -Infinity };
  const one = (low - start) / rate;
  const two = (high - start) / rate;
  return { from: Math.max(within.from, Math.min(one, two)), to: Math.min(within.to, Math.max(one, two)) };
}
