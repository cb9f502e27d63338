/**
 * What a machine says about the language of its programs, as pure data.
 *
 * The program engine deliberately knows no machine card and no gear: whoever
 * reads a card translates it into a dialect. What a dialect leaves out, the
 * engine leaves unknown.
 */

/** One word of a pattern: a literal number to be equal, or a slot that captures whatever number stands there. */
export interface PatternWord {
  readonly letter: string;
  readonly value?: number;
  readonly slot?: string;
}

/** Words that together mean one thing on this machine. They may stand in any order on one line. */
export interface WordPattern {
  readonly name: string;
  readonly words: ReadonlyArray<PatternWord>;
  /** A slot that the machine's words have and that is left out here; what that means nobody has said. */
  readonly lacks?: string;
}

/**
 * How a number without a decimal point is read, for controls with an implied point.
 * `integerDigits` and `fractionDigits` are the digits before and after the implied point.
 */
export interface FixedFormat {
  /** The letters it applies to, for example "XZIKR". */
  readonly letters: string;
  readonly integerDigits: number;
  readonly fractionDigits: number;
  /** Which zeros may be left out; only one kind can be. */
  readonly suppressedZeros: 'leading' | 'trailing';
}

/** Rapid speeds, length units of the dialect's `units` (degrees for c) per minute. */
export interface RapidSpeeds {
  readonly x?: number;
  readonly y?: number;
  readonly z?: number;
  readonly c?: number;
}

/** The modes and places in force before the first line, where the machine states them. */
export interface StartState {
  readonly plane?: 17 | 18 | 19;
  readonly feedMode?: 'perMinute' | 'perRevolution';
  /** Whether cycles return to the level before them or to their R level. */
  readonly returnLevel?: 'initial' | 'retract';
  readonly position?: Readonly<Record<string, number>>;
}

/** What the machine reaches. Speeds are rev/min, places as programmed, in the dialect's `units`, from the least to the greatest. */
export interface MachineLimits {
  /** The spindle of the S word. */
  readonly spindleRpm?: number;
  /** The driven tool while the work turns in step with it. */
  readonly syncDrivenRpm?: number;
  /** What the slot rpm of a pattern may be at most, by the name of the pattern. */
  readonly rpmOf?: Readonly<Record<string, number>>;
  /** The sub-spindle along its axis, by the slot z of subRapid and subFeed. */
  readonly subTravel?: readonly [number, number];
  readonly x?: readonly [number, number];
  readonly y?: readonly [number, number];
  readonly z?: readonly [number, number];
}

export interface Dialect {
  /** Units before any units word. */
  readonly units: 'mm' | 'inch';
  /** G numbers that select the units. */
  readonly unitsWords: { readonly inch: readonly number[]; readonly mm: readonly number[] };
  /** X words are diameters. Arc words I and R are radii even then, unless `arcCentreOnDiameter` says otherwise. */
  readonly diameterProgramming: boolean;
  readonly arcCentreOnDiameter?: boolean;
  /** The feed counts the change of diameter, not of radius. */
  readonly xFeedOnDiameter?: boolean;
  /** Incremental letters and the axis each moves, for example { U: 'X' }. Empty unless the machine says so. */
  readonly incrementalAxes: Readonly<Record<string, string>>;
  /**
   * Patterns by name. The engine acts on syncOn, subSyncOn, syncOff, subSyncOff, workAxisOn, workAxisOff, subAxisOn, subAxisOff, workClamp, workUnclamp, subClamp, subUnclamp, mainChuckOpen, mainChuckClose, subChuckOpen,
   * drivenStart, drivenReverse, drivenStop, subStart, subReverse, subStop, spindleSyncOn, spindleSyncOff,
   * absolute, incremental, feedPerMinute, feedPerRevolution, inverseTime, speedLimit, coolantOn, coolantOff,
   * dwell (slot seconds or milliseconds), subprogramCall (slots program, repeats), subprogramReturn and jump; others are only
   * reported as events.
   */
  readonly patterns: readonly WordPattern[];
  /**
   * G words of the open definitions for which the machine has other words, and those words: { G90: 'G890' }.
   * They set nothing here.
   */
  readonly replaced?: Readonly<Record<string, string>>;
  /** Meanings of words that the machine builder chose, keyed as written: "M203". */
  readonly meanings: Readonly<Record<string, string>>;
  readonly rapid?: RapidSpeeds;
  readonly fixedFormat?: FixedFormat;
  /** The block skip switch is on: lines that open with a slash are checked but not executed. */
  readonly skipBlocks: boolean;
  /**
   * Letters that may hold the time of G04, and the seconds one unit of each is. NISTIR 6556 §3.5.4: P in seconds.
   * Empty where the machine says its dwell by the pattern of that name only.
   */
  readonly dwellSeconds?: Readonly<Record<string, number>>;
  /** The word that changes the tool: T itself, as on a turret, or M06 after T. */
  readonly toolChange?: 'T' | 'M06';
  /** How many of the last digits of a T word are the number of the offset; 0 where the whole number is the tool. */
  readonly toolOffsetDigits?: number;
  readonly start?: StartState;
  /** Diameters of tools in the dialect's units, by the number of the D word, else of the tool in use. */
  readonly toolDiameters?: ReadonlyMap<number, number>;
  /** The longest line that the control reads, in characters; where the machine does not say it, the 256 of NISTIR 6556 §3.3 hold. */
  readonly maxLineLength?: number;
  readonly limits?: MachineLimits;
  /** Fixed cycles drill along Z while the plane is ZX; else along Y, which stands on it. */
  readonly cyclesDrillAlongZ?: boolean;
  /** A C word beside a fixed cycle turns the work to the hole, in rapid before it; else a cycle must turn nothing. */
  readonly cyclesTurnC?: boolean;
}

/** Only what the open definitions say; every builder's choice is left open. */
export const openStandardDialect: Dialect = {
  units: 'mm',
  unitsWords: { inch: [20, 70], mm: [21, 71] },
  diameterProgramming: false,
  incrementalAxes: {},
  patterns: [],
  meanings: {},
  skipBlocks: false,
};
