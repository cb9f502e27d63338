/**
 * The virtual cut of a slotting insert: a straight edge, parallel to Y and
 * facing outward, is drawn along Z through a bore. In a transverse section
 * every stroke takes away a strip as wide as the insert, out to where the edge
 * passes. The shape of a section is the bore and the union of such strips.
 *
 * Lengths in mm and true distances from the work axis; angles in radians. The
 * module knows neither what slot is wanted nor how a program describes one.
 */

/** One straight way of the edge. An insert that cuts toward -X is described after half a turn of the work. */
export interface EdgeSweep {
  workRadians: number;
  /** Position of the middle of the insert across its direction of infeed. */
  y: number;
  insertWidth: number;
  /** Distance of the edge from the work axis, and its place along it, at both ends. */
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

/** The bites of all sweeps in their order, each measured at several places along the bore. */
export function bitesOf(sweeps: readonly EdgeSweep[], bore: Bore): Bite[] {
  const places = [0.02, 0.25, 0.5, 0.75, 0.98].map((share) => bore.zLow + share * (bore.zHigh - bore.zLow));
  const sections = places.map((z) => ({ z, strips: new Map<string, Strip>() }));
  return sweeps.map((sweep) => {
    const depths = sections.map(({ z, strips }) => biteAt(sweep, z, strips, bore.radius));
    return { line: sweep.line, rapid: sweep.rapid, depth: Math.max(...depths), workRadians: sweep.workRadians };
  });
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

function stripKey(sweep: EdgeSweep): string {
  return `${sweep.workRadians} ${sweep.y} ${sweep.insertWidth}`;
}

function addStrip(strips: Map<string, Strip>, sweep: EdgeSweep, outerX: number): void {
  const known = strips.get(stripKey(sweep));
  if (known) known.outerX = Math.max(known.outerX, outerX);
  else strips.set(stripKey(sweep), stripOf(sweep, outerX));
}

function stripOf(sweep: EdgeSweep, outerX: number): Strip {
  const half = sweep.insertWidth / 2;
  return { workRadians: sweep.workRadians, lowY: sweep.y - half, highY: sweep.y + half, outerX };
}

function biteAt(sweep: EdgeSweep, z: number, strips: Map<string, Strip>, boreRadius: number): number {
  const outerX = edgeAt(sweep, z);
  if (outerX === undefined) return 0;
  const before = [...strips.values()];
  const angle = -sweep.workRadians;
  const bites = placesAcross(sweep).map((y) => outerX - openTo(before, boreRadius, angle, y));
  addStrip(strips, sweep, outerX);
  return Math.max(0, ...bites);
}

/** Corners and middle of the insert, the corners a hair inside so that a neighbouring strip's wall does not decide. */
function placesAcross(sweep: EdgeSweep): number[] {
  const half = sweep.insertWidth / 2;
  return [-0.9999, -0.5, 0, 0.5, 0.9999].map((share) => sweep.y + share * half);
}

/** Where the line at `y` across the direction `angle`, going outward, leaves the strip; -Infinity when it misses it. */
function exitFromStrip(strip: Strip, angle: number, y: number): number {
  const turn = angle + strip.workRadians;
  const cos = Math.cos(turn);
  const sin = Math.sin(turn);
  const across = clip(y * cos, sin, strip.lowY, strip.highY);
  const outward = clip(-y * sin, cos, 0, strip.outerX);
  const from = Math.max(across[0], outward[0], 0);
  const to = Math.min(across[1], outward[1]);
  return to >= from ? to : -Infinity;
}

function liesIn(strip: Strip, angle: number, x: number, y: number): boolean {
  const turn = angle + strip.workRadians;
  const outward = x * Math.cos(turn) - y * Math.sin(turn);
  const across = x * Math.sin(turn) + y * Math.cos(turn);
  return outward >= 0 && outward <= strip.outerX && across >= strip.lowY && across <= strip.highY;
}

/** The range of s for which start + s * rate lies between low and high. */
function clip(start: number, rate: number, low: number, high: number): [number, number] {
  if (Math.abs(rate) < 1e-15) return start >= low && start <= high ? [-Infinity, Infinity] : [Infinity, -Infinity];
  const one = (low - start) / rate;
  const two = (high - start) / rate;
  return [Math.min(one, two), Math.max(one, two)];
}
