/**
 * Hobbing motions made from vector geometry alone, for checking the virtual cut
 * without any program text. The coupling of work and hob is found by asking
 * that the hob's thread and the gear's helix move past each other without
 * slipping across the common flank: no formula of the product is used.
 */
import type { HobbingJob } from '../../../server/src/cut/gear-cut.ts';
import { cutGear } from '../../../server/src/cut/gear-cut.ts';
import type { GearMeasurement } from '../../../server/src/cut/gear-report.ts';
import { measureGear } from '../../../server/src/cut/gear-report.ts';
import type { HobTool } from '../../../server/src/cut/hob-tool.ts';
import type { HobbingInstant, HobbingSpan } from '../../../server/src/cut/motion.ts';

export interface HobbingSetting {
  module: number;
  teeth: number;
  /** Signed: right hand positive. */
  helix: number;
  shift: number;
  starts: number;
  hobHand: 1 | -1;
  hobDiameter: number;
  gashes: number;
  feed: number;
  face: number;
  side: 1 | -1;
  climb: boolean;
  cuts: number;
  pressureAngle?: number;
  addendum?: number;
  /** Position of the hob along its own axis. */
  hobShift?: number;
  tipShortening?: number;
  spanTeeth?: number;
}

const rad = Math.PI / 180;

export function hobOf(setting: HobbingSetting): HobTool {
  return {
    normalModule: setting.module,
    normalPressureAngleDegrees: setting.pressureAngle ?? 20,
    starts: setting.starts,
    hand: setting.hobHand,
    tipDiameter: setting.hobDiameter,
    gashes: setting.gashes,
    addendum: (setting.addendum ?? 1.25) * setting.module,
    dedendum: 1.25 * setting.module,
    tipRadius: 0.25 * setting.module,
    length: Math.max(30, 14 * Math.PI * setting.module),
  };
}

/** Work rotation per hob rotation, and per mm of the hob's travel along Y and Z: the velocity of the common rack, taken apart. */
export function coupling(setting: HobbingSetting): { perHobRadian: number; perY: number; perZ: number; settingRadians: number } {
  const beta = setting.helix * rad;
  const reference = (setting.teeth * setting.module) / (2 * Math.cos(beta));
  const threadRadius = setting.hobDiameter / 2 - (setting.addendum ?? 1.25) * setting.module;
  const lead = Math.asin((setting.starts * setting.module) / (2 * threadRadius)) * setting.hobHand;
  const settingRadians = beta - lead;
  // Unit vectors in the plane that touches both pitch cylinders, as (y, z): hob axis, and across the gear's teeth.
  const axis = [Math.cos(settingRadians), -Math.sin(settingRadians)] as const;
  const across = [Math.cos(beta), -Math.sin(beta)] as const;
  const advance = (setting.hobHand * setting.starts * Math.PI * setting.module) / Math.cos(lead) / (2 * Math.PI);
  const alongAcross = axis[0] * across[0] + axis[1] * across[1];
  return {
    // The thread seems to move by -advance along the axis; the work must give the same speed across the teeth.
    perHobRadian: (-advance * alongAcross) / (reference * across[0]),
    perY: across[0] / (reference * across[0]),
    perZ: across[1] / (reference * across[0]),
    settingRadians,
  };
}

export function jobOf(setting: HobbingSetting): HobbingJob {
  const { module: m, shift } = setting;
  const tool = hobOf(setting);
  const reference = (setting.teeth * m) / (2 * Math.cos(setting.helix * rad));
  const tip = reference + m * (1 + shift - (setting.tipShortening ?? 0));
  const { settingRadians } = coupling(setting);
  return {
    gear: {
      normalModule: m,
      teeth: setting.teeth,
      helixAngleDegrees: setting.helix,
      normalPressureAngleDegrees: tool.normalPressureAngleDegrees,
      profileShift: shift,
      tipDiameter: 2 * tip,
    },
    zLow: -setting.face,
    zHigh: 0,
    tool,
    settingRadians,
    spans: spansOf(setting, tool, reference, tip),
    ...(setting.spanTeeth ? { spanTeeth: setting.spanTeeth } : {}),
  };
}

/** One axial span for each cut; the hob returns clear of the work, where nothing is cut. */
function spansOf(setting: HobbingSetting, tool: HobTool, reference: number, tip: number): HobbingSpan[] {
  const centre = reference + setting.shift * setting.module + tool.tipDiameter / 2 - tool.addendum;
  const depth = tip + tool.tipDiameter / 2 - centre;
  return Array.from({ length: setting.cuts }, (_, index) => {
    const lack = index === setting.cuts - 1 ? 0 : depth * (1 - (index + 1) / setting.cuts);
    return axialSpan(setting, tool, centre + lack, tip);
  });
}

function axialSpan(setting: HobbingSetting, tool: HobTool, centre: number, tip: number): HobbingSpan {
  const { perHobRadian, perY, perZ, settingRadians } = coupling(setting);
  const free = freeTravel(tool, settingRadians, centre, tip);
  const from = free + 1;
  const to = -setting.face - free - 1;
  // Teeth that move toward +Z cut against a feed toward -Z.
  const hobSense = setting.climb ? 1 : -1;
  const workTurns = (from - to) / setting.feed;
  const hob = (hobSense * 2 * Math.PI * workTurns) / Math.abs(perHobRadian);
  const slide = setting.hobShift ?? 0;
  const y = slide * Math.cos(settingRadians);
  const lift = -slide * Math.sin(settingRadians);
  const at = (hobRadians: number, z: number): HobbingInstant => ({
    hobRadians,
    workRadians: perHobRadian * hobRadians + perY * y + perZ * z + (setting.side < 0 ? Math.PI : 0),
    x: setting.side * centre,
    y: setting.side * y,
    z,
  });
  return { start: at(0, from + lift), end: at(hob, to + lift), line: 1, rapid: false };
}

/** So far from the face that no tooth touches: the tip cylinder's bite, widened by the swivel. */
function freeTravel(tool: HobTool, settingRadians: number, centre: number, tip: number): number {
  const gap = centre - tip;
  const rise = Math.sqrt(Math.max((tool.tipDiameter / 2) ** 2 - gap ** 2, 0));
  const chord = Math.sqrt(Math.max(tip ** 2 - (centre - tool.tipDiameter / 2) ** 2, 0));
  return rise * Math.cos(settingRadians) + chord * Math.abs(Math.tan(settingRadians));
}

export function measured(job: HobbingJob): GearMeasurement {
  return measureGear(finish(cutGear(job)));
}

export function finish<T>(work: Generator<unknown, T>): T {
  for (;;) {
    const step = work.next();
    if (step.done) return step.value;
  }
}

/** Predicted marks in mm: section 4 of the gear notes, both derived there from the sagitta of the hob's circle and of the generated flank. */
export function predictedMarks(setting: HobbingSetting): { feed: number; generating: number } {
  const sine = Math.sin((setting.pressureAngle ?? 20) * rad);
  const feed = ((setting.feed / Math.cos(setting.helix * rad)) ** 2 * sine) / (4 * setting.hobDiameter);
  const tipFactor = tipCurvatureFactor(setting);
  const generating = (Math.PI ** 2 * setting.starts ** 2 * setting.module * sine) / (4 * setting.teeth * setting.gashes ** 2);
  return { feed, generating: generating * tipFactor };
}

/** The flank is less curved toward the tip, so the marks there are deeper than on the reference circle. */
function tipCurvatureFactor(setting: HobbingSetting): number {
  const alpha = (setting.pressureAngle ?? 20) * rad;
  const reference = setting.teeth / 2;
  const base = reference * Math.cos(alpha);
  const tip = reference + 1 + setting.shift;
  return Math.sqrt(tip ** 2 - base ** 2) / (reference * Math.sin(alpha));
}

/** Base tangent length (ISO 21771; the values of its tables are checked in the tests). */
export function wantedSpan(setting: HobbingSetting, spanTeeth: number): number {
  const alpha = (setting.pressureAngle ?? 20) * rad;
  const transverse = Math.atan(Math.tan(alpha) / Math.cos(setting.helix * rad));
  const involute = Math.tan(transverse) - transverse;
  const { module: m, shift } = setting;
  return m * Math.cos(alpha) * (Math.PI * (spanTeeth - 0.5) + setting.teeth * involute) + 2 * shift * m * Math.sin(alpha);
}
