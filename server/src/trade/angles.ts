/**
 * Degrees and radians, converted in one place. The library speaks degrees at
 * its edges, because programs and drawings do, and radians inside.
 */

export const radians = (degrees: number): number => (degrees * Math.PI) / 180;

export const degrees = (radians: number): number => (radians * 180) / Math.PI;
