/**
 * Reads one line of a program onto a tape. Total: any text gives items and
 * faults, every character that is not white space belongs to one item, and
 * nothing throws.
 *
 * The reader knows the form of words, not what they mean, with one exception:
 * values are computed here, because a parameter setting takes effect only after
 * its whole line has been read (NISTIR 6556 §3.3.3).
 */
import {
  ASTERISK, CLOSE_PARENTHESIS, COLON, EQUALS, HASH, isControlCharacter, isDigit, isWhite, LESS_THAN, letterOf, MINUS, NINE,
  OPEN_PARENTHESIS, PERCENT_SIGN, PLUS, POINT, SEMICOLON, SLASH, ZERO,
} from './characters.ts';
import type { FixedFormat } from './dialect.ts';
import { ExpressionReader, type ParameterValues, wholeNumber } from './expressions.ts';
import { EXACT_DIGITS, NumberReader, POWERS_OF_TEN } from './numbers.ts';
import { isParameterNumber, LAST_PARAMETER } from './parameters.ts';
import {
  ASSIGNMENT, CLOSED, EXPRESSION, HOLE, JUNK, PARENTHESIS_COMMENT, PERCENT, POINTED, PROGRAM_NUMBER,
  SEMICOLON_COMMENT, SEQUENCE, SKIP, Tape, UNKNOWN, VALUELESS, WORD,
} from './tape.ts';
import { CharacterWindow } from './window.ts';

const LETTER_A = 65;
const LETTER_N = 78;
const LETTER_O = 79;
export const LONGEST_SEQUENCE_NUMBER = 5;
/** Characters other than letters that may begin an item. */
const BEGINNINGS = new Set([OPEN_PARENTHESIS, SEMICOLON, HASH, SLASH, PERCENT_SIGN, COLON, LESS_THAN]);
const OPERATORS = new Set([PLUS, MINUS, ASTERISK, SLASH]);
const HOLE_NAME = /<[A-Za-z][A-Za-z0-9]*>/y;

/** A bit per letter, A lowest. */
export function letterMask(letters: string): number {
  return [...letters.toUpperCase()].reduce((mask, letter) => mask | (1 << (letter.charCodeAt(0) - LETTER_A)), 0);
}

export class LineReader {
  readonly tape = new Tape();
  readonly #window: CharacterWindow;
  readonly #numbers = new NumberReader();
  readonly #expressions: ExpressionReader;
  #text = '';
  #limit = 0;

  /** Bits of the letters whose numbers have an implied point when they are written without one. */
  readonly #impliedLetters: number;

  constructor(parameters: ParameterValues, private readonly fixedFormat?: FixedFormat, window = new CharacterWindow()) {
    this.#window = window;
    this.#impliedLetters = fixedFormat === undefined ? 0 : letterMask(fixedFormat.letters);
    this.#expressions = new ExpressionReader(this.tape, parameters);
  }

  /** Reads `text` from `from` up to `limit`, which must not include the line end. Offsets on the tape are offsets in `text`. */
  read(text: string, from: number, limit: number): Tape {
    this.#text = text;
    this.#limit = limit;
    this.tape.clear();
    this.#window.show(text, from, limit);
    const { bytes, start } = this.#window;
    let at = from;
    while (at < limit) {
      const code = bytes[at - start]!;
      at = isWhite(code) ? at + 1 : this.#item(code, at);
    }
    return this.tape;
  }

  /** Reads the item that begins with `code` at `at`; answers where it ends, always after `at`. */
  #item(code: number, at: number): number {
    const letter = letterOf(code);
    if (letter !== 0) return this.#lettered(letter, at);
    switch (code) {
      case OPEN_PARENTHESIS: return this.#parenthesis(at);
      case SEMICOLON: return this.#semicolon(at);
      case HASH: return this.#assignment(at);
      case SLASH: return this.#slash(at);
      case PERCENT_SIGN: return this.#percent(at);
      case COLON: return this.#colon(at);
      case LESS_THAN: return this.#hole(at);
      default: return this.#junk(at, this.#afterJunk(at + 1));
    }
  }

  #lettered(letter: number, at: number): number {
    if (letter !== LETTER_N && letter !== LETTER_O) return this.#word(letter, at);
    if (letter === LETTER_O) return this.#programNumber(letter, at);
    return this.#onlySkipBefore() ? this.#sequence(at) : this.#word(letter, at);
  }

  /** Nearly every word is a letter and a short number without white space in it. */
  #word(letter: number, at: number): number {
    const { bytes, start } = this.#window;
    const limit = this.#limit;
    let position = at + 1;
    let code = position < limit ? bytes[position - start]! : 0;
    const isNegative = code === MINUS;
    if (isNegative) code = ++position < limit ? bytes[position - start]! : 0;
    const digitsStart = position;
    let mantissa = 0;
    while (code >= ZERO && code <= NINE) {
      mantissa = mantissa * 10 + (code - ZERO);
      code = ++position < limit ? bytes[position - start]! : 0;
    }
    const pointAt = position;
    const isPointed = code === POINT;
    if (isPointed) code = ++position < limit ? bytes[position - start]! : 0;
    while (isPointed && code >= ZERO && code <= NINE) {
      mantissa = mantissa * 10 + (code - ZERO);
      code = ++position < limit ? bytes[position - start]! : 0;
    }
    const fractionDigits = isPointed ? position - pointAt - 1 : 0;
    const digits = pointAt - digitsStart + fractionDigits;
    if (digits === 0 || digits > EXACT_DIGITS || (isWhite(code) && this.#continuesAfterWhite(position))) return this.#slowWord(letter, at);
    const size = fractionDigits === 0 ? mantissa : mantissa / POWERS_OF_TEN[fractionDigits]!;
    const row = this.tape.add(WORD, at, position, letter, isPointed ? POINTED : 0, isNegative ? -size : size);
    if (this.#impliedLetters !== 0 && !isPointed) this.#implyPoint(row, letter, digits);
    return position;
  }

  /** Whether a number may go on after the white space at `at`. */
  #continuesAfterWhite(at: number): boolean {
    const { bytes, start } = this.#window;
    const code = at + 1 < this.#limit ? bytes[at + 1 - start]! : 0;
    return (code >= ZERO && code <= NINE) || code === POINT || isWhite(code);
  }

  /** A word in any of its legal and illegal forms. */
  #slowWord(letter: number, at: number): number {
    const valueStart = this.#afterWhite(at + 1);
    const numbers = this.#numbers;
    if (!numbers.read(this.#text, valueStart, this.#limit)) return this.#wordWithoutLiteral(letter, at, valueStart, numbers.end);
    const row = this.tape.add(WORD, at, numbers.end, letter, numbers.pointed ? POINTED : 0, numbers.value);
    if (numbers.spaced) this.#spaceFault(at, numbers.end);
    if (this.#impliedLetters !== 0 && !numbers.pointed) this.#implyPoint(row, letter, numbers.digits);
    return numbers.end;
  }

  /** Puts the point where the fixed format has it (ISO 6983 detailed format, from memory). */
  #implyPoint(row: number, letter: number, digits: number): void {
    if ((this.#impliedLetters & (1 << (letter - LETTER_A))) === 0) return;
    const { suppressedZeros, integerDigits, fractionDigits } = this.fixedFormat!;
    const shift = suppressedZeros === 'leading' ? fractionDigits : digits - integerDigits;
    this.tape.value[row] = shift >= 0 ? this.tape.value[row]! / 10 ** shift : this.tape.value[row]! * 10 ** -shift;
  }

  #wordWithoutLiteral(letter: number, at: number, valueStart: number, afterSign: number): number {
    const tape = this.tape;
    if (afterSign === valueStart && this.#expressions.begins(this.#text, valueStart, this.#limit)) return this.#expressionWord(letter, at, valueStart);
    const end = afterSign > valueStart ? this.#afterSignedExpression(afterSign) : at + 1;
    tape.add(WORD, at, end, letter, VALUELESS);
    const why = end > afterSign && afterSign > valueStart ? ' A sign belongs to a literal number only.' : '';
    tape.fault('value-missing', at, end, `${this.#shown(at, end)}: a number must follow the letter.${why}`);
    return end;
  }

  /** `-#1` and `-[...]` are not in the grammar; the whole of it is one broken word. */
  #afterSignedExpression(at: number): number {
    const next = this.#afterWhite(at);
    if (!this.#expressions.begins(this.#text, next, this.#limit)) return at;
    this.#expressions.read(this.#text, next, this.#limit);
    return this.#expressions.end;
  }

  #expressionWord(letter: number, at: number, valueStart: number): number {
    const value = this.#expressions.read(this.#text, valueStart, this.#limit);
    const end = this.#expressions.end;
    this.tape.add(WORD, at, end, letter, EXPRESSION | this.#expressionFlags(value), value);
    this.#unsetFault(valueStart, end);
    return end;
  }

  #expressionFlags(value: number): number {
    if (!Number.isNaN(value)) return 0;
    return this.#expressions.failed ? VALUELESS : UNKNOWN;
  }

  /** N at the start of a line (NISTIR 6556 §3.3.1): an unsigned whole number of at most five digits. */
  #sequence(at: number): number {
    const { bytes, start } = this.#window;
    const limit = this.#limit;
    let position = at + 1;
    let code = position < limit ? bytes[position - start]! : 0;
    let value = 0;
    while (code >= ZERO && code <= NINE) {
      value = value * 10 + (code - ZERO);
      code = ++position < limit ? bytes[position - start]! : 0;
    }
    const digits = position - at - 1;
    if (digits === 0 || digits > LONGEST_SEQUENCE_NUMBER || code === POINT || (isWhite(code) && this.#continuesAfterWhite(position))) return this.#slowSequence(at);
    this.tape.add(SEQUENCE, at, position, LETTER_N, 0, value);
    return position;
  }

  #slowSequence(at: number): number {
    const end = this.#plainNumber(SEQUENCE, LETTER_N, at);
    const numbers = this.#numbers;
    if (numbers.digits === 0 || numbers.digits > LONGEST_SEQUENCE_NUMBER || numbers.signed || numbers.pointed) {
      this.tape.fault('sequence-number', at, end, `${this.#shown(at, end)}: a sequence number is 0 to 99999, at most five digits, without sign or point.`);
    }
    return end;
  }

  #programNumber(letter: number, at: number): number {
    const isFirst = this.#onlySkipBefore();
    const end = this.#plainNumber(PROGRAM_NUMBER, letter, at);
    const numbers = this.#numbers;
    if (!isFirst || numbers.digits === 0 || numbers.signed || numbers.pointed) {
      this.tape.fault('program-number', at, end, `${this.#shown(at, end)}: a program number is digits only and stands first on its line.`);
    }
    return end;
  }

  /** A mark at `at` and the number after it; a missing number leaves the mark alone. */
  #plainNumber(kind: number, letter: number, at: number): number {
    const numbers = this.#numbers;
    const valueStart = this.#afterWhite(at + 1);
    const isFound = numbers.read(this.#text, valueStart, this.#limit);
    const end = numbers.end > valueStart ? numbers.end : at + 1;
    this.tape.add(kind, at, end, letter, isFound ? (numbers.pointed ? POINTED : 0) : VALUELESS, numbers.value);
    return end;
  }

  #parenthesis(at: number): number {
    const { bytes, start } = this.#window;
    const limit = this.#limit;
    let nested = -1;
    let position = at + 1;
    for (; position < limit; position++) {
      const code = bytes[position - start]!;
      if (code === CLOSE_PARENTHESIS) break;
      if (code === OPEN_PARENTHESIS && nested < 0) nested = position;
    }
    const closed = position < limit;
    const end = closed ? position + 1 : limit;
    this.tape.add(PARENTHESIS_COMMENT, at, end, 0, closed ? CLOSED : 0);
    if (nested >= 0) this.tape.fault('comment-nested', nested, nested + 1, 'A comment ends at its first closing parenthesis and must not hold an opening one.');
    if (!closed) this.tape.fault('comment-open', at, end, 'The comment must be closed with ) on the same line.');
    this.#lookInside(at, end);
    return end;
  }

  /** What a comment must not hold; one of each kind is pointed out. */
  #lookInside(at: number, end: number): void {
    const { bytes, start } = this.#window;
    let [control, percent] = [-1, -1];
    for (let position = end - 1; position > at; position--) {
      const code = bytes[position - start]!;
      if (isControlCharacter(code)) control = position;
      else if (code === PERCENT_SIGN) percent = position;
    }
    if (control >= 0) this.tape.fault('character', control, control + 1, 'A comment holds characters that print, spaces and tabs only.');
    if (percent >= 0) this.tape.fault('comment-percent', percent, percent + 1, 'RS274/NGC allows a percent sign in a comment; to a control by ISO 6983 it may be the end of the program.');
  }

  #semicolon(at: number): number {
    this.tape.add(SEMICOLON_COMMENT, at, this.#limit, 0, CLOSED);
    return this.#limit;
  }

  #slash(at: number): number {
    if (this.tape.count > 0) return this.#junk(at, at + 1);
    const next = at + 1 < this.#limit ? this.#text.charCodeAt(at + 1) : 0;
    if (next === SLASH) return this.#junk(at, this.#limit);
    const hasLevel = isDigit(next) && next !== ZERO;
    const end = hasLevel ? at + 2 : at + 1;
    this.tape.add(SKIP, at, end, 0, 0, hasLevel ? next - ZERO : NaN);
    return end;
  }

  /** ISO 6983 lets an identifier follow the percent sign up to the end of the line (from memory). */
  #percent(at: number): number {
    if (this.tape.count > 0) return this.#junk(at, at + 1);
    let position = at + 1;
    let end = position;
    for (; position < this.#limit; position++) {
      const code = this.#text.charCodeAt(position);
      if (code === OPEN_PARENTHESIS || code === SEMICOLON) break;
      if (!isWhite(code)) end = position + 1;
    }
    this.tape.add(PERCENT, at, end);
    return end;
  }

  #colon(at: number): number {
    return this.#programNumber(COLON, at);
  }

  /** A word such as `<syncOn>` that stands where the machine card gave none. */
  #hole(at: number): number {
    HOLE_NAME.lastIndex = at;
    const match = this.#limit - at > 2 ? HOLE_NAME.exec(this.#text) : null;
    if (match === null || HOLE_NAME.lastIndex > this.#limit) return this.#junk(at, at + 1);
    const end = at + match[0].length;
    this.tape.add(HOLE, at, end);
    this.tape.fault('hole', at, end, `${match[0]}: the machine card does not say which word this is; put the machine's own word here.`);
    return end;
  }

  /** `#index=value`. Takes effect after the line, which is the interpreter's business. */
  #assignment(at: number): number {
    const expressions = this.#expressions;
    const tape = this.tape;
    const indexStart = this.#afterWhite(at + 1);
    const index = expressions.read(this.#text, indexStart, this.#limit);
    const equals = this.#afterWhite(expressions.end);
    if (expressions.failed || equals >= this.#limit || this.#text.charCodeAt(equals) !== EQUALS) return this.#brokenAssignment(at, expressions.failed, expressions.end);
    this.#unsetFault(indexStart, expressions.end);
    const valueStart = this.#afterWhite(equals + 1);
    const value = expressions.read(this.#text, valueStart, this.#limit);
    const end = Math.max(expressions.end, equals + 1);
    this.#unsetFault(valueStart, end);
    const row = tape.add(ASSIGNMENT, at, end, 0, this.#expressionFlags(value), value);
    tape.index[row] = this.#assignedIndex(index, at, indexStart, equals);
    return end;
  }

  #assignedIndex(index: number, at: number, indexStart: number, equals: number): number {
    const number = wholeNumber(index);
    if (Number.isNaN(index) || isParameterNumber(number)) return number;
    this.tape.fault('parameter-index', at, equals, `#${this.#text.slice(indexStart, equals).trim()}: a parameter number is a whole number from 1 to ${LAST_PARAMETER}, not ${index}.`);
    return NaN;
  }

  #brokenAssignment(at: number, faultKnown: boolean, end: number): number {
    const stop = Math.max(end, at + 1);
    this.tape.add(JUNK, at, stop);
    if (!faultKnown) this.tape.fault('expression', at, stop, `${this.#shown(at, stop)}: an equals sign and a value must follow the parameter.`);
    return stop;
  }

  /** The first place from `at` on where some other item or white space may begin. */
  #afterJunk(at: number): number {
    let position = at;
    for (; position < this.#limit; position++) {
      const code = this.#text.charCodeAt(position);
      if (isWhite(code) || letterOf(code) !== 0 || BEGINNINGS.has(code)) break;
    }
    return position;
  }

  /** Neighbouring characters that belong to nothing make one item. */
  #junk(at: number, end: number): number {
    const tape = this.tape;
    const last = tape.count - 1;
    if (last >= 0 && tape.kind(last) === JUNK && tape.end[last] === at && this.#extendFault(at, end)) {
      tape.end[last] = end;
      return end;
    }
    const isOperator = last >= 0 && OPERATORS.has(this.#text.charCodeAt(at)) && (tape.kind(last) === WORD || tape.kind(last) === ASSIGNMENT);
    tape.add(JUNK, at, end);
    if (isOperator) tape.fault('expression', at, end, 'An operator after a value: an expression stands in brackets, [ and ].');
    else tape.fault('character', at, end, 'These characters belong to no word of the format.');
    return end;
  }

  #extendFault(at: number, end: number): boolean {
    const faults = this.tape.faults;
    const fault = faults[faults.length - 1];
    if (fault === undefined || fault.end !== at) return false;
    faults[faults.length - 1] = { ...fault, end };
    return true;
  }

  #spaceFault(at: number, end: number): void {
    const shown = this.#shown(at, end);
    this.tape.fault('space-in-number', at, end, `${shown} reads as ${shown.replace(/[ \t]/g, '')}: a space inside a number means nothing.`);
  }

  #unsetFault(start: number, end: number): void {
    const unknown = this.#expressions.unknownParameters;
    if (unknown.length === 0) return;
    const names = [...new Set(unknown)].slice(0, 5).map((index) => `#${index}`).join(', ');
    this.tape.fault('parameter-unset', start, end, `${names}: this program gives no value, so the result is not known.`);
  }

  #onlySkipBefore(): boolean {
    return this.tape.count === 0 || (this.tape.count === 1 && this.tape.kind(0) === SKIP);
  }

  #afterWhite(at: number): number {
    let position = at;
    while (position < this.#limit && isWhite(this.#text.charCodeAt(position))) position++;
    return position;
  }

  /** The text of a word for a message, cut when it is very long. */
  #shown(start: number, end: number): string {
    const LONGEST = 60;
    return end - start <= LONGEST ? this.#text.slice(start, end) : `${this.#text.slice(start, start + LONGEST)}...`;
  }
}
