/**
 * How severe each rule is for this user: the setting `blockwright.rules` over the
 * defaults of the rule tables. Names and values that are not known are ignored,
 * as an editor marks them in the settings themselves.
 */
import type { Severity } from '../process/process.ts';
import { allRules } from './check.ts';

export type RuleSetting = Severity | 'off';

const settings: readonly unknown[] = ['off', 'information', 'warning', 'error'] satisfies readonly RuleSetting[];

export class RuleSeverities {
  #chosen: ReadonlyMap<string, RuleSetting> = new Map();

  /** Takes the setting as the editor gives it: anything. */
  use(setting: unknown): void {
    const entries = typeof setting === 'object' && setting !== null ? Object.entries(setting) : [];
    this.#chosen = new Map(entries.filter((entry): entry is [string, RuleSetting] => entry[0] in allRules && settings.includes(entry[1])));
  }

  /** The findings that the user wants to see, as severe as they shall be. */
  apply<F extends { rule: string; severity: Severity }>(findings: readonly F[]): F[] {
    if (this.#chosen.size === 0) return [...findings];
    return findings.flatMap((finding) => {
      const chosen = this.#chosen.get(finding.rule);
      return chosen === 'off' ? [] : [chosen === undefined ? finding : { ...finding, severity: chosen }];
    });
  }
}
