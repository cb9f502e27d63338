/**
 * The grid of hobbing settings and keyways on which the composed blocks are
 * proved. The unit suite takes a part of it, the script beside the benchmarks
 * all of it. The order is fixed; every setting is another mixture.
 */
import type { Machine } from './composed-programs.ts';
import { composedProgram, figure, inventedCard, provedStretch } from './composed-programs.ts';
import type { HobbingSetting } from './hobbing-jobs.ts';
import { predictedMarks, wantedSpan } from './hobbing-jobs.ts';

export interface GridSetting {
  name: string;
  setting: HobbingSetting;
  machine: Machine;
  /** Note parameters that the geometry of the gear does not know: entry, spindle. */
  more: Record<string, string>;
}

export interface GridResult {
  name: string;
  /** Rules that the proof objected to; must be empty. */
  rules: string[];
  teeth: number;
  /** How far the span lies outside what the predicted marks allow, in mm; 0 inside, NaN when no caliper fits. */
  spanError: number;
  /** How much of the predicted marks the span shows on top of its ideal value: 0 none, 1 all of it. */
  markShare: number;
  helixErrorDegrees: number;
}

const teeth = [6, 8, 11, 14, 17, 20, 25, 32, 41, 53, 70, 90, 120];
const modules = [0.3, 0.5, 0.8, 1, 1.5, 2, 2.5, 3, 4];
const helices = [0, -30, 5, 22, -15, 0, 12, 30, -8, 20, -22];

/** Settings with axial entry on the main spindle, with radial entry on it, in the sub-spindle, and there with radial entry. */
const counts = { plain: 216, plunge: 40, sub: 40, both: 16 } as const;

export const hobbingGrid: GridSetting[] = [
  ...Array.from({ length: counts.plain }, (_, index) => settingNumber(index)),
  ...Array.from({ length: counts.plunge }, (_, index) => plunged(settingNumber(counts.plain + index), index)),
  ...Array.from({ length: counts.sub }, (_, index) => onSubSpindle(settingNumber(counts.plain + 7 * index), index)),
  ...Array.from({ length: counts.both }, (_, index) => onSubSpindle(plunged(settingNumber(counts.plain + 11 * index), index), 5 * index)),
];

/** Radial feed from a quarter to two thirds of the axial one; no spark-out, one or two revolutions of it. */
function plunged(each: GridSetting, index: number): GridSetting {
  const feed = (each.setting.feed * (0.25 + 0.1 * (index % 5))).toFixed(3);
  const sparkOut = String((index + 1) % 3);
  return { ...each, name: `${each.name}, plunge f${feed} and ${sparkOut} rev`, more: { ...each.more, ENTRY: 'PLUNGE', 'RADIAL-FEED': feed, 'SPARK-OUT': sparkOut } };
}

/** Every way in which the axes, the drive, C and a helix figure can count there, and a face that is not at zero. */
function onSubSpindle(each: GridSetting, index: number): GridSetting {
  const sign = (bit: number): 1 | -1 => (Math.floor(index / 2 ** bit) % 2 === 0 ? 1 : -1);
  const sub = { zSense: sign(0), ySense: sign(1), toolRotation: sign(2), workRotation: sign(3), hobSide: each.machine.hobSide, helixSign: sign(4) } as const;
  const ways = Object.entries(sub).map(([name, way]) => `${name} ${way}`).join(', ');
  return { ...each, name: `${each.name}, in the sub-spindle with ${ways}`, machine: { ...each.machine, sub }, more: { ...each.more, SPINDLE: 'SUB', 'FACE-Z': String((index % 3) - 1) } };
}

function settingNumber(index: number): GridSetting {
  const module = modules[(index * 5 + Math.floor(index / 9)) % modules.length]!;
  const z = teeth[(index * 7 + Math.floor(index / 13)) % teeth.length]!;
  const sign = (every: number): 1 | -1 => (Math.floor(index / every) % 2 === 0 ? 1 : -1);
  const helix = helices[index % helices.length]!;
  const machine: Machine = {
    workRotation: sign(4),
    toolRotation: sign(8),
    hobSide: sign(2) > 0 ? '+X' : '-X',
    differential: helix !== 0 && index % 2 === 0 ? 'lead' : 'helix',
  };
  const feed = Number((0.25 + 0.3 * module + 0.1 * (index % 5)).toFixed(2));
  const starts = 1 + (Math.floor(index / 3) % 3);
  const setting: HobbingSetting = {
    module,
    teeth: z,
    helix,
    shift: z < 12 ? Number(((14 - z) / 17).toFixed(2)) : z === 14 ? 0.2 : [0, 0.25, -0.1][index % 3]! * (z > 20 ? 1 : 0),
    starts,
    hobHand: sign(1),
    hobDiameter: hobDiameter(module),
    gashes: 10 + 2 * (index % 4) + 2 * starts,
    feed,
    face: Number((3 * feed + 2 + 2 * module).toFixed(1)),
    side: sign(2),
    climb: sign(5) > 0,
    cuts: 1 + (Math.floor(index / 2) % 3),
    tipShortening: z < 12 ? 0.3 : 0,
  };
  return { name: nameOf(setting, machine), setting, machine, more: {} };
}

/** Roughly the sizes of DIN 8002 (from memory); small modules on the small hobs that live tools take. */
function hobDiameter(module: number): number {
  if (module < 0.8) return 32;
  const steps: Array<[number, number]> = [[1.4, 50], [1.8, 56], [2.24, 63], [2.8, 70], [3.55, 80], [4.5, 90]];
  return steps.find(([upTo]) => module <= upTo)?.[1] ?? 100;
}

function nameOf(setting: HobbingSetting, machine: Machine): string {
  const hand = (sign: number): string => (sign > 0 ? 'R' : 'L');
  const way = setting.climb ? 'climb' : 'conventional';
  return `m${setting.module} z${setting.teeth} ${setting.helix} deg x${setting.shift}, hob ${hand(setting.hobHand)} ${setting.starts} starts, ${machine.hobSide} C${machine.workRotation} T${machine.toolRotation}, ${way}, ${setting.cuts} cuts, f${setting.feed}`;
}

export function noteOf(setting: HobbingSetting): Record<string, string> {
  const reference = (setting.teeth * setting.module) / Math.cos((setting.helix * Math.PI) / 180);
  const tip = reference + 2 * setting.module * (1 + setting.shift - (setting.tipShortening ?? 0));
  const stub: Record<string, string> = setting.tipShortening ? { 'TIP-DIA': tip.toFixed(6), DEPTH: (setting.module * (2.25 - setting.tipShortening)).toFixed(6) } : {};
  return {
    MODULE: String(setting.module),
    TEETH: String(setting.teeth),
    HELIX: String(Math.abs(setting.helix)),
    HAND: setting.helix < 0 ? 'LEFT' : 'RIGHT',
    'PROFILE-SHIFT': String(setting.shift),
    FACE: String(setting.face),
    ...stub,
    'HOB-DIA': String(setting.hobDiameter),
    'HOB-STARTS': String(setting.starts),
    'HOB-HAND': setting.hobHand > 0 ? 'RIGHT' : 'LEFT',
    'HOB-GASHES': String(setting.gashes),
    RPM: '400',
    FEED: String(setting.feed),
    CUTS: String(setting.cuts),
    METHOD: setting.climb ? 'CLIMB' : 'CONVENTIONAL',
  };
}

/** Composes, reads back, cuts and measures one setting. */
export function proveSetting({ name, setting, machine, more }: GridSetting): GridResult {
  const card = inventedCard(machine);
  const stretch = provedStretch(composedProgram('hobbing', { ...noteOf(setting), ...more }, card), card);
  if (!stretch.proof) throw new Error(`${name}: ${stretch.refused}`);
  return {
    name,
    rules: stretch.proof.findings.map(({ rule, message }) => `${rule}: ${message}`),
    teeth: figure(stretch, 'teeth').value,
    ...spanAgainstMarks(setting, stretch),
    helixErrorDegrees: Math.abs(figure(stretch, 'helixAngle').value - setting.helix),
  };
}

function spanAgainstMarks(setting: HobbingSetting, stretch: ReturnType<typeof provedStretch>): { spanError: number; markShare: number } {
  const span = stretch.proof!.figures.find(({ id }) => id === 'span');
  if (!span) return { spanError: NaN, markShare: NaN };
  const spanTeeth = Number(/over (\d+) teeth/.exec(span.name)![1]);
  const excess = span.value - wantedSpan(setting, spanTeeth);
  const { feed, generating } = predictedMarks(setting);
  const marks = 2 * (feed + generating);
  return { spanError: Math.max(0, -excess, excess - marks), markShare: excess / marks };
}

export interface KeywayCase {
  name: string;
  note: Record<string, string>;
  machine: Machine;
  bore: number;
  count: number;
}

/** Bores from 8 to 110, driven and static, full-form and side passes, one to four keyways, clocked anywhere. */
export const keywayGrid: KeywayCase[] = Array.from({ length: 100 }, (_, index) => {
  const bore = 8 + index + (index % 7) / 10;
  const count = 1 + (index % 4);
  const driven = index % 5 !== 4;
  const note: Record<string, string> = {
    BORE: String(bore),
    LENGTH: String(6 + ((index * 11) % 40)),
    FEED: bore > 80 ? '0.08' : index % 2 ? '0.04' : '0.05',
    COUNT: String(count),
    ANGLE: String(((index * 37) % 360) - 180),
    FIT: ['JS9', 'P9', 'D10'][index % 3]!,
    'FACE-Z': String(-(index % 3)),
    ...(driven ? { RPM: String(400 + 25 * (index % 20)), METHOD: 'DRIVEN' } : { SPEED: '8', METHOD: 'STATIC' }),
    ...(index % 6 === 5 ? { RELIEF: '6' } : {}),
    ...(bore > 30 && index % 2 ? { INSERT: bore > 95 ? '20' : bore > 58 ? '12' : bore > 44 ? '10' : '6' } : {}),
  };
  const machine: Machine = { workRotation: index % 2 ? -1 : 1, toolRotation: 1, hobSide: '+X', diameterProgramming: index % 10 !== 9 };
  return { name: `bore ${bore}, ${note['METHOD']}, ${count} at ${note['ANGLE']} deg${note['INSERT'] ? `, insert ${note['INSERT']}` : ''}`, note, machine, bore, count };
});

/** The complaints of the proof and the figures of the first slot. */
export function proveKeyway(each: KeywayCase): { rules: string[]; slots: number; depth: number; wantedDepth: number } {
  const card = inventedCard(each.machine);
  const stretch = provedStretch(composedProgram('keyway', each.note, card), card);
  if (!stretch.proof) throw new Error(`${each.name}: ${stretch.refused}`);
  const depth = figure(stretch, 'slotDepth1');
  return {
    rules: stretch.proof.findings.map(({ rule, message }) => `${rule}: ${message}`),
    slots: stretch.proof.figures.filter(({ id }) => id.startsWith('slotAngle')).length,
    depth: depth.value,
    wantedDepth: depth.wanted ?? NaN,
  };
}
