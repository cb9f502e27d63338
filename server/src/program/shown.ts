/** A number in a message: up to five decimals. */
export function shown(value: number): string {
  return String(Math.round(value * 1e5) / 1e5);
}
