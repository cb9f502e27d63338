/**
 * What surrounds a slot as figures to read: a measured bore, the crank, the box
 * cycle, errors of squareness and indexing, clocking, polygons. The geometry and
 * kinematics are in the files that this one imports.
 */
import { slottingCatalogue } from './catalogue-keyway.ts';
import { clockedToGearDegrees, pitchErrorFromRounding, turnForOffsetDegrees } from './clocking.ts';
import { axisMoveSeconds, boxCycleMinutes, crankSpeed, peakSpeedFactor, quickReturnSpeed, strokeSpeedAt, type BoxCycle } from './crank.ts';
import { figureMaker } from './figure-maker.ts';
import { lengthPerSpeedUnit } from './lengths.ts';
import { acrossCorners, cornerCutDepth, flatLength } from './polygon-slots.ts';
import { shown, type Quantity, type Units } from './quantity.ts';
import { floorStep } from './side-passes.ts';
import { floorRadiusFromMeasuredBore, slotArea } from './slot-geometry.ts';
import { leanOver } from './small-angles.ts';

type Figures<Id extends keyof typeof slottingCatalogue> = Record<Id, Quantity>;

/** A slot in a bore that came out at its own diameter, to be measured over floor and opposite wall. */
export interface MeasuredBoreInput {
  units: Units;
  measuredBoreDiameter: number;
  width: number;
  /** Wanted dimension over floor and opposite wall. */
  overall: number;
}

export function measuredBoreFigures({ units, measuredBoreDiameter: bore, width, overall }: MeasuredBoreInput): Figures<'floorRadius' | 'slotArea'> {
  const figure = figureMaker(slottingCatalogue, units);
  const floor = floorRadiusFromMeasuredBore(overall, bore);
  const area = slotArea(bore / 2, width, floor);
  return {
    floorRadius: figure('floorRadius', floor, () => `M - D_act/2 = ${shown(overall)} - ${shown(bore / 2)} = ${shown(floor)}, as a diameter ${shown(2 * floor)}`),
    slotArea: figure('slotArea', area, () => `${shown(width)} x ${shown(floor)} less the bore under it = ${shown(area)}`),
  };
}

export interface CrankInput {
  units: Units;
  stroke: number;
  strokesPerMinute: number;
  /** Crank radius over rod length, 0 for a sinusoidal stroke. */
  rodRatio: number;
  /** From the start of the stroke. */
  distance: number;
  /** 0 at the start of the cutting stroke. */
  angleDegrees: number;
  /** Return time over cutting time, 1 for a plain crank. */
  returnTimeRatio: number;
}

export function crankFigures(input: CrankInput): Figures<'strokeSpeed' | 'crankSpeed' | 'peakSpeedFactor' | 'quickReturnSpeed'> {
  const { units, stroke, strokesPerMinute, rodRatio, distance, angleDegrees, returnTimeRatio } = input;
  const figure = figureMaker(slottingCatalogue, units);
  const perSpeed = lengthPerSpeedUnit(units);
  const atPlace = strokeSpeedAt(distance, stroke, strokesPerMinute) / perSpeed;
  const atAngle = crankSpeed(input, angleDegrees) / perSpeed;
  const factor = peakSpeedFactor(rodRatio);
  const quick = quickReturnSpeed(stroke, strokesPerMinute, returnTimeRatio) / perSpeed;
  const unit = `S = ${shown(stroke)}, n_s = ${shown(strokesPerMinute)}`;
  return {
    strokeSpeed: figure('strokeSpeed', atPlace, () => `2 v_p sqrt(x/S (1 - x/S)) at x = ${shown(distance)}, ${unit}: ${shown(atPlace)}`),
    crankSpeed: figure('crankSpeed', atAngle, () => `${unit}, lambda = ${shown(rodRatio)}, at ${shown(angleDegrees)} deg: ${shown(atAngle)}`),
    peakSpeedFactor: figure('peakSpeedFactor', factor, () => `largest speed with lambda = ${shown(rodRatio)} over that of an endless rod = ${shown(factor)}`),
    quickReturnSpeed: figure('quickReturnSpeed', quick, () => `S N (1 + m) = ${shown(stroke)} x ${shown(strokesPerMinute)} x ${shown(1 + returnTimeRatio)} / ${perSpeed} = ${shown(quick)}`),
  };
}

/** Feeds in length a minute, acceleration in length a second squared. */
export interface BoxCycleInput extends BoxCycle {
  units: Units;
  acceleration: number;
}

export function boxCycleFigures(input: BoxCycleInput): Figures<'boxCycle' | 'axisMove'> {
  const figure = figureMaker(slottingCatalogue, input.units);
  const { stroke, cutFeed, returnFeed, liftOff, liftFeed, acceleration } = input;
  const cycle = 60 * boxCycleMinutes(input);
  const move = axisMoveSeconds(stroke, cutFeed / 60, acceleration);
  return {
    boxCycle: figure('boxCycle', cycle, () =>
      `60 (S/F_cut + S/F_return + 2 r/F_lift) = 60 x (${shown(stroke)} / ${shown(cutFeed)} + ${shown(stroke)} / ${shown(returnFeed)} + 2 x ${shown(liftOff)} / ${shown(liftFeed)}) = ${shown(cycle)} s`),
    axisMove: figure('axisMove', move, () => `from rest to rest over ${shown(stroke)} at ${shown(cutFeed / 60)} a second, ${shown(acceleration)} a second squared = ${shown(move)} s`),
  };
}

export interface SlotErrorInput {
  units: Units;
  /** Offset in Y that is wanted, and the radius of the floor. */
  offset: number;
  floorRadius: number;
  slotWidth: number;
  insertWidth: number;
  depth: number;
  squarenessErrorDegrees: number;
  resolutionDegrees: number;
}

/** What turning the work in place of Y, an edge out of square and a coarse C do to a slot. */
export function slotErrorFigures(
  input: SlotErrorInput,
): Figures<'turnForOffset' | 'floorLean' | 'flankLean' | 'floorStep' | 'floorTilt' | 'pitchErrorFromRounding'> {
  const { offset, floorRadius, slotWidth, insertWidth, depth, squarenessErrorDegrees: error, resolutionDegrees } = input;
  const figure = figureMaker(slottingCatalogue, input.units);
  const turn = turnForOffsetDegrees(offset, floorRadius);
  const leaning = (id: 'floorLean' | 'flankLean' | 'floorTilt', length: number, angle: number) => {
    const lean = leanOver(length, angle);
    return figure(id, lean, () => `${shown(length)} x tan(${shown(angle)} deg) = ${shown(lean)}`);
  };
  const [step, pitch] = [floorStep(slotWidth, insertWidth, error), pitchErrorFromRounding(floorRadius, resolutionDegrees)];
  return {
    turnForOffset: figure('turnForOffset', turn, () => `asin(y/r) = asin(${shown(offset)} / ${shown(floorRadius)}) = ${shown(turn)}`),
    floorLean: leaning('floorLean', insertWidth, turn),
    flankLean: leaning('flankLean', depth, turn),
    floorStep: figure('floorStep', step, () => `(W - b) tan epsilon = ${shown(slotWidth - insertWidth)} x tan(${shown(error)} deg) = ${shown(step)}`),
    floorTilt: leaning('floorTilt', insertWidth, error),
    pitchErrorFromRounding: figure('pitchErrorFromRounding', pitch, () => `r delta = ${shown(floorRadius)} x ${shown(resolutionDegrees)} deg in radians = ${shown(pitch, 6)}`),
  };
}

/** What an edge out of square by an angle leaves over its own length: as flat as that no floor and no flat can be. */
export function edgeTiltFigure(units: Units, edgeLength: number, squarenessErrorDegrees: number): Figures<'floorTilt'> {
  const tilt = leanOver(edgeLength, squarenessErrorDegrees);
  return {
    floorTilt: figureMaker(slottingCatalogue, units)('floorTilt', tilt, () =>
      `b tan epsilon = ${shown(edgeLength)} x tan(${shown(squarenessErrorDegrees)} deg) = ${shown(tilt)}, for an edge that stands ${shown(squarenessErrorDegrees)} deg aside`),
  };
}

/** C of a keyway that is clocked to a gear. The index counts teeth with C. */
export function clockingFigures(toothAngleDegrees: number, teeth: number, target: 'tooth' | 'space', index: number): Figures<'clockedToGear'> {
  const angle = clockedToGearDegrees(toothAngleDegrees, teeth, target, index);
  const pitches = target === 'tooth' ? `${index}` : `${index} + 1/2`;
  return {
    clockedToGear: figureMaker(slottingCatalogue, 'mm')('clockedToGear', angle, () =>
      `C_tooth + (${pitches}) 360/z = ${shown(toothAngleDegrees)} + (${pitches}) x 360 / ${teeth} = ${shown(angle)}`),
  };
}

export interface PolygonInput {
  units: Units;
  sides: number;
  acrossFlats: number;
  boreDiameter: number;
}

export function polygonFigures({ units, sides, acrossFlats, boreDiameter }: PolygonInput): Figures<'acrossCorners' | 'flatLength' | 'cornerCutDepth'> {
  const figure = figureMaker(slottingCatalogue, units);
  const [corners, flat] = [acrossCorners(sides, acrossFlats), flatLength(sides, acrossFlats)];
  const depth = cornerCutDepth(sides, acrossFlats, boreDiameter);
  return {
    acrossCorners: figure('acrossCorners', corners, () => `AF / cos(pi/N) = ${shown(acrossFlats)} / cos(180 deg / ${sides}) = ${shown(corners)}`),
    flatLength: figure('flatLength', flat, () => `AF tan(pi/N) = ${shown(acrossFlats)} x tan(180 deg / ${sides}) = ${shown(flat)}`),
    cornerCutDepth: figure('cornerCutDepth', depth, () => `(e - D)/2 = (${shown(corners)} - ${shown(boreDiameter)}) / 2 = ${shown(depth)}`),
  };
}
