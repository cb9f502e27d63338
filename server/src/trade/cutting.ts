/**
 * Speed, feed and what follows from them as figures to read, from whatever of
 * them is known. The relations are in speeds-and-feeds.ts,
 * constant-surface-speed.ts, surface-finish.ts and removal-and-approach.ts.
 */
import { unitOf } from './catalogue.ts';
import { cuttingCatalogue } from './catalogue-cutting.ts';
import { clampDiameter, facingSeconds, facingSecondsAtConstantRpm, rpmUnderClamp, type SurfaceSpeed } from './constant-surface-speed.ts';
import { turningSpeed } from './domain.ts';
import { figureMaker, type FigureMaker } from './figure-maker.ts';
import { lengthPerSpeedUnit } from './lengths.ts';
import { OutOfRange, shown, type Quantity, type Units } from './quantity.ts';
import { turningRemovalRate } from './removal-and-approach.ts';
import { chipLoadOf, cuttingSpeedOf, feedPerMinuteOf, feedPerRevolutionOf, feedPerRevolutionOfTeeth, rpmOf } from './speeds-and-feeds.ts';
import { peakToValley } from './surface-finish.ts';

export interface CuttingInput {
  units: Units;
  /** Of the work when turning, of the tool when milling. */
  diameter?: number;
  /** In m/min or ft/min; instead of `rpm`. */
  cuttingSpeed?: number;
  /** Instead of `cuttingSpeed`. */
  rpm?: number;
  /** Limit on the turns at constant surface speed. */
  clampRpm?: number;
  /** One of these three. */
  feedPerRevolution?: number;
  feedPerMinute?: number;
  chipLoad?: number;
  /** Teeth of a milling tool, for `chipLoad`. */
  flutes?: number;
  /** Radial depth of a turning cut. */
  depthOfCut?: number;
  /** Of a turning insert. */
  noseRadius?: number;
}

export type CuttingQuantityId = keyof typeof cuttingCatalogue;
export type CuttingQuantities = Partial<Record<CuttingQuantityId, Quantity>>;

/**
 * All figures that the given ones decide; the rest is left out.
 *
 * @throws OutOfRange with the field of `CuttingInput` that is wrong
 */
export function cutting(input: CuttingInput): CuttingQuantities {
  const known: Known = { rpm: knownRpm(input), feedPerRevolution: undefined };
  known.feedPerRevolution = knownFeed(input, known.rpm);
  const figure = figureMaker(cuttingCatalogue, input.units);
  return { ...speedFigures(input, known, figure), ...feedFigures(input, known, figure), ...cutFigures(input, known, figure) };
}

export interface FacingInput extends SurfaceSpeed {
  fromDiameter: number;
  toDiameter: number;
  /** Radial. */
  feedPerRevolution: number;
}

/** Time of facing at constant surface speed with a limit on the turns, and where the limit takes over. */
export function facing(input: FacingInput): Record<'facingTime' | 'facingTimeAtConstantRpm' | 'clampDiameter', Quantity> {
  const figure = figureMaker(cuttingCatalogue, input.units);
  const { fromDiameter, toDiameter, feedPerRevolution, cuttingSpeed, clampRpm } = input;
  const seconds = facingSeconds(input, fromDiameter, toDiameter, feedPerRevolution);
  return {
    facingTime: figure('facingTime', seconds, () =>
      `t from ${shown(fromDiameter)} to ${shown(toDiameter)}: f = ${shown(feedPerRevolution)}, v_c = ${shown(cuttingSpeed)}, at most ${shown(clampRpm)} turns below ${shown(clampDiameter(input))} = ${shown(seconds)} s`),
    facingTimeAtConstantRpm: constantRpmFigure(input, figure),
    clampDiameter: clampFigure(input, figure),
  };
}

/** What the same facing takes when the turns stay those of the outer diameter, for comparison. */
function constantRpmFigure(input: FacingInput, figure: Maker): Quantity {
  const { fromDiameter, toDiameter, feedPerRevolution } = input;
  const rpm = rpmUnderClamp(input, Math.max(fromDiameter, toDiameter));
  const seconds = facingSecondsAtConstantRpm(rpm, fromDiameter, toDiameter, feedPerRevolution);
  return figure('facingTimeAtConstantRpm', seconds, () =>
    `60 (D1 - D2) / (2 f n) = 60 x ${shown(Math.abs(fromDiameter - toDiameter))} / (2 x ${shown(feedPerRevolution)} x ${shown(rpm)}) = ${shown(seconds)} s`);
}

interface Known {
  rpm: number | undefined;
  feedPerRevolution: number | undefined;
}

type Maker = FigureMaker<CuttingQuantityId>;

function knownRpm({ units, rpm, cuttingSpeed, diameter, clampRpm }: CuttingInput): number | undefined {
  if (rpm !== undefined && cuttingSpeed !== undefined) throw new OutOfRange('rpm', rpm, 'left out', 'a cutting speed is given too');
  if (rpm !== undefined) return turningSpeed('rpm', rpm);
  if (cuttingSpeed === undefined || diameter === undefined) return undefined;
  return clampRpm === undefined ? rpmOf(cuttingSpeed, diameter, units) : rpmUnderClamp({ units, cuttingSpeed, clampRpm }, diameter);
}

function knownFeed({ feedPerRevolution, feedPerMinute, chipLoad, flutes = 1 }: CuttingInput, rpm: number | undefined): number | undefined {
  const given = Object.entries({ feedPerRevolution, feedPerMinute, chipLoad }).filter(([, value]) => value !== undefined);
  const [, second] = given;
  if (second) throw new OutOfRange(second[0], second[1], 'left out', 'another feed is given too');
  if (chipLoad !== undefined) return feedPerRevolutionOfTeeth(chipLoad, flutes);
  if (feedPerMinute !== undefined && rpm !== undefined) return feedPerRevolutionOf(feedPerMinute, rpm);
  return feedPerRevolution;
}

function speedFigures({ units, diameter, cuttingSpeed, clampRpm }: CuttingInput, { rpm }: Known, figure: Maker): CuttingQuantities {
  const perSpeed = lengthPerSpeedUnit(units);
  const clamp = cuttingSpeed !== undefined && clampRpm !== undefined ? { clampDiameter: clampFigure({ units, cuttingSpeed, clampRpm }, figure) } : {};
  if (rpm === undefined) return clamp;
  const rpmFigure = figure('rpm', rpm, () => rpmWorking({ units, diameter, cuttingSpeed, clampRpm }, rpm));
  if (diameter === undefined) return { rpm: rpmFigure, ...clamp };
  const speed = cuttingSpeedOf(rpm, diameter, units);
  return {
    rpm: rpmFigure,
    cuttingSpeed: figure('cuttingSpeed', speed, () => `pi D n / ${perSpeed} = pi x ${shown(diameter)} x ${shown(rpm)} / ${perSpeed} = ${shown(speed)}`),
    ...clamp,
  };
}

function rpmWorking({ units, diameter, cuttingSpeed, clampRpm }: CuttingInput, rpm: number): string {
  if (cuttingSpeed === undefined) return `n = ${shown(rpm)} as given`;
  const perSpeed = lengthPerSpeedUnit(units);
  const limit = clampRpm === undefined ? '' : `, at most ${shown(clampRpm)}`;
  return `${perSpeed} v_c / (pi D) = ${perSpeed} x ${shown(cuttingSpeed)} / (pi x ${shown(diameter ?? NaN)})${limit} = ${shown(rpm)}`;
}

function clampFigure(css: SurfaceSpeed, figure: Maker): Quantity {
  const [diameter, perSpeed] = [clampDiameter(css), lengthPerSpeedUnit(css.units)];
  return figure('clampDiameter', diameter, () =>
    `${perSpeed} v_c / (pi n_max) = ${perSpeed} x ${shown(css.cuttingSpeed)} / (pi x ${shown(css.clampRpm)}) = ${shown(diameter)}`);
}

function feedFigures(input: CuttingInput, known: Known, figure: Maker): CuttingQuantities {
  return { ...turnFeedFigures(input, known, figure), ...toothFeedFigure(input, known, figure) };
}

function toothFeedFigure({ flutes }: CuttingInput, { feedPerRevolution }: Known, figure: Maker): CuttingQuantities {
  if (flutes === undefined || feedPerRevolution === undefined) return {};
  const load = chipLoadOf(feedPerRevolution, flutes);
  return { chipLoad: figure('chipLoad', load, () => `f / z = ${shown(feedPerRevolution)} / ${flutes} = ${shown(load, 6)}`) };
}

function turnFeedFigures({ units }: CuttingInput, { rpm, feedPerRevolution }: Known, figure: Maker): CuttingQuantities {
  if (rpm === undefined || feedPerRevolution === undefined) return {};
  const perMinute = feedPerMinuteOf(feedPerRevolution, rpm);
  const [minute, revolution] = [unitOf('lengthPerMinute', units), unitOf('lengthPerRevolution', units)];
  return {
    feedPerMinute: figure('feedPerMinute', perMinute, () => `f n = ${shown(feedPerRevolution)} x ${shown(rpm)} = ${shown(perMinute)} ${minute}`),
    feedPerRev: figure('feedPerRev', feedPerRevolution, () => `v_f / n = ${shown(perMinute)} / ${shown(rpm)} = ${shown(feedPerRevolution)} ${revolution}`),
  };
}

function cutFigures(input: CuttingInput, known: Known, figure: Maker): CuttingQuantities {
  return { ...removalFigure(input, known, figure), ...finishFigure(input, known, figure) };
}

function removalFigure({ units, depthOfCut, diameter }: CuttingInput, { rpm, feedPerRevolution }: Known, figure: Maker): CuttingQuantities {
  if (depthOfCut === undefined || diameter === undefined || rpm === undefined || feedPerRevolution === undefined) return {};
  const speed = cuttingSpeedOf(rpm, diameter, units);
  const rate = turningRemovalRate(depthOfCut, feedPerRevolution, speed, units);
  return {
    removalRate: figure('removalRate', rate, () =>
      `${units === 'mm' ? '' : '12 '}a_p f v_c = ${units === 'mm' ? '' : '12 x '}${shown(depthOfCut)} x ${shown(feedPerRevolution)} x ${shown(speed)} = ${shown(rate)}`),
  };
}

function finishFigure({ noseRadius }: CuttingInput, { feedPerRevolution }: Known, figure: Maker): CuttingQuantities {
  if (noseRadius === undefined || feedPerRevolution === undefined) return {};
  const height = peakToValley(feedPerRevolution, noseRadius);
  return {
    peakToValley: figure('peakToValley', height, () =>
      `r - sqrt(r^2 - f^2/4) = ${shown(noseRadius)} - sqrt(${shown(noseRadius)}^2 - ${shown(feedPerRevolution)}^2/4) = ${shown(height, 6)}`),
  };
}
