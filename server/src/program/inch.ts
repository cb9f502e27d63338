/** The one conversion between the two unit systems of programs. Exact since 1959. */
export const INCH_IN_MM = 25.4;
