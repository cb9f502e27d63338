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
  'comment-percent': { severity: 'information', summary: 'A percent sign in a comment: RS274/NGC allows it, ISO 6983 does not.', source: `${nist('§3.3.4')}; ISO 6983-1, from memory` },
  'value-missing': { severity: 'error', summary: 'A letter without a number.', source: nist('§3.3.2') },
  'sequence-number': { severity: 'error', summary: 'A sequence number that is signed, has a point, is too long, or is not first.', source: nist('§3.3.1') },
  'program-number': { severity: 'error', summary: 'A program number without digits or not first on its line.', source: 'common practice, no source' },
  'space-in-number': { severity: 'warning', summary: 'A space inside a number: the definition joins the digits.', source: nist('§3.3') },
  'expression': { severity: 'error', summary: 'An expression that cannot be read.', source: nist('§3.3.2.3') },
  'expression-value': { severity: 'error', summary: 'An expression that has no value.', source: nist('§3.3.2.4') },
  'parameter-index': { severity: 'error', summary: 'A parameter number outside 1 to 5399, or a coordinate system outside 1 to 9.', source: nist('§3.3.2.2, §3.2.1') },
  'parameter-unset': { severity: 'information', summary: 'A parameter that this program has not set.', source: nist('§3.2.1') },
  'not-integer': { severity: 'error', summary: 'A word that needs a whole number.', source: nist('§3.3.2.1') },
  'word-twice': { severity: 'error', summary: 'A letter stands twice on one line, or two words on it move one axis.', source: nist('§3.3.5') },
  'too-many-m': { severity: 'error', summary: 'More than four M words on one line.', source: nist('§3.3.5') },
  'group-conflict': { severity: 'error', summary: 'Two codes of one modal group on one line.', source: nist('§3.4') },
  'one-shot-and-motion': { severity: 'error', summary: 'A code that uses the axis words itself, beside a motion code.', source: nist('§3.4') },
  'motion-without-axis': { severity: 'warning', summary: 'A motion code without an axis word, which RS274/NGC refuses.', source: nist('§3.5.1-2') },
  'axis-without-motion': { severity: 'error', summary: 'Axis words after G80 without a code that uses them.', source: nist('§3.5.15') },
  'motion-not-set': { severity: 'warning', summary: 'Axis words before any motion code.', source: nist('§3.5') },
  'negative-value': { severity: 'error', summary: 'A speed, tool, feed or dwell below zero.', source: nist('§3.7, §3.5.4') },
  'tool-word': { severity: 'error', summary: 'A T word that is too short to hold a tool beside the offset that the machine card says is in it.', source: 'machine card' },
  'word-missing': { severity: 'error', summary: 'A code without a word that it needs.', source: nist('§3.5') },
  'word-unused': { severity: 'error', summary: 'A number of a tool radius or a tool length without the code that uses it.', source: nist('§3.5.10, table 3') },
  'word-idle': { severity: 'warning', summary: 'A word that no code of its line uses.', source: nist('table 3') },
  'dwell-word': { severity: 'warning', summary: 'A dwell time in a letter whose unit nobody has said.', source: 'ISO 6983 leaves address and unit to the format (from memory)' },
  'arc-words': { severity: 'error', summary: 'An arc without an axis word of its plane, or without centre and radius.', source: nist('§3.5.3') },
  'arc-centre-and-radius': { severity: 'error', summary: 'An arc with both centre and radius, which the definition does not settle.', source: nist('§3.5.3') },
  'arc-radius': { severity: 'error', summary: 'An arc whose ends have different radii, whose radius cannot reach its end, or is 0.', source: nist('§3.5.3.2') },
  'arc-sensitive': { severity: 'information', summary: 'An arc in radius form near a half or a full circle, where small errors move the centre far.', source: nist('§3.5.3') },
  'feed-missing': { severity: 'error', summary: 'A move at feed before any feed word, or without one in inverse time.', source: nist('§3.5.19') },
  'speed-other-mode': { severity: 'warning', summary: 'G96 or G97 on a line without an S word while the spindle turns: S counts otherwise from here on.', source: 'own rule: what is not settled is not guessed' },
  'feed-other-mode': { severity: 'warning', summary: 'A feed per minute from an F word that was given per revolution, or the other way round.', source: 'own rule: what is not settled is not guessed' },
  'feed-in-rapid': { severity: 'warning', summary: 'An F word on a line that moves in rapid because G00 is in force from before.', source: 'common practice, no source: a feed is written where the tool cuts' },
  'feed-beyond-rapid': { severity: 'warning', summary: 'A feed faster than the rapid speeds that the machine card gives, as a feed a minute is where feed a revolution is in force.', source: 'machine card' },
  'feed-hardly-any': { severity: 'warning', summary: 'A feed a minute that is next to nothing a revolution, as a feed a revolution is where feed a minute is in force.', source: 'own rule: under 0.0005 mm a revolution; derived: feed a revolution is feed a minute by speed' },
  'feed-mode': { severity: 'error', summary: 'Inverse time feed with a cycle or a probe move.', source: nist('§3.5.16, §3.5.9') },
  'feed-without-spindle': { severity: 'warning', summary: 'Feed per revolution, a thread, or a fixed cycle while nothing turns; a hob that stands while it runs in step with the work.', source: 'derived: feed per minute is feed per revolution times speed' },
  'thread-lead': { severity: 'warning', summary: 'A thread that has no lead on its line, nor on that of a thread before it; a feed from before is none. A tap whose feed a minute makes a lead that no tap has.', source: 'own rule: what is not settled is not guessed; the finest pitch from memory' },
  'cutting-speed-in-force': { severity: 'warning', summary: 'A thread, or a fixed cycle at X0, while the cutting speed is constant (G96).', source: 'derived: n = 1000 v / (pi d) changes with the diameter; common practice, no source' },
  'speed-without-limit': { severity: 'warning', summary: 'Constant cutting speed down to X0, or across it, without a speed limit.', source: 'derived: n = 1000 v / (pi d) grows without bound' },
  'speed-beyond-machine': { severity: 'error', summary: 'A speed, or a limit of the speed, beyond what the machine card says of its spindle.', source: 'machine card' },
  'place-beyond-machine': { severity: 'warning', summary: 'An axis word that leads beyond the travel that the machine card gives; where the zero of the program lies is not in its text.', source: 'machine card' },
  'axis-not-on': { severity: 'warning', summary: 'C turns the work while no spindle is an axis, on a machine whose card has a word that makes it one.', source: 'machine card' },
  'axis-clamped': { severity: 'error', summary: 'C turns the work while its axis is clamped.', source: 'machine card' },
  'axis-while-turning': { severity: 'warning', summary: 'A spindle that becomes an axis while it turns, or starts while it is one.', source: 'machine card' },
  'chuck-while-turning': { severity: 'warning', summary: 'A chuck that opens while its spindle turns, not coupled to the other, or that is open when it starts.', source: 'machine card' },
  'machine-coordinates': { severity: 'error', summary: 'G53 without G00 or G01 in force, or with tool radius compensation.', source: nist('§3.5.12') },
  'compensation-on': { severity: 'error', summary: 'A code that must not come while tool radius compensation is on.', source: nist('§3.5.10, App. B.5') },
  'compensation-left-on': { severity: 'warning', summary: 'A tool that changes while tool radius compensation is on.', source: 'common practice, no source: the next tool has another radius, and another side' },
  'compensation-plane': { severity: 'warning', summary: 'Tool radius compensation in the YZ plane. RS274/NGC has it in XY only, lathes in ZX.', source: nist('§3.5.10') },
  'compensation-radius': { severity: 'warning', summary: 'Tool radius compensation by a tool whose diameter the machine card does not give.', source: 'own rule: what is not settled is not guessed' },
  'compensation-entry': { severity: 'error', summary: 'A first move under tool radius compensation that begins nearer to the contour than the radius of the tool.', source: nist('§3.5.10, App. B') },
  'compensation-exit': { severity: 'error', summary: 'An arc as first move after tool radius compensation: the tool stands off its start by the radius.', source: 'derived: the start is not on the circle' },
  'compensation-arc': { severity: 'error', summary: 'An arc with the tool on its inside whose radius is not greater than that of the tool.', source: nist('§3.5.10, App. B') },
  'compensation-gouge': { severity: 'error', summary: 'An inside corner in which the tool has no room between its neighbours.', source: nist('App. B: the tool must fit into all concave parts') },
  'compensation-corner': { severity: 'information', summary: 'An inside corner under tool radius compensation in XY, where the tool leaves a fillet. RS274/NGC refuses it.', source: nist('§3.5.10, App. B') },
  'cycle-words': { severity: 'error', summary: 'A fixed cycle with a word missing or out of range.', source: nist('§3.5.16') },
  'cycle-spindle': { severity: 'error', summary: 'A fixed cycle that needs the spindle to turn another way.', source: nist('§3.5.16') },
  'cycle-return': { severity: 'information', summary: 'A cycle whose return level depends on G98 or G99, and neither was programmed.', source: 'the default is not stated in NISTIR 6556' },
  'cycle-again': { severity: 'warning', summary: 'A line in a run of fixed cycles that makes the same hole again, to the same depth.', source: 'derived: a cycle in force acts on every line with an axis word (NISTIR 6556 §3.5.16)' },
  'cycle-axis': { severity: 'warning', summary: 'A fixed cycle in ZX without Y, or one that turns C, on a turning centre of which the machine card does not say what it does then.', source: 'own rule: what is not settled is not guessed; NISTIR 6556 §3.5.16 drills along Y there, and turns nothing' },
  'cycle-diameter': { severity: 'information', summary: 'A peck or an offset along X in a cycle while X words are diameters: it is read as the way that the tool moves.', source: 'derived: it is a length, not a place; NISTIR 6556 §3.5.16 knows no diameters' },
  'probe': { severity: 'error', summary: 'A probe move without X, Y or Z, with a rotary axis, or that starts too near its target.', source: nist('§3.5.9') },
  'coordinate-system': { severity: 'error', summary: 'G10 without L2, or with a P that is no whole number from 1 to 9.', source: nist('§3.5.5') },
  'not-computed': { severity: 'information', summary: 'A motion that is known but not computed here.', source: 'own rule: what is not settled is not guessed' },
  'stop-before-motion': { severity: 'information', summary: 'A stop word on a line with motion, of the coolant on one that cuts: RS274/NGC stops before, ISO 6983 after the motion.', source: nist('§3.8, ISO 6983-1 from memory') },
  'implied-point': { severity: 'warning', summary: 'Numbers with and without a point are mixed on one letter where the point is implied.', source: 'derived: the two readings differ by a power of ten' },
  'line-too-long': { severity: 'warning', summary: 'A line that is longer than the control reads.', source: nist('§3.3') },
  'percent-late': { severity: 'warning', summary: 'A percent sign although the first line, comments aside, was none.', source: nist('§3.1') },
  'percent-open': { severity: 'warning', summary: 'A program that opens with a percent sign and is not closed by one.', source: nist('§3.1') },
  'end-missing': { severity: 'warning', summary: 'A program without end: no M02, no M30, no pair of percent signs.', source: nist('§3.1, §5.1.3') },
  'subprogram': { severity: 'warning', summary: 'A subprogram that is not in this file, calls too deeply or runs too long to be followed.', source: 'own rule: what is not settled is not guessed' },
  'program-runs-on': { severity: 'warning', summary: 'A program number while the program before it has not ended.', source: 'common practice, no source: a program number begins another program' },
  'jump': { severity: 'information', summary: 'A jump, which is not followed.', source: 'own rule: what is not settled is not guessed' },
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
