import type { HobTool } from './hob-tool.ts';
import type { HobbingMotion } from './hobbing-motion.ts';
import type { HobbingStretch } from './hobbing-stretch.ts';
import type { HobbingInstant, HobbingSpan } from './motion.ts';
import { seenFromPlusX } from './motion.ts';
import type { CutFinding } from './rules.ts';
import { cutFinding } from './rules.ts';
import { toldIn } from './told.ts';

/**
 * Rapid moves of a turning hob that reach into material, by bodies alone. In a
 * short rapid few teeth pass, and between them the virtual cut may see nothing;
 * a control that is a little later, or a hob that stands a little turned, would
 * hit all the same. So the hob counts here as its whole tip cylinder.
 *
 * Of the work it is kept how near to its axis feeds have come in each section:
 * a rapid may be where a feed has been, as a retract in the cut gaps is, and
 * must be nowhere else in the blank. How far compose keeps off is not asked.
 */

/** A hob that only touches is not in the material: rounding of words, in mm. */
const TOUCH = 0.005;
const SECTIONS = 33;
/** Divisions of an interval by the golden section: to less than a millionth of it. */
const ROUNDS = 30;
const GOLDEN = (Math.sqrt(5) - 1) / 2;

export function rapidsIntoMaterial(stretch: HobbingStretch, { spans }: HobbingMotion): CutFinding[] {
  const sections = blankSections(stretch);
  return spans.filter(turns).flatMap((span) => {
    const deepest = Math.max(...sections.map((section) => advance(section, leastRadius(stretch, seenFromPlusX(span), section.z))));
    return span.rapid && deepest > TOUCH ? [rapidFinding(stretch, span, deepest)] : [];
  });
}

/** A hob that stands is judged elsewhere. */
function turns({ start, end }: HobbingSpan): boolean {
  return start.hobRadians !== end.hobRadians;
}

function rapidFinding({ units }: HobbingStretch, { line }: HobbingSpan, deepest: number): CutFinding {
  return cutFinding(line, 'cut-rapid', `A rapid move takes the hob up to ${toldIn(units).size(deepest)} radially into material that no feed has cut: the free travel before it is too short.`);
}

/** A section of the work, and how near to its axis the hob has come there. */
interface Section {
  z: number;
  reached: number;
}

function blankSections({ gear, zLow, zHigh }: HobbingStretch): Section[] {
  return Array.from({ length: SECTIONS }, (_, index) => ({ z: zLow + ((zHigh - zLow) * index) / (SECTIONS - 1), reached: gear.tipDiameter / 2 }));
}

/** How much farther in the hob comes than ever before. */
function advance(section: Section, radius: number): number {
  const deeper = Math.max(0, section.reached - radius);
  section.reached -= deeper;
  return deeper;
}

/**
 * The least distance from the work axis at which the tip cylinder is in the
 * section during the span; Infinity where it never is. The distance is convex in
 * the place along the hob and in the share of the span together, so the least of
 * the one at the least of the other is found by two searches.
 */
function leastRadius({ tool, gear, settingRadians }: HobbingStretch, span: HobbingSpan, z: number): number {
  const reach = (tool.tipDiameter / 2) * Math.cos(settingRadians) + (tool.length / 2) * Math.abs(Math.sin(settingRadians));
  const shares = sharesWithin(span, z - reach, z + reach);
  const isClear = Math.min(span.start.x, span.end.x) - tool.tipDiameter / 2 >= gear.tipDiameter / 2;
  return shares && !isClear ? leastOf(shares, (share) => leastRadiusAt(tool, settingRadians, placeAt(span, share), z)) : Infinity;
}

type Interval = readonly [low: number, high: number];

function sharesWithin({ start, end }: HobbingSpan, low: number, high: number): Interval | undefined {
  const way = end.z - start.z;
  if (way === 0) return start.z >= low && start.z <= high ? [0, 1] : undefined;
  const [one, two] = [(low - start.z) / way, (high - start.z) / way];
  const [from, to] = [Math.max(0, Math.min(one, two)), Math.min(1, Math.max(one, two))];
  return from <= to ? [from, to] : undefined;
}

type Place = Pick<HobbingInstant, 'x' | 'y' | 'z'>;

function placeAt({ start, end }: HobbingSpan, share: number): Place {
  const between = (from: number, to: number): number => from + share * (to - from);
  return { x: between(start.x, end.x), y: between(start.y, end.y), z: between(start.z, end.z) };
}

/** At `along` the hob axis the section cuts the tip circle `rise` above the middle of the circle; see the head of the cut of a hob. */
function leastRadiusAt(tool: HobTool, settingRadians: number, place: Place, z: number): number {
  const [sine, cosine, tip, above] = [Math.sin(settingRadians), Math.cos(settingRadians), tool.tipDiameter / 2, z - place.z];
  const distance = (along: number): number => {
    const rise = (above + along * sine) / cosine;
    const depth = Math.sqrt(Math.max(tip ** 2 - rise ** 2, 0));
    return Math.hypot(Math.max(place.x - depth, 0), place.y + (along + above * sine) / cosine);
  };
  return leastOf(placesAlongHob(tool, sine, tip * cosine, above), distance);
}

/** Where along the hob its tip circle meets the section. */
function placesAlongHob({ length }: HobTool, sine: number, risesTo: number, above: number): Interval {
  const half = length / 2;
  if (sine === 0) return [-half, half];
  const [one, two] = [(-risesTo - above) / sine, (risesTo - above) / sine];
  return [Math.max(-half, Math.min(one, two)), Math.min(half, Math.max(one, two))];
}

/** The least value of a convex function on an interval, its ends included, by the golden section. */
function leastOf([low, high]: Interval, valueAt: (place: number) => number): number {
  let [from, width] = [low, high - low];
  let lower = valueAt(from + (1 - GOLDEN) * width);
  let upper = valueAt(from + GOLDEN * width);
  for (let round = 0; round < ROUNDS && width > 0; round += 1) {
    if (lower > upper) from += (1 - GOLDEN) * width;
    width *= GOLDEN;
    if (lower > upper) [lower, upper] = [upper, valueAt(from + GOLDEN * width)];
    else [lower, upper] = [valueAt(from + (1 - GOLDEN) * width), lower];
  }
  return Math.min(valueAt(low), lower, upper, valueAt(high));
}
