/**
 * What the machine builder's own words do, as far as a dialect names them with
 * names that the engine acts on.
 */
import type { WordPattern } from './dialect.ts';
import { type Execution, TOUCH } from './execution.ts';
import type { PatternMatch } from './patterns.ts';
import * as r from './registers.ts';

export class BuilderWords {
  constructor(private readonly execution: Execution) {}

  /** Words that change how F and S are read come before both. */
  modes(): void {
    for (const match of this.execution.block.matches) {
      const pattern = this.#pattern(match);
      if (pattern.name === 'feedPerMinute') this.execution.set(r.FEED_MODE, 94, TOUCH.feedMode);
      else if (pattern.name === 'feedPerRevolution') this.execution.set(r.FEED_MODE, 95, TOUCH.feedMode);
      else if (pattern.name === 'speedLimit') this.execution.set(r.SPEED_LIMIT, this.#slot(match, undefined), TOUCH.speedLimit);
    }
  }

  /** Driven tools, the work axis and synchronism act with the spindle words. */
  switches(): void {
    for (const match of this.execution.block.matches) this.#switch(this.#pattern(match), match);
  }

  /** The call on the line, if there is one. */
  call(): { program: number; repeats: number; match: PatternMatch } | undefined {
    const match = this.#named('subprogramCall');
    if (match === undefined) return undefined;
    const repeats = this.#slot(match, 'repeats');
    return { program: this.#slot(match, 'program'), repeats: Number.isNaN(repeats) ? 1 : repeats, match };
  }

  get returns(): boolean {
    return this.#named('subprogramReturn') !== undefined;
  }

  get jump(): PatternMatch | undefined {
    return this.#named('jump');
  }

  #named(name: string): PatternMatch | undefined {
    for (const match of this.execution.block.matches) {
      if (this.#pattern(match).name === name) return match;
    }
    return undefined;
  }

  #pattern(match: PatternMatch): WordPattern {
    return this.execution.dialect.patterns[match.index]!;
  }

  #switch(pattern: WordPattern, match: PatternMatch): void {
    switch (pattern.name) {
      case 'syncOn': return this.#syncOn(pattern, match);
      case 'syncOff': return this.#setSync(0);
      case 'workAxisOn': return this.execution.set(r.WORK_AXIS, 1, TOUCH.workAxis);
      case 'workAxisOff': return this.execution.set(r.WORK_AXIS, 0, TOUCH.workAxis);
      case 'drivenStart': return this.#driven(3, match);
      case 'drivenReverse': return this.#driven(4, match);
      case 'drivenStop': return this.#driven(5, match);
    }
  }

  #syncOn(pattern: WordPattern, match: PatternMatch): void {
    this.#setSync(match.index + 1);
    let place = r.SYNC_SLOTS;
    pattern.words.forEach((word, at) => {
      if (word.slot !== undefined && place < r.SYNC_SLOTS + r.SYNC_SLOT_COUNT) this.execution.row[place++] = this.#valueAt(match, at);
    });
  }

  #setSync(pattern: number): void {
    this.execution.sink.mark('sync', '');
    this.execution.set(r.SYNC_PATTERN, pattern, TOUCH.sync);
  }

  #driven(direction: number, match: PatternMatch): void {
    this.execution.set(r.DRIVEN_DIRECTION, direction, TOUCH.driven);
    const rpm = this.#slot(match, 'rpm');
    if (!Number.isNaN(rpm)) this.execution.row[r.DRIVEN_SPEED] = rpm;
  }

  /** The number in a slot, or in the first one; NaN if there is none. */
  #slot(match: PatternMatch, name: string | undefined): number {
    const at = this.#pattern(match).words.findIndex((word) => (name === undefined ? word.slot !== undefined : word.slot === name));
    return at < 0 ? NaN : this.#valueAt(match, at);
  }

  #valueAt(match: PatternMatch, at: number): number {
    return this.execution.block.tape.value[match.rows[at]!]!;
  }
}
