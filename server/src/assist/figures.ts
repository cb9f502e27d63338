/**
 * How numbers and quantities look to a reader, for every surface alike. Only
 * display: values are never computed on after this.
 */
import Fraction from 'fraction.js';
import type { Quantity } from '../trade/quantity.ts';

/** Six figures are more than any machine holds, and few enough to read. */
export function figure(value: number): string {
  if (Number.isInteger(value)) return String(value);
  const magnitude = Math.abs(value);
  if (magnitude >= 1e15 || magnitude < 1e-9) return value.toPrecision(6);
  const decimals = Math.max(0, Math.min(9, 5 - Math.floor(Math.log10(magnitude))));
  return value.toFixed(Math.min(decimals, magnitude >= 1 ? 5 : 9)).replace(/\.?0+$/, '');
}

/** A quantity's value with its unit. A ratio of whole numbers is shown as one, since that is what goes into the control. */
export function valueWithUnit({ id, value, unit }: Quantity): string {
  if (id === 'syncRatio') return `${new Fraction(value).simplify(1e-9).toFraction()} (${figure(value)})`;
  // The sign of a setting angle is the whole point of it, so a plus is shown too.
  if (unit === 'deg') return `${id === 'settingAngle' && value > 0 ? '+' : ''}${Number(value.toFixed(5))} deg`;
  if (unit === 'mm' && value !== 0 && Math.abs(value) < 0.1) return `${figure(value)} mm (${figure(Number((value * 1000).toPrecision(4)))} µm)`;
  return unit === '' ? figure(value) : `${figure(value)} ${unit}`;
}

/** The working, opened by its symbol unless it says that itself. */
export function workingWithSymbol({ symbol, working }: Quantity): string {
  const bare = (text: string) => text.replaceAll(' ', '');
  return typeset(symbol === '' || bare(working).startsWith(bare(symbol)) ? working : `${symbol} = ${working}`);
}

const greekLetters = [
  ['alpha', 'α'], ['beta', 'β'], ['gamma', 'γ'], ['delta', 'δ'], ['epsilon', 'ε'], ['eta', 'η'], ['theta', 'θ'], ['lambda', 'λ'], ['rho', 'ρ'], ['phi', 'φ'], ['omega', 'ω'],
] as const;

const signs: readonly [RegExp, string][] = [
  ...greekLetters.map(([name, letter]): [RegExp, string] => [new RegExp(`\\b${name}(?=_|\\b)`, 'g'), letter]), [/\bpi\b/g, 'π'], [/\bsqrt\b/g, '√'],
  [/(?<=[\d)π°]) x (?=[-\d(√π]|cos|sin|tan)/g, ' × '], [/\^2\b/g, '²'], [/\^3\b/g, '³'],
];

/** A formula as a reader expects it on paper. The library writes plain letters, which every tool can hold. */
function typeset(text: string): string {
  return signs.reduce((result, [pattern, sign]) => result.replace(pattern, sign), text);
}

/** The first letter as a capital, for headings. */
export function capitalised(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
