/**
 * The figures of engraving a text with a pointed tool: each one a quantity with
 * its working and its source. Letters and surface are in engraving-path.ts, the
 * tool in pointed-tool.ts, run-out in run-out.ts.
 */
import { unitOf } from './catalogue.ts';
import { engravingCatalogue } from './catalogue-engraving.ts';
import { inRange, lengthOrZero, positiveLength } from './domain.ts';
import { engravingPath, type EngravingPath, type EngravingPlace } from './engraving-path.ts';
import { figureMaker, type FigureMaker } from './figure-maker.ts';
import { lengthPerSpeedUnit } from './lengths.ts';
import { diameterAtDepth } from './pointed-tool.ts';
import { shown, type Quantity, type Units } from './quantity.ts';
import { chipLoadChange, chipLoadWithRunOut } from './run-out.ts';
import { cuttingSpeedOf, feedPerMinuteOf, feedPerRevolutionOfTeeth } from './speeds-and-feeds.ts';

export { engravingPath, farthestFromAxis, minutesOfSteps, type CylinderPath, type EngravingPath, type FacePath } from './engraving-path.ts';

/** All lengths are in `units`, angles in degrees. */
export interface EngravingInput extends EngravingPlace {
  units: Units;
  /** Below the surface. */
  depth: number;
  /** Of the flat at the tool's tip. */
  tipDiameter: number;
  /** Included angle of the tool. */
  tipAngleDegrees: number;
  flutes: number;
  rpm: number;
  /** Feed of a tooth. */
  chipLoad: number;
  /** Total indicator reading at the tip. Left out: `ENGRAVING_DEFAULTS`. */
  runOut?: number;
  /** Plunge feed as a share of the feed. Left out: `ENGRAVING_DEFAULTS`. */
  plungeShare?: number;
}

/** The plunge share lies in the middle of 20 to 50 %, from memory; the run-out is common practice, no source. */
export const ENGRAVING_DEFAULTS = { plungeShare: 0.35, runOut: { mm: 0.005, inch: 0.0002 } } as const;

export type EngravingQuantityId = keyof typeof engravingCatalogue;

/**
 * Computes an engraving. Lengths come out in the units of the input, speeds in
 * m/min or ft/min, times in seconds.
 *
 * @throws OutOfRange with the field of `EngravingInput` that is wrong and its range
 */
export function engraving(input: EngravingInput): Record<EngravingQuantityId, Quantity> {
  checkTool(input);
  const figure = figureMaker(engravingCatalogue, input.units);
  const path = engravingPath(input);
  return {
    ...toolFigures(input, figure),
    ...timeFigures(input, path, figure),
    runOutShare: runOutFigure(input, figure),
  };
}

/** Feed of the path, in length a minute. */
export function engravingFeed({ rpm, flutes, chipLoad }: EngravingInput): number {
  return feedPerMinuteOf(feedPerRevolutionOfTeeth(chipLoad, flutes), rpm);
}

/** Feed of the plunge, in length a minute. */
export function plungeFeed(input: EngravingInput): number {
  return engravingFeed(input) * inRange('plungeShare', input.plungeShare ?? ENGRAVING_DEFAULTS.plungeShare, { atLeast: 0.01, atMost: 1 });
}

type Maker = FigureMaker<EngravingQuantityId>;

function checkTool(input: EngravingInput): void {
  positiveLength('depth', input.depth);
  lengthOrZero('runOut', runOutOf(input));
}

function runOutOf({ runOut, units }: EngravingInput): number {
  return runOut ?? ENGRAVING_DEFAULTS.runOut[units];
}

function toolFigures(input: EngravingInput, figure: Maker) {
  const { tipDiameter, tipAngleDegrees, depth, rpm, flutes, chipLoad, units } = input;
  const diameter = diameterAtDepth(input, depth);
  const perSpeed = lengthPerSpeedUnit(units);
  const speed = cuttingSpeedOf(rpm, diameter, units);
  const feed = engravingFeed(input);
  const diameterWorking = () =>
    `d_tip + 2 a_p tan(alpha/2) = ${shown(tipDiameter)} + 2 x ${shown(depth)} x tan(${shown(tipAngleDegrees / 2)} deg) = ${shown(diameter)}`;
  return {
    effectiveDiameter: figure('effectiveDiameter', diameter, () => `d_eff = ${diameterWorking()}`),
    cuttingSpeed: figure('cuttingSpeed', speed, () =>
      `v_c = pi x d_eff x n / ${perSpeed} = pi x ${shown(diameter)} x ${shown(rpm)} / ${perSpeed} = ${shown(speed)} ${unitOf('cuttingSpeed', units)}`),
    feedPerMinute: figure('feedPerMinute', feed, () =>
      `v_f = n x z x f_z = ${shown(rpm)} x ${flutes} x ${shown(chipLoad, 6)} = ${shown(feed)} ${unitOf('lengthPerMinute', units)}`),
    lineWidth: figure('lineWidth', diameter, () => `w = ${diameterWorking()}; run-out of ${shown(runOutOf(input))} widens it by as much at most`),
  };
}

function timeFigures(input: EngravingInput, path: EngravingPath, figure: Maker) {
  const [feed, plunge] = [engravingFeed(input), plungeFeed(input)];
  const seconds = 60 * (path.length / feed + (path.plunges * input.depth) / plunge);
  return {
    pathLength: figure('pathLength', path.length, () =>
      `L = sum of ${path.plunges} strokes of "${input.text}", capitals ${shown(input.height)} high = ${shown(path.length)}`),
    cuttingTime: figure('cuttingTime', seconds, () =>
      `t = 60 x (L / v_f + plunges x a_p / v_plunge) = 60 x (${shown(path.length)} / ${shown(feed)} + ${path.plunges} x ${shown(input.depth)} / ${shown(plunge)})` +
      ` = ${shown(seconds)} s, moves in air not counted`),
  };
}

function runOutFigure(input: EngravingInput, figure: Maker): Quantity {
  const [runOut, { chipLoad, flutes }] = [runOutOf(input), input];
  const { share, largest, smallest } = chipLoadWithRunOut(chipLoad, runOut, flutes);
  return figure('runOutShare', share, () =>
    `TIR x sin(pi/z) / f_z = ${shown(runOut)} x sin(pi/${flutes}) / ${shown(chipLoad, 6)} = ${shown(share)}` +
    ` (+/- ${shown(chipLoadChange(runOut, flutes), 6)}: teeth take ${shown(smallest, 6)} to ${shown(largest, 6)}${share >= 1 ? ', a tooth no longer cuts' : ''})`);
}
