/** The setting of rule severities: applied to findings, and offered by the manifest without going stale. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { allRules, checkProgram } from '../../../server/src/assist/check.ts';
import { RuleSeverities } from '../../../server/src/assist/rule-severities.ts';
import { openStandardCard } from '../../../server/src/machine/open-standard.ts';
import { readProgram } from '../../../server/src/program/index.ts';

const findings = checkProgram(readProgram('G01 X1 <syncOn>\nM777\nM02\n'), openStandardCard);

function severitiesWith(setting: unknown): Record<string, string> {
  const severities = new RuleSeverities();
  severities.use(setting);
  return Object.fromEntries(severities.apply(findings).map(({ rule, severity }) => [rule, severity]));
}

describe('the setting of rule severities', () => {
  it('leaves the defaults where it says nothing', () => {
    expect(severitiesWith(undefined)).toMatchObject({ hole: 'error', 'unknown-code': 'warning' });
  });

  it('changes a severity and switches a rule off', () => {
    const changed = severitiesWith({ 'unknown-code': 'error', hole: 'off' });
    expect(changed['unknown-code']).toBe('error');
    expect(changed).not.toHaveProperty('hole');
  });

  it.each([null, 'off', [], { nonsense: 'off' }, { hole: 'loud' }, { hole: 1 }])('ignores %j', (setting) => {
    expect(severitiesWith(setting)).toEqual(severitiesWith(undefined));
  });
});

describe('the manifest', () => {
  const manifest = JSON.parse(readFileSync(new URL('../../../package.json', import.meta.url), 'utf8')) as { contributes: { configuration: { properties: Record<string, { properties?: Record<string, { description: string }> }> } } };
  const offered = manifest.contributes.configuration.properties['blockwright.rules']?.properties ?? {};

  it('offers every rule with its summary, default and source, and no other', () => {
    const wanted = Object.fromEntries(Object.entries(allRules).map(([id, { severity, summary, source }]) => [id, `${summary} Default: ${severity}. Source: ${source}.`]));
    expect(Object.fromEntries(Object.entries(offered).map(([id, { description }]) => [id, description]))).toEqual(wanted);
  });
});
