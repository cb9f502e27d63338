/**
 * The table of everything the engine can object to in a program.
 *
 * One row a rule: how severe it is and what it is about in one sentence. The
 * messages with the values in them are made where the rule is applied. Documents
 * and settings derive from this table, so a rule lives nowhere else.
 */

export type Severity = 'error' | 'warning' | 'information';

export interface Rule {
  readonly severity: Severity;
  /** One sentence for a rule list. */
  readonly summary: string;
  /** Where the rule comes from. */
  readonly source: string;
}

const nist = (section: string): string => `NISTIR 6556 ${section}`;

export const programRules = {
  'character': { severity: 'error', summary: 'A character that belongs to no word.', source: nist('§3.3') },
  'hole': { severity: 'error', summary: 'A place where the machine card gave no word.', source: 'own rule: nothing is guessed' },
  'comment-open': { severity: 'error', summary: 'A comment is not closed on its line.', source: nist('§3.3.4') },
  'comment-nested': { severity: 'error', summary: 'An opening parenthesis inside a comment.', source: nist('§3.3.4') },
  'value-missing': { severity: 'error', summary: 'A letter without a number.', source: nist('§3.3.2') },
  'sequence-number': { severity: 'error', summary: 'A sequence number that is signed, has a point, is too long, or is not first.', source: nist('§3.3.1') },
  'program-number': { severity: 'error', summary: 'A program number without digits or not first on its line.', source: 'common practice, no source' },
  'space-in-number': { severity: 'warning', summary: 'A space inside a number: the definition joins the digits.', source: nist('§3.3') },
  'expression': { severity: 'error', summary: 'An expression that cannot be read.', source: nist('§3.3.2.3') },
  'expression-value': { severity: 'error', summary: 'An expression that has no value.', source: nist('§3.3.2.4') },
  'parameter-index': { severity: 'error', summary: 'A parameter number outside 1 to 5399, or a coordinate system outside 1 to 9.', source: nist('§3.3.2.2, §3.2.1') },
  'parameter-unset': { severity: 'information', summary: 'A parameter that this program has not set.', source: nist('§3.2.1') },
  'not-integer': { severity: 'error', summary: 'A word that needs a whole number.', source: nist('§3.3.2.1') },
  'word-twice': { severity: 'error', summary: 'A letter stands twice on one line.', source: nist('§3.3.5') },
  'too-many-m': { severity: 'error', summary: 'More than four M words on one line.', source: nist('§3.3.5') },
  'group-conflict': { severity: 'error', summary: 'Two codes of one modal group on one line.', source: nist('§3.4') },
  'one-shot-and-motion': { severity: 'error', summary: 'A code that uses the axis words itself, beside a motion code.', source: nist('§3.4') },
  'motion-without-axis': { severity: 'error', summary: 'A motion code without an axis word.', source: nist('§3.5.1-2') },
  'axis-without-motion': { severity: 'error', summary: 'Axis words while no motion code is in force.', source: nist('§3.5.15') },
  'negative-value': { severity: 'error', summary: 'A speed, tool, feed or dwell below zero.', source: nist('§3.7, §3.5.4') },
  'word-missing': { severity: 'error', summary: 'A code without a word that it needs.', source: nist('§3.5') },
  'dwell-word': { severity: 'warning', summary: 'A dwell time in a letter whose unit nobody has said.', source: 'ISO 6983 leaves address and unit to the format (from memory)' },
  'percent-late': { severity: 'warning', summary: 'A percent sign although the first line was none.', source: nist('§3.1') },
  'unknown-code': { severity: 'warning', summary: 'A G or M number that neither the open definitions nor the machine card explain.', source: nist('App. A.4') },
} as const satisfies Record<string, Rule>;

export type RuleId = keyof typeof programRules;

/** Something wrong or risky at a place on a line. `start` and `end` are offsets in the line. */
export interface Problem {
  readonly line: number;
  readonly start: number;
  readonly end: number;
  readonly rule: RuleId;
  readonly severity: Severity;
  /** Names the word, its value, and the allowed range where there is one. */
  readonly message: string;
}
