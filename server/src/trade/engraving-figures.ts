/** What surrounds an engraving as figures to read: lines of a wanted width, run-out of the tool, wrapping round a cylinder. */
import { engravedLineCatalogue } from './catalogue-engraving.ts';
import { flatToolDepthLoss, rotaryFeedDegreesPerMinute, wrapAngleDegrees } from './engraving-path.ts';
import { figureMaker } from './figure-maker.ts';
import { customaryLineWidth, depthForLineWidth, lineWidthError, meanCuttingSpeed, type PointedTool } from './pointed-tool.ts';
import { shown, type Quantity, type Units } from './quantity.ts';
import { chipLoadChange, chipLoadWithRunOut } from './run-out.ts';

type Figures<Id extends keyof typeof engravedLineCatalogue> = Record<Id, Quantity>;

export interface EngravedLineInput extends PointedTool {
  units: Units;
  /** Of the letters. */
  height: number;
  lineWidth: number;
  /** How far the depth may be off. */
  depthError: number;
  rpm: number;
}

export function engravedLineFigures(input: EngravedLineInput): Figures<'depthForLineWidth' | 'lineWidthError' | 'meanCuttingSpeed' | 'customaryLineWidth'> {
  const { units, height, lineWidth, depthError, rpm, tipDiameter, tipAngleDegrees } = input;
  const figure = figureMaker(engravedLineCatalogue, units);
  const depth = depthForLineWidth(input, lineWidth);
  const [error, mean, customary] = [lineWidthError(depthError, tipAngleDegrees), meanCuttingSpeed(input, depth, rpm, units), customaryLineWidth(height)];
  const half = `tan(${shown(tipAngleDegrees / 2)} deg)`;
  return {
    depthForLineWidth: figure('depthForLineWidth', depth, () => `(w - d_tip) / (2 tan(alpha/2)) = (${shown(lineWidth)} - ${shown(tipDiameter)}) / (2 x ${half}) = ${shown(depth)}`),
    lineWidthError: figure('lineWidthError', error, () => `2 delta tan(alpha/2) = 2 x ${shown(depthError)} x ${half} = ${shown(error)}`),
    meanCuttingSpeed: figure('meanCuttingSpeed', mean, () => `pi (d_tip + d_eff)/2 n = pi x ${shown((tipDiameter + lineWidth) / 2)} x ${shown(rpm)} = ${shown(mean)}`),
    customaryLineWidth: figure('customaryLineWidth', customary, () => `0.12 h = 0.12 x ${shown(height)} = ${shown(customary)}`),
  };
}

export interface ChipLoadInput {
  units: Units;
  chipLoad: number;
  /** Total indicator reading. */
  runOut: number;
  flutes: number;
}

export function chipLoadFigures({ units, chipLoad, runOut, flutes }: ChipLoadInput): Figures<'chipLoadLargest' | 'chipLoadSmallest'> {
  const figure = figureMaker(engravedLineCatalogue, units);
  const { largest, smallest } = chipLoadWithRunOut(chipLoad, runOut, flutes);
  const change = shown(chipLoadChange(runOut, flutes), 6);
  return {
    chipLoadLargest: figure('chipLoadLargest', largest, () => `f_z + TIR sin(pi/z) = ${shown(chipLoad, 6)} + ${change} = ${shown(largest, 6)}`),
    chipLoadSmallest: figure('chipLoadSmallest', smallest, () => `f_z - TIR sin(pi/z) = ${shown(chipLoad, 6)} - ${change}, not below 0 = ${shown(smallest, 6)}`),
  };
}

export interface WrapInput {
  units: Units;
  cylinderDiameter: number;
  arc: number;
  /** On the surface, in length a minute. */
  feed: number;
  /** Of something flat that is cut without turning the work. */
  halfWidth: number;
}

export function wrapFigures({ units, cylinderDiameter: diameter, arc, feed, halfWidth }: WrapInput): Figures<'wrapAngle' | 'rotaryFeed' | 'flatToolDepthLoss'> {
  const figure = figureMaker(engravedLineCatalogue, units);
  const [angle, rotary, loss] = [wrapAngleDegrees(arc, diameter), rotaryFeedDegreesPerMinute(feed, diameter), flatToolDepthLoss(diameter, halfWidth)];
  return {
    wrapAngle: figure('wrapAngle', angle, () => `s 360 / (pi D) = ${shown(arc)} x 360 / (pi x ${shown(diameter)}) = ${shown(angle)}`),
    rotaryFeed: figure('rotaryFeed', rotary, () => `v_f 360 / (pi D) = ${shown(feed)} x 360 / (pi x ${shown(diameter)}) = ${shown(rotary)} deg/min`),
    flatToolDepthLoss: figure('flatToolDepthLoss', loss, () => `R - sqrt(R^2 - h^2), R = ${shown(diameter / 2)}, h = ${shown(halfWidth)}: ${shown(loss, 6)}`),
  };
}
