/** Limits of a size by its class as figures to read. The rules are in fits.ts. */
import { fitCatalogue } from './catalogue-keyway.ts';
import { figureMaker } from './figure-maker.ts';
import { limitDeviations, parseIsoClass, standardToleranceMicrometres, toleranceUnitMicrometres } from './fits.ts';
import { shown, type Quantity } from './quantity.ts';

/**
 * @param nominalMillimetres over 0 and up to 500
 * @throws OutOfRange on `nominal` or `fit`
 */
export function fitFigures(nominalMillimetres: number, isoClass: string): Record<keyof typeof fitCatalogue, Quantity> {
  const figure = figureMaker(fitCatalogue, 'mm');
  const { upperMicrometres: upper, lowerMicrometres: lower, source, standing } = limitDeviations(nominalMillimetres, isoClass);
  const { grade } = parseIsoClass(isoClass);
  const tolerance = standardToleranceMicrometres(nominalMillimetres, grade);
  const unit = toleranceUnitMicrometres(nominalMillimetres);
  const size = `${shown(nominalMillimetres)} ${isoClass}`;
  return {
    upperDeviation: figure('upperDeviation', upper, () => `${size}: upper deviation ${shown(upper)}, largest size ${shown(nominalMillimetres + upper / 1000)}`, { source, standing }),
    lowerDeviation: figure('lowerDeviation', lower, () => `${size}: lower deviation ${shown(lower)}, smallest size ${shown(nominalMillimetres + lower / 1000)}`, { source, standing }),
    standardTolerance: figure('standardTolerance', tolerance, () => `IT${grade} at ${shown(nominalMillimetres)} = ${tolerance}`, { source, standing }),
    toleranceUnit: figure('toleranceUnit', unit, () => `0.45 D^(1/3) + 0.001 D at the geometric mean of the range = ${shown(unit)}`),
  };
}
