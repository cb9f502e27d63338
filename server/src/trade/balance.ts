/**
 * Balance of a rotating tool by its balance grade. Millimetres, kilograms, 1/min.
 * Source: ISO 1940-1 and ISO 21940-11.
 */
import { inRange, turningSpeed } from './domain.ts';

/** Permissible eccentricity of the centre of mass in micrometres: G / omega. */
export function permissibleEccentricityMicrometres(gradeMillimetresPerSecond: number, rpm: number): number {
  const grade = inRange('balanceGrade', gradeMillimetresPerSecond, { over: 1e-12, atMost: 4000 });
  return (1000 * grade) / ((2 * Math.PI * turningSpeed('rpm', rpm)) / 60);
}

/** Permissible unbalance in gram millimetres: eccentricity x mass. */
export function permissibleUnbalanceGramMillimetres(gradeMillimetresPerSecond: number, massKilograms: number, rpm: number): number {
  const mass = inRange('mass', massKilograms, { over: 1e-12, atMost: 1e6 });
  return permissibleEccentricityMicrometres(gradeMillimetresPerSecond, rpm) * mass;
}
