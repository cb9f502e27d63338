/** What a parameter is and may be, in a few sentences: the same in a hover and in a list to choose from. */
import { allowedRange, defaultText, type Field } from '../process/fields.ts';
import type { Units } from '../trade/quantity.ts';

/** `standard` is what counts where nothing is given, if something else than the field list knows better. */
export function aboutField(field: Field, units: Units, standard = defaultText(field, units)): string {
  return `${field.help} Allowed: ${allowedRange(field, units)}${standard === undefined ? '' : `; default ${standard}`}.`;
}
