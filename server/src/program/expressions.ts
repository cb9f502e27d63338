/**
 * Reads and computes values: numbers, parameters, functions and bracketed
 * expressions, with the precedence and the functions of NISTIR 6556 §3.3.2.
 *
 * A value is computed while it is read. NaN stands for a value that is not known
 * because a parameter has none; a value that cannot exist is a fault on the tape.
 */
import {
  ASTERISK, CLOSE_BRACKET, HASH, isDigit, isWhite, letterOf, MINUS, OPEN_BRACKET, OPEN_PARENTHESIS, PLUS, POINT,
  SEMICOLON, SLASH,
} from './characters.ts';
import { NumberReader } from './numbers.ts';
import { isParameterNumber, LAST_PARAMETER } from './parameters.ts';
import type { Tape } from './tape.ts';

/** Where values of parameters come from; NaN for one that has no value. */
export interface ParameterValues {
  get(index: number): number;
}

type Operator = '**' | '*' | '/' | 'MOD' | '+' | '-' | 'AND' | 'OR' | 'XOR';

/** NISTIR 6556 §3.3.2.3: three levels only, all from left to right. */
const LEVEL: Readonly<Record<Operator, number>> = { '**': 3, '*': 2, '/': 2, 'MOD': 2, '+': 1, '-': 1, 'AND': 1, 'OR': 1, 'XOR': 1 };
const LOWEST_LEVEL = 1;
const WORD_OPERATORS: readonly Operator[] = ['MOD', 'AND', 'XOR', 'OR'];
const FUNCTIONS = ['ABS', 'ACOS', 'ASIN', 'ATAN', 'COS', 'EXP', 'FIX', 'FUP', 'LN', 'ROUND', 'SIN', 'SQRT', 'TAN'] as const;
type FunctionName = (typeof FUNCTIONS)[number];
/** Deeper nesting than any line of 256 characters can hold. */
const DEEPEST_NESTING = 128;
/** 0.0001 and what the rounding of doubles may add to it. */
const WHOLE_TOLERANCE = 0.0001 + 1e-9;
const DEGREE = Math.PI / 180;
const LONGEST_SHOWN = 60;

/** Thrown inside the reader to leave a broken expression; never leaves this module. */
class Unreadable extends Error {}

export class ExpressionReader {
  /** After the last character read. */
  end = 0;
  /** The parameters without a value that the last reading met. */
  readonly unknownParameters: number[] = [];
  readonly #numbers = new NumberReader();
  #text = '';
  #at = 0;
  #limit = 0;
  #depth = 0;
  #failed = false;
  #tape: Tape;
  #parameters: ParameterValues;

  constructor(tape: Tape, parameters: ParameterValues) {
    this.#tape = tape;
    this.#parameters = parameters;
  }

  /** True if a value that is not a plain number begins here: `[`, `#` or a function name with its bracket. */
  begins(text: string, at: number, limit: number): boolean {
    const code = at < limit ? text.charCodeAt(at) : 0;
    if (code === OPEN_BRACKET || code === HASH) return true;
    return letterOf(code) !== 0 && bracketAfterName(text, at, limit) > at + 1;
  }

  /** Reads one value. NaN with a fault on the tape if it is broken; `end` is then after the broken part. */
  read(text: string, at: number, limit: number): number {
    this.#text = text;
    this.#at = at;
    this.#limit = limit;
    this.#depth = 0;
    this.#failed = false;
    if (this.unknownParameters.length > 0) this.unknownParameters.length = 0;
    try {
      const value = this.#value();
      this.end = this.#at;
      return value;
    } catch (broken) {
      if (!(broken instanceof Unreadable)) throw broken;
      this.#failed = true;
      this.end = afterBrokenExpression(text, at, limit);
      // Where nothing stands, the character that asks for the value is marked: a mark without width shows nothing.
      this.#tape.fault('expression', Math.min(at, this.end - 1), this.end, broken.message);
      return NaN;
    }
  }

  /** The last reading was a fault. */
  get failed(): boolean {
    return this.#failed;
  }

  #value(): number {
    const code = this.#peek();
    if (code === OPEN_BRACKET) return this.#bracketed();
    if (code === HASH) return this.#parameter();
    if (isDigit(code) || code === POINT || code === MINUS || code === PLUS) return this.#number();
    if (letterOf(code) !== 0) return this.#function();
    throw new Unreadable(`${this.#found()} stands where a number, a parameter, a function or an opening bracket is needed.`);
  }

  #bracketed(): number {
    if (++this.#depth > DEEPEST_NESTING) throw new Unreadable(`More than ${DEEPEST_NESTING} brackets are nested.`);
    this.#at++;
    const value = this.#operation(LOWEST_LEVEL);
    if (this.#peek() !== CLOSE_BRACKET) throw new Unreadable(`${this.#found()} stands where an operator or a closing bracket is needed.`);
    this.#at++;
    this.#depth--;
    return value;
  }

  #operation(level: number): number {
    const start = this.#at;
    let left = this.#value();
    for (let operator = this.#operator(level); operator !== undefined; operator = this.#operator(level)) {
      const right = this.#operation(LEVEL[operator] + 1);
      left = this.#checked(operate(operator, left, right), start);
    }
    return left;
  }

  /** Takes the next operator if it binds at least as tightly as `level`. */
  #operator(level: number): Operator | undefined {
    const code = this.#peek();
    const before = this.#at;
    const operator = this.#symbolOperator(code) ?? this.#wordOperator(code);
    if (operator !== undefined && LEVEL[operator] >= level) return operator;
    this.#at = before;
    return undefined;
  }

  #symbolOperator(code: number): Operator | undefined {
    if (code === PLUS || code === MINUS || code === SLASH) {
      this.#at++;
      return code === PLUS ? '+' : code === MINUS ? '-' : '/';
    }
    if (code !== ASTERISK) return undefined;
    this.#at++;
    if (this.#peek() !== ASTERISK) return '*';
    this.#at++;
    return '**';
  }

  #wordOperator(code: number): Operator | undefined {
    if (letterOf(code) === 0) return undefined;
    return WORD_OPERATORS.find((name) => this.#takeName(name));
  }

  #parameter(): number {
    const start = this.#at;
    if (++this.#depth > DEEPEST_NESTING) throw new Unreadable(`More than ${DEEPEST_NESTING} parameter signs are nested.`);
    this.#at++;
    const index = this.#value();
    this.#depth--;
    if (Number.isNaN(index)) return NaN;
    const number = wholeNumber(index);
    if (!isParameterNumber(number)) {
      this.#tape.fault('parameter-index', start, this.#at, `#${index}: a parameter number is a whole number from 1 to ${LAST_PARAMETER}.`);
      return NaN;
    }
    const value = this.#parameters.get(number);
    if (Number.isNaN(value)) this.unknownParameters.push(number);
    return value;
  }

  #number(): number {
    const numbers = this.#numbers;
    if (!numbers.read(this.#text, this.#at, this.#limit)) throw new Unreadable('A sign or a point without a digit. A sign belongs to a literal number only.');
    if (numbers.spaced) this.#hintAtSpaces(this.#at, numbers.end);
    this.#at = numbers.end;
    return numbers.value;
  }

  #hintAtSpaces(start: number, end: number): void {
    const shown = this.#text.slice(start, Math.min(end, start + LONGEST_SHOWN));
    this.#tape.fault('space-in-number', start, end, `${shown} reads as ${shown.replace(/[ \t]/g, '')}: a space inside a number means nothing.`);
  }

  #function(): number {
    const start = this.#at;
    const name = FUNCTIONS.find((candidate) => this.#takeName(candidate) && this.#bracketFollows(start));
    if (name === undefined) throw new Unreadable(`Unknown function: ${this.#nameHere()}. Known are ${FUNCTIONS.join(', ')}.`);
    const argument = this.#bracketed();
    const value = name === 'ATAN' ? this.#arcTangent(argument) : apply(name, argument);
    return this.#checked(value, start);
  }

  #bracketFollows(start: number): boolean {
    if (this.#peek() === OPEN_BRACKET) return true;
    this.#at = start;
    return false;
  }

  /** `ATAN[a]/[b]`: here the slash is no division (NISTIR 6556 §3.3.2.4). */
  #arcTangent(first: number): number {
    if (this.#peek() !== SLASH) throw new Unreadable('ATAN needs two bracketed values with a slash between: ATAN[a]/[b].');
    this.#at++;
    if (this.#peek() !== OPEN_BRACKET) throw new Unreadable('ATAN needs a bracketed value after its slash: ATAN[a]/[b].');
    return Math.atan2(first, this.#bracketed()) / DEGREE;
  }

  /** Turns a refusal into a fault on the tape, and the value into an unknown one. */
  #checked(value: number | Refusal, start: number): number {
    if (typeof value === 'number') return value;
    this.#tape.fault('expression-value', start, this.#at, value.why);
    return NaN;
  }

  #peek(): number {
    while (this.#at < this.#limit && isWhite(this.#text.charCodeAt(this.#at))) this.#at++;
    return this.#at < this.#limit ? this.#text.charCodeAt(this.#at) : 0;
  }

  #takeName(name: string): boolean {
    const end = afterName(this.#text, this.#at, this.#limit, name);
    if (end < 0) return false;
    this.#at = end;
    return true;
  }

  #found(): string {
    return this.#at < this.#limit ? `'${this.#text.charAt(this.#at)}'` : 'The end of the line';
  }

  #nameHere(): string {
    return /^[A-Za-z]*/.exec(this.#text.slice(this.#at, Math.min(this.#at + 20, this.#limit)))![0].toUpperCase();
  }
}

/** Nearest whole number if within 0.0001 of it (NISTIR 6556 §3.3.2.1), else the value itself. */
export function wholeNumber(value: number): number {
  const nearest = Math.round(value);
  return Math.abs(value - nearest) <= WHOLE_TOLERANCE ? nearest : value;
}

interface Refusal {
  readonly why: string;
}

function operate(operator: Operator, left: number, right: number): number | Refusal {
  if (Number.isNaN(left) || Number.isNaN(right)) return NaN;
  switch (operator) {
    case '**': return power(left, right);
    case '*': return finite(left * right);
    case '/': return right === 0 ? { why: `${left} / 0: the divisor must not be 0.` } : finite(left / right);
    case 'MOD': return modulo(left, right);
    case '+': return finite(left + right);
    case '-': return finite(left - right);
    case 'AND': return left !== 0 && right !== 0 ? 1 : 0;
    case 'OR': return left !== 0 || right !== 0 ? 1 : 0;
    case 'XOR': return (left !== 0) !== (right !== 0) ? 1 : 0;
  }
}

function power(base: number, exponent: number): number | Refusal {
  if (base < 0 && !Number.isInteger(exponent)) return { why: `${base} ** ${exponent}: the exponent of a negative base must be a whole number.` };
  return finite(base ** exponent);
}

/** The published text gives no result for negative operands, and implementations differ, so they are refused. */
function modulo(left: number, right: number): number | Refusal {
  if (right === 0) return { why: `${left} MOD 0: the divisor must not be 0.` };
  if (left < 0 || right < 0) return { why: `${left} MOD ${right}: the result for negative values is not defined; both must be 0 or more.` };
  return left % right;
}

function finite(value: number): number | Refusal {
  return Number.isFinite(value) ? value : { why: 'The result is too large for a number.' };
}

/** Angles are in degrees both ways. */
function apply(name: Exclude<FunctionName, 'ATAN'>, argument: number): number | Refusal {
  if (Number.isNaN(argument)) return NaN;
  switch (name) {
    case 'ABS': return Math.abs(argument);
    case 'ACOS': return Math.abs(argument) > 1 ? outside(name, argument, '-1 to 1') : Math.acos(argument) / DEGREE;
    case 'ASIN': return Math.abs(argument) > 1 ? outside(name, argument, '-1 to 1') : Math.asin(argument) / DEGREE;
    case 'COS': return Math.cos(argument * DEGREE);
    case 'EXP': return finite(Math.exp(argument));
    case 'FIX': return Math.floor(argument);
    case 'FUP': return Math.ceil(argument) + 0;
    case 'LN': return argument <= 0 ? outside(name, argument, 'more than 0') : Math.log(argument);
    case 'ROUND': return Math.sign(argument) * Math.floor(Math.abs(argument) + 0.5) + 0;
    case 'SIN': return Math.sin(argument * DEGREE);
    case 'SQRT': return argument < 0 ? outside(name, argument, '0 or more') : Math.sqrt(argument);
    case 'TAN': return Math.abs(argument % 180) === 90 ? { why: `TAN[${argument}]: a right angle has no tangent.` } : finite(Math.tan(argument * DEGREE));
  }
}

function outside(name: string, argument: number, allowed: string): Refusal {
  return { why: `${name}[${argument}]: the value must be ${allowed}.` };
}

/** After `name` at `at`, letters in either case with white space allowed between, or -1. */
function afterName(text: string, at: number, limit: number, name: string): number {
  let position = at;
  for (let i = 0; i < name.length; i++) {
    while (position < limit && isWhite(text.charCodeAt(position))) position++;
    if (position >= limit || letterOf(text.charCodeAt(position)) !== name.charCodeAt(i)) return -1;
    position++;
  }
  return position;
}

/**
 * The place of the bracket if letters and then `[` stand here, else -1. Two or more
 * letters in front of a bracket can only be a function name; `X[` is a word.
 */
function bracketAfterName(text: string, at: number, limit: number): number {
  const LONGEST_NAME = 8;
  let letters = 0;
  for (let position = at; position < limit && letters <= LONGEST_NAME; position++) {
    const code = text.charCodeAt(position);
    if (code === OPEN_BRACKET) return letters >= 2 ? position : -1;
    if (letterOf(code) !== 0) letters++;
    else if (!isWhite(code)) return -1;
  }
  return -1;
}

/** A broken value ends where its brackets balance, at a comment, or where the next white space is. */
function afterBrokenExpression(text: string, at: number, limit: number): number {
  let open = 0;
  for (let position = at; position < limit; position++) {
    const code = text.charCodeAt(position);
    if (code === OPEN_PARENTHESIS || code === SEMICOLON) return position;
    if (code === OPEN_BRACKET) open++;
    else if (code === CLOSE_BRACKET && --open <= 0) return position + 1;
    else if (open === 0 && isWhite(code) && position > at) return position;
  }
  return limit;
}
