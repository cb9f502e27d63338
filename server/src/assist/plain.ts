/** Explanations, quantities and moves as plain text for a terminal. */
import type { Quantity } from '../trade/quantity.ts';
import type { Explanation } from './explain.ts';
import { capitalised, valueWithUnit, workingWithSymbol } from './figures.ts';

export function explanationText(explanation: Explanation): string {
  const { word, title, meaning, source, context, problems } = explanation;
  const head = `${word}: ${title}. ${meaning} [${source}]`;
  const around = context.map(({ label, value }) => `${label} ${value}`).join(', ');
  return [head, ...problems.map(({ severity, message }) => `${severity}: ${message}`), quantitiesText(explanation.quantities), around].filter((part) => part !== '').join('\n');
}

export function quantitiesText(quantities: readonly Quantity[]): string {
  const width = Math.max(0, ...quantities.map(({ id }) => id.length));
  return quantities.map((each) => `${each.id.padEnd(width)}  ${valueWithUnit(each)}\n${' '.repeat(width)}  ${capitalised(each.name)}: ${workingWithSymbol(each)} [${each.source}]`).join('\n');
}
