/** Character codes and classes of the word address format, in one place. */

export const TAB = 9;
export const SPACE = 32;
export const HASH = 35;
export const PERCENT_SIGN = 37;
export const OPEN_PARENTHESIS = 40;
export const CLOSE_PARENTHESIS = 41;
export const ASTERISK = 42;
export const PLUS = 43;
export const MINUS = 45;
export const POINT = 46;
export const SLASH = 47;
export const ZERO = 48;
export const NINE = 57;
export const COLON = 58;
export const SEMICOLON = 59;
export const LESS_THAN = 60;
export const EQUALS = 61;
export const OPEN_BRACKET = 91;
export const CLOSE_BRACKET = 93;
export const DELETE = 127;

export const isWhite = (code: number): boolean => code === SPACE || code === TAB;
/** Prints nothing; a tab does not count. */
export const isControlCharacter = (code: number): boolean => (code < SPACE && code !== TAB) || code === DELETE;
export const isDigit = (code: number): boolean => code >= ZERO && code <= NINE;

/** Upper case letter code for A to Z in either case, else 0. */
export function letterOf(code: number): number {
  const upper = code & ~32;
  return upper >= 65 && upper <= 90 && code < 128 && code >= 65 ? upper : 0;
}
