/** The hub of a straight-sided spline as figures to read, in millimetres. The table is in straight-splines.ts. */
import { straightSplineCatalogue } from './catalogue-keyway.ts';
import { figureMaker } from './figure-maker.ts';
import { shown, type Quantity } from './quantity.ts';
import { splineHubLimits, straightSpline } from './straight-splines.ts';

/**
 * @param treated hardened after cutting, which the wider class of the space allows for
 * @throws OutOfRange on `outerDiameter` when ISO 14 has no such spline
 */
export function straightSplineFigures(
  teeth: number, innerDiameter: number, outerDiameter: number, treated: boolean,
): Record<keyof typeof straightSplineCatalogue, Quantity> {
  const spline = straightSpline(teeth, innerDiameter, outerDiameter);
  const limits = splineHubLimits(spline, treated);
  const figure = figureMaker(straightSplineCatalogue, 'mm');
  const row = `${teeth}x${innerDiameter}x${outerDiameter}, ${spline.series} series`;
  const largest = (id: keyof typeof limits, nominal: number) =>
    figure(id, limits[id], () => `${shown(nominal)} + ${shown(limits[id] - nominal)} = ${shown(limits[id])}`);
  return {
    spaceWidth: figure('spaceWidth', spline.width, () => `${row}: ${shown(spline.width)}`),
    spaceWidthUpper: largest('spaceWidthUpper', spline.width),
    outerDiameterUpper: largest('outerDiameterUpper', outerDiameter),
    innerDiameterUpper: largest('innerDiameterUpper', innerDiameter),
  };
}
