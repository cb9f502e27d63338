/**
 * What a HOBBING note and the machine card mean for the virtual cut. The gear is
 * worked out here from the note again, and not taken from the figures of the
 * block: a proof must not lean on what it proves.
 */
import type { HobbingMachine } from '../cut/hobbing-motion.ts';
import type { HobbingStretch } from '../cut/hobbing-stretch.ts';
import type { HobTool } from '../cut/hob-tool.ts';
import { largestTipRadius } from '../cut/hob-tool.ts';
import { toldIn, type Told } from '../cut/told.ts';
import type { WantedGear } from '../cut/wanted-gear.ts';
import { toolUnit, type MachineCard } from '../machine/card.ts';
import { placeholdersOf } from '../machine/template.ts';
import { millimetresPerUnit, MILLIMETRES_PER_INCH } from '../trade/lengths.ts';
import { shown } from '../trade/quantity.ts';
import type { EvaluatedNote } from './program-notes.ts';
import { hobbingObstacles } from './proof-obstacles.ts';
import { provedSense, spindleOf, workRotationAssumption } from './proof-on-side.ts';
import { assumedRapid, proofValues, type ProofValues } from './proof-values.ts';
import { helixSignOf, hobSide, syncCode, syncTemplate, toolRotationOf } from './hobbing-senses.ts';
import type { Spindle } from './work-side.ts';

export interface HobbingProofJob {
  stretch: HobbingStretch;
  machine: HobbingMachine;
  assumptions: string[];
}

const degree = Math.PI / 180;
/** Addendum and dedendum of the basic rack of ISO 53, profile A, in modules. */
const rack = { addendum: 1, dedendum: 1.25 } as const;
/** Tip radius that hobs usually have, in modules (from memory). */
const usualTipRadius = 0.25;

/** All places count from the face of the work, so the steps must be turned into such axes too. */
export function hobbingJobOf(evaluated: EvaluatedNote): HobbingProofJob {
  const values = proofValues(evaluated);
  const { card, units } = evaluated.setting;
  const gear = gearOf(values);
  const tool = toolOf(values, gear);
  const spindle = spindleOf(evaluated.note);
  const faceZ = provedSense(card, spindle, 'zSense') * (values.length('FACE-Z') ?? 0);
  const settingRadians = gear.helixAngleDegrees * degree - leadAngle(tool);
  return {
    stretch: {
      units,
      gear,
      tool,
      settingRadians,
      zHigh: faceZ,
      zLow: faceZ - (values.length('FACE') ?? 0),
      feedPerWorkTurn: values.length('FEED') ?? 0,
      climb: values.word('METHOD') === 'CLIMB',
      ...(values.word('ENTRY') === 'PLUNGE' ? { radialFeedPerWorkTurn: values.length('RADIAL-FEED') ?? NaN } : {}),
      obstacles: hobbingObstacles(values, card, spindle),
    },
    machine: machineOf(card, spindle, tool, gear, millimetresPerUnit(units)),
    assumptions: assumptionsOf(card, spindle, tool, values, settingRadians, toldIn(units)),
  };
}

function gearOf(values: ProofValues): WantedGear {
  const normalModule = values.number('MODULE') ?? MILLIMETRES_PER_INCH / (values.number('DP') ?? NaN);
  const helix = (values.number('HELIX') ?? 0) * (values.word('HAND') === 'LEFT' ? -1 : 1);
  const teeth = values.number('TEETH') ?? NaN;
  const profileShift = values.number('PROFILE-SHIFT') ?? 0;
  const reference = (teeth * normalModule) / Math.cos(helix * degree);
  return {
    normalModule,
    teeth,
    helixAngleDegrees: helix === 0 ? 0 : helix,
    normalPressureAngleDegrees: values.number('PRESSURE-ANGLE') ?? NaN,
    profileShift,
    tipDiameter: values.length('TIP-DIA') ?? reference + 2 * normalModule * (rack.addendum + profileShift),
  };
}

/** A hob that cuts to the wanted depth: its addendum is what lies between the profile's reference line and the root. */
function toolOf(values: ProofValues, gear: WantedGear): HobTool {
  const m = gear.normalModule;
  const tipAboveLine = gear.tipDiameter / 2 - referenceRadius(gear) - gear.profileShift * m;
  const depth = values.length('DEPTH');
  const addendum = depth === undefined ? rack.dedendum * m : depth - tipAboveLine;
  const tool = {
    normalModule: m,
    normalPressureAngleDegrees: gear.normalPressureAngleDegrees,
    starts: values.number('HOB-STARTS') ?? 1,
    hand: values.word('HOB-HAND') === 'LEFT' ? (-1 as const) : (1 as const),
    tipDiameter: values.length('HOB-DIA') ?? NaN,
    gashes: values.number('HOB-GASHES') ?? NaN,
    addendum,
    dedendum: tipAboveLine + 0.2 * m,
    length: values.length('HOB-LENGTH') ?? generousLength(gear, addendum),
  };
  return { ...tool, tipRadius: Math.min(usualTipRadius * m, Math.max(0, largestTipRadius(tool))) };
}

function referenceRadius(gear: WantedGear): number {
  return (gear.teeth * gear.normalModule) / (2 * Math.cos(gear.helixAngleDegrees * degree));
}

/** So long that the hob's ends take no part: where its length is not known nothing is said about them. */
function generousLength(gear: WantedGear, addendum: number): number {
  return 4 * Math.sqrt(addendum * gear.tipDiameter) + 12 * Math.PI * gear.normalModule;
}

function leadAngle(tool: HobTool): number {
  return tool.hand * Math.asin((tool.starts * tool.normalModule) / (tool.tipDiameter - 2 * tool.addendum));
}

function machineOf(card: MachineCard, spindle: Spindle, tool: HobTool, gear: WantedGear, millimetres: number): HobbingMachine {
  const toolRotation = toolRotationOf(card, spindle) ?? 1;
  const workRotation = provedSense(card, spindle, 'workRotation');
  const side = hobSide(card, spindle);
  const unsigned = !placeholdersOf(syncTemplate(card, spindle)).has('sense');
  const helixSign = helixSignOf(card, spindle) ?? 1;
  return {
    toolRotation,
    workRotation,
    driveTurnsPerHobTurn: toolUnit(card, 'hobbing')?.ratio ?? 1,
    rapidPerMinute: assumedRapid,
    leadOfSync: (slots) => helixSign * leadOfSync(slots, gear, millimetres),
    ...(unsigned ? { senseWhenUnsigned: -tool.hand * side * workRotation * toolRotation > 0 ? (1 as const) : (-1 as const) } : {}),
  };
}

/** The lead that the synchronising words carry, in mm: as a length, or as the helix angle of a gear of this module and number of teeth. */
function leadOfSync(slots: Readonly<Record<string, number>>, gear: WantedGear, millimetres: number): number {
  const hand = slots['hand'] === undefined ? 1 : Math.sign(slots['hand']);
  const { lead, helix } = slots;
  if (lead !== undefined && lead !== 0) return hand * lead * millimetres;
  if (helix === undefined || helix === 0) return Infinity;
  return (hand * Math.PI * gear.normalModule * gear.teeth) / Math.sin(helix * degree);
}

function assumptionsOf(card: MachineCard, spindle: Spindle, tool: HobTool, values: ProofValues, settingRadians: number, told: Told): string[] {
  const said: string[] = [`The hob axis is swivelled ${swivel(settingRadians, spindle)}.`, `The hob has the tip radius ${told.size(tool.tipRadius)} and involute flanks.`];
  if (values.length('HOB-LENGTH') === undefined) said.push('The hob is long enough: HOB-LENGTH is not given.');
  said.push(...workRotationAssumption(card, spindle));
  if (provedSense(card, spindle, 'zSense') < 0) said.push('Z in what is found has the other sign than in the program: it leaves the face of the work.');
  if (toolRotationOf(card, spindle) === undefined) said.push('The forward direction of the driven tool turns the hob right-handed about +Y: senses.toolRotation of the machine card is not given.');
  if (!placeholdersOf(syncTemplate(card, spindle)).has('sense')) said.push(`The work turns the right way: codes.${syncCode(card, spindle, 'syncOn')} of the machine card has no {sense}.`);
  if (card.rapids === undefined) said.push(`Rapid moves run at ${told.size(assumedRapid, 0)}/min: the machine card gives no rapid speeds.`);
  return said;
}

function swivel(settingRadians: number, spindle: Spindle): string {
  const angle = shown(Math.abs(settingRadians / degree), 3);
  return `${angle} degrees ${settingRadians < 0 ? 'counter-clockwise' : 'clockwise'}, seen from the hob toward the work with ${spindle === 'SUB' ? 'its face' : '+Z'} up`;
}
