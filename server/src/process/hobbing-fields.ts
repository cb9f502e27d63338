/**
 * The parameters of hobbing as data. Everything that lists, reads or explains a
 * parameter derives from this table; what the values come to is not known here.
 */
import type { Values } from './fields.ts';
import { splineDesignation } from './hobbing-spline.ts';
import { materialFields } from './usual-ranges.ts';
import { spindleField } from './work-side.ts';

export const hobbingFields = {
  MODULE: { kind: 'number', label: 'Normal module', dimension: 'module', above: 0, most: 40, optional: true, absent: 'use DP', help: 'Module in the normal section, always in mm. Give MODULE or DP.' },
  DP: { kind: 'number', label: 'Normal diametral pitch', dimension: 'diametralPitch', above: 0, most: 500, optional: true, absent: 'use MODULE', help: 'Teeth per inch of reference diameter, normal section. Give DP or MODULE.' },
  TEETH: { kind: 'number', label: 'Number of teeth', dimension: 'count', least: 3, most: 1000, whole: true, help: 'Teeth of the gear.' },
  HELIX: { kind: 'number', label: 'Helix angle', dimension: 'angle', least: 0, most: 60, default: 0, help: 'Helix angle of the gear at the reference diameter, without a sign; HAND gives the direction.' },
  HAND: { kind: 'choice', label: 'Hand of the gear', choices: ['RIGHT', 'LEFT'], default: 'RIGHT', help: 'Direction of the helix. Without meaning for a spur gear.' },
  'PRESSURE-ANGLE': { kind: 'number', label: 'Normal pressure angle', dimension: 'angle', least: 10, most: 45, default: 20, help: 'Pressure angle of the basic rack, normal section.' },
  'PROFILE-SHIFT': { kind: 'number', label: 'Profile shift coefficient', dimension: 'number', least: -2, most: 2, default: 0, help: 'x: profile shift divided by the normal module.' },
  FACE: { kind: 'number', label: 'Face width', dimension: 'length', above: 0, most: 1000, help: 'Length of the teeth along the work axis.' },
  'TIP-DIA': { kind: 'number', label: 'Tip diameter', dimension: 'length', above: 0, most: 5000, optional: true, absent: 'computed', help: 'Outside diameter of the blank. Computed from module, teeth and profile shift where it is not given.' },
  DEPTH: { kind: 'number', label: 'Whole depth', dimension: 'length', above: 0, most: 100, optional: true, absent: 'computed', help: 'Radial depth of the teeth. Computed for a basic rack with 1 and 1.25 modules where it is not given.' },
  CLASS: { kind: 'number', label: 'Flank tolerance class', dimension: 'count', least: 1, most: 11, whole: true, default: 8, help: 'Class of ISO 1328-1:2013 that the flanks must hold.' },
  SPLINE: { kind: 'text', label: 'Spline by its standard', longest: 40, form: splineDesignation, optional: true, absent: 'not by a standard', help: 'Gives MODULE or DP, TEETH, PRESSURE-ANGLE, PROFILE-SHIFT, TIP-DIA and DEPTH. It is the basic tooth: what its class takes off is not in it.' },
  'HOB-DIA': { kind: 'number', label: 'Hob outside diameter', dimension: 'length', above: 0, most: 500, help: 'Outside diameter of the hob.' },
  'HOB-STARTS': { kind: 'number', label: 'Hob starts', dimension: 'count', least: 1, most: 20, whole: true, default: 1, help: 'Starts (threads) of the hob.' },
  'HOB-HAND': { kind: 'choice', label: 'Hand of the hob', choices: ['RIGHT', 'LEFT'], default: 'RIGHT', help: 'Direction of the hob thread.' },
  'HOB-GASHES': { kind: 'number', label: 'Hob gashes', dimension: 'count', least: 2, most: 200, whole: true, default: 12, help: 'Gashes (rows of cutting edges) round the hob.' },
  'HOB-LENGTH': { kind: 'number', label: 'Hob length', dimension: 'length', above: 0, most: 1000, optional: true, absent: 'not checked', help: 'Toothed length of the hob. Where it is given, entry, generating zone and SHIFT are checked against it.' },
  ...materialFields,
  SPEED: { kind: 'number', label: 'Cutting speed', dimension: 'surfaceSpeed', above: 0, most: 2000, optional: true, absent: 'use RPM', help: 'Cutting speed at the outside of the hob. Give SPEED or RPM.' },
  RPM: { kind: 'number', label: 'Hob speed', dimension: 'rpm', above: 0, most: 20000, optional: true, absent: 'use SPEED', help: 'Revolutions of the hob. Give RPM or SPEED.' },
  FEED: { kind: 'number', label: 'Axial feed', dimension: 'feedPerRevolution', above: 0, most: 20, help: 'Axial feed for one revolution of the work.' },
  CUTS: { kind: 'number', label: 'Number of cuts', dimension: 'count', least: 1, most: 20, whole: true, default: 1, help: 'Passes over the face, each deeper than the one before.' },
  METHOD: { kind: 'choice', label: 'Climb or conventional', choices: ['CLIMB', 'CONVENTIONAL'], default: 'CLIMB', help: 'Climb: the cut runs against the feed. Conventional: with it.' },
  ENTRY: { kind: 'choice', label: 'Entry of the hob', choices: ['AXIAL', 'PLUNGE'], default: 'AXIAL', help: 'AXIAL: the hob comes in along the work. PLUNGE: it goes in radially beside the face and feeds along the work from there, which needs far less room before the teeth.' },
  'RADIAL-FEED': { kind: 'number', label: 'Radial feed', dimension: 'feedPerRevolution', above: 0, most: 20, optional: true, absent: 'needed to plunge', help: 'With ENTRY=PLUNGE: radial feed, true and not on the diameter, for one revolution of the work.' },
  'SPARK-OUT': { kind: 'number', label: 'Work revolutions at depth', dimension: 'number', least: 0, most: 20, default: 1, help: 'With ENTRY=PLUNGE: revolutions of the work at the depth of a cut before axial feed begins. One gives every tooth space the same depth.' },
  CLEARANCE: { kind: 'number', label: 'Clearance', dimension: 'length', least: 0, most: 100, default: { mm: 2, inch: 0.08 }, help: 'Safety added to approach and overrun together; one half of it also before a plunge.' },
  'FACE-Z': { kind: 'number', label: 'Z of the front face', dimension: 'length', least: -10000, most: 10000, default: 0, help: 'Z of the face of the teeth where the cut begins. The teeth reach from here into the work: toward -Z on the main spindle.' },
  SHIFT: { kind: 'number', label: 'Hob shift', dimension: 'length', least: -1000, most: 1000, default: 0, help: 'How far the middle of the hob stands from the pitch point, along the hob axis toward the end to which Y grows.' },
  'TOOTH-ANGLE': { kind: 'number', label: 'Angular place of a tooth', dimension: 'angle', least: -360, most: 360, optional: true, absent: 'anywhere', help: 'C of the middle of a tooth at FACE-Z, for teeth that must have their place. Needs HOB-PHASE, and {phase} in codes.syncOn of the machine card.' },
  'HOB-PHASE': { kind: 'number', label: 'Phase of the hob', dimension: 'angle', least: -360, most: 360, optional: true, absent: 'not known', help: 'The figure of {phase} that puts a tooth at C 0 when hob and work are coupled with the hob unshifted and its centre at FACE-Z. A trial cut gives it.' },
  'SHOULDER-DIA': { kind: 'number', label: 'Diameter behind the teeth', dimension: 'length', above: 0, most: 5000, optional: true, absent: 'not checked', help: 'Largest diameter of what stands behind the teeth: shoulder, flange or jaws.' },
  'SHOULDER-GAP': { kind: 'number', label: 'Room behind the teeth', dimension: 'length', least: 0, most: 10000, optional: true, absent: 'not checked', help: 'Free width between the end of the teeth and what stands behind them.' },
  'FRONT-DIA': { kind: 'number', label: 'Diameter before the teeth', dimension: 'length', above: 0, most: 5000, optional: true, absent: 'not checked', help: 'Largest diameter of what stands before the teeth: collar, second gear or tailstock.' },
  'FRONT-GAP': { kind: 'number', label: 'Room before the teeth', dimension: 'length', least: 0, most: 10000, optional: true, absent: 'not checked', help: 'Free width between the face of the teeth and what stands before them.' },
  'GROOVE-DIA': { kind: 'number', label: 'Diameter of the grooves', dimension: 'length', above: 0, most: 5000, optional: true, absent: 'not checked', help: 'Largest diameter of the grooves or necks beside the teeth, into which the hob runs out or plunges.' },
  ...spindleField,
} as const;

export type HobbingValues = Values<typeof hobbingFields>;
