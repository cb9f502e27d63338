/** Milling, finish, helix, run-out along a tool, balance and presetting as figures to read. The relations are in the files imported here. */
import { permissibleEccentricityMicrometres, permissibleUnbalanceGramMillimetres } from './balance.ts';
import { toolAndCutCatalogue } from './catalogue-cutting.ts';
import { figureMaker } from './figure-maker.ts';
import { degreesPerLength, helixAngleFromAxisDegrees, helixPathLength } from './helix-by-c.ts';
import { presetOffsets, type EdgeReadings } from './presetting.ts';
import { shown, type Quantity, type Units } from './quantity.ts';
import { faceMillApproach, millingRemovalRate, slabMillApproach } from './removal-and-approach.ts';
import { runOutAtGaugeLength, sweptDiameter, tiltFromRunOut } from './run-out.ts';
import { secondsOfCut } from './speeds-and-feeds.ts';
import { meanRoughness, scallopHeight, stepoverForScallop } from './surface-finish.ts';

type Figures<Id extends keyof typeof toolAndCutCatalogue> = Record<Id, Quantity>;

export interface MillingInput {
  units: Units;
  cutterDiameter: number;
  depthOfCut: number;
  widthOfCut: number;
  feedPerMinute: number;
  /** All the travel, approach included. */
  length: number;
}

export function millingFigures(input: MillingInput): Figures<'millingRemovalRate' | 'faceMillApproach' | 'slabMillApproach' | 'cutTime'> {
  const { units, cutterDiameter: d, depthOfCut: depth, widthOfCut: width, feedPerMinute: feed, length } = input;
  const figure = figureMaker(toolAndCutCatalogue, units);
  const [rate, seconds] = [millingRemovalRate(depth, width, feed, units), secondsOfCut(length, feed)];
  const [face, slab] = [faceMillApproach(d, width), slabMillApproach(d, depth)];
  return {
    millingRemovalRate: figure('millingRemovalRate', rate, () => `a_p a_e v_f = ${shown(depth)} x ${shown(width)} x ${shown(feed)}${units === 'mm' ? ' / 1000' : ''} = ${shown(rate)}`),
    faceMillApproach: figure('faceMillApproach', face, () => `(d - sqrt(d^2 - w^2)) / 2, d = ${shown(d)}, w = ${shown(width)}: ${shown(face)}`),
    slabMillApproach: figure('slabMillApproach', slab, () => `sqrt(a (d - a)) = sqrt(${shown(depth)} x ${shown(d - depth)}) = ${shown(slab)}`),
    cutTime: figure('cutTime', seconds, () => `60 L / v_f = 60 x ${shown(length)} / ${shown(feed)} = ${shown(seconds)} s`),
  };
}

export interface FinishInput {
  units: Units;
  feedPerRevolution: number;
  noseRadius: number;
  stepover: number;
  ballRadius: number;
  /** Wanted height of the scallops. */
  height: number;
}

export function finishFigures(input: FinishInput): Figures<'meanRoughness' | 'scallopHeight' | 'stepoverForScallop'> {
  const { units, feedPerRevolution: feed, noseRadius, stepover, ballRadius, height } = input;
  const figure = figureMaker(toolAndCutCatalogue, units);
  const [mean, scallop, step] = [meanRoughness(feed, noseRadius), scallopHeight(stepover, ballRadius), stepoverForScallop(height, ballRadius)];
  return {
    meanRoughness: figure('meanRoughness', mean, () => `4 / (9 sqrt 3) R_t, f = ${shown(feed)}, r = ${shown(noseRadius)}: ${shown(mean, 6)}`),
    scallopHeight: figure('scallopHeight', scallop, () => `R - sqrt(R^2 - s^2/4), R = ${shown(ballRadius)}, s = ${shown(stepover)}: ${shown(scallop, 6)}`),
    stepoverForScallop: figure('stepoverForScallop', step, () => `2 sqrt(h (2 R - h)), R = ${shown(ballRadius)}, h = ${shown(height, 6)}: ${shown(step)}`),
  };
}

export interface HelixInput {
  units: Units;
  diameter: number;
  lead: number;
  /** Along the axis. */
  length: number;
}

export function helixFigures({ units, diameter, lead, length }: HelixInput): Figures<'degreesPerLength' | 'helixAngle' | 'helixPath'> {
  const figure = figureMaker(toolAndCutCatalogue, units);
  const [turn, angle, path] = [degreesPerLength(lead), helixAngleFromAxisDegrees(diameter, lead), helixPathLength(diameter, lead, length)];
  const cylinder = `pi x ${shown(diameter)} / ${shown(lead)}`;
  return {
    degreesPerLength: figure('degreesPerLength', turn, () => `360 / lead = 360 / ${shown(lead)} = ${shown(turn)}`),
    helixAngle: figure('helixAngle', angle, () => `atan(pi D / lead) = atan(${cylinder}) = ${shown(angle)}`),
    helixPath: figure('helixPath', path, () => `L sqrt(1 + (pi D / lead)^2) = ${shown(length)} x sqrt(1 + (${cylinder})^2) = ${shown(path)}`),
  };
}

export interface RunOutInput {
  units: Units;
  runOutAtNose: number;
  gaugeLength: number;
  tiltDegrees: number;
  /** Read at the gauge length. */
  runOutFarther: number;
  toolDiameter: number;
}

export function runOutFigures(input: RunOutInput): Figures<'runOutAtGaugeLength' | 'tilt' | 'sweptDiameter'> {
  const { units, runOutAtNose, gaugeLength, tiltDegrees, runOutFarther, toolDiameter } = input;
  const figure = figureMaker(toolAndCutCatalogue, units);
  const [far, tilt, swept] = [runOutAtGaugeLength(runOutAtNose, gaugeLength, tiltDegrees), tiltFromRunOut(runOutAtNose, runOutFarther, gaugeLength), sweptDiameter(toolDiameter, runOutAtNose)];
  return {
    runOutAtGaugeLength: figure('runOutAtGaugeLength', far, () => `TIR_0 + 2 L tan phi = ${shown(runOutAtNose)} + 2 x ${shown(gaugeLength)} x tan(${shown(tiltDegrees)} deg) = ${shown(far, 6)}`),
    tilt: figure('tilt', tilt, () => `atan((TIR - TIR_0) / 2 L) = atan((${shown(runOutFarther)} - ${shown(runOutAtNose)}) / (2 x ${shown(gaugeLength)})) = ${shown(tilt, 6)}`),
    sweptDiameter: figure('sweptDiameter', swept, () => `d + TIR = ${shown(toolDiameter)} + ${shown(runOutAtNose)} = ${shown(swept)}`),
  };
}

/** Grade in mm/s, mass in kg. */
export function balanceFigures(grade: number, massKilograms: number, rpm: number): Figures<'permissibleEccentricity' | 'permissibleUnbalance'> {
  const figure = figureMaker(toolAndCutCatalogue, 'mm');
  const [eccentricity, unbalance] = [permissibleEccentricityMicrometres(grade, rpm), permissibleUnbalanceGramMillimetres(grade, massKilograms, rpm)];
  return {
    permissibleEccentricity: figure('permissibleEccentricity', eccentricity, () => `G / omega = ${shown(grade)} mm/s at ${shown(rpm)} turns a minute = ${shown(eccentricity)}`),
    permissibleUnbalance: figure('permissibleUnbalance', unbalance, () => `e_per m = ${shown(eccentricity)} x ${shown(massKilograms)} = ${shown(unbalance)}`),
  };
}

export function presetFigures(readings: EdgeReadings, offsetsAreDiameters: boolean, units: Units): Figures<'presetX' | 'presetY' | 'presetZ' | 'presetWidth'> {
  const figure = figureMaker(toolAndCutCatalogue, units);
  const { x, y, z, insertWidth } = presetOffsets(readings, offsetsAreDiameters);
  const corners = `${shown(readings.lowerCornerY)} and ${shown(readings.upperCornerY)}`;
  return {
    presetX: figure('presetX', x, () => `edge at ${shown(readings.edgeX)}${offsetsAreDiameters ? ', as a diameter' : ''} = ${shown(x)}`),
    presetY: figure('presetY', y, () => `middle of ${corners} = ${shown(y)}`),
    presetZ: figure('presetZ', z, () => `front at ${shown(z)}`),
    presetWidth: figure('presetWidth', insertWidth, () => `between ${corners} = ${shown(insertWidth)}`),
  };
}
