import type { CutFinding, CutRuleId } from './rules.ts';
import { cutFinding } from './rules.ts';
import type { ToolStep } from './tool-steps.ts';

/** What is wrong between the clamp of the work axis and what the tool does. Steps without a known state are passed over. */

/** The work is turned, or the hob turns it, against a closed clamp. The first of each kind is enough. */
export function turnsClamped(steps: readonly ToolStep[]): CutFinding[] {
  const turned = steps.find((step) => step.clamped === true && step.from.c !== step.to.c);
  const coupled = steps.find((step) => step.clamped === true && step.sync !== undefined && step.driveRpm !== 0);
  return [
    ...(turned ? [cutFinding(turned.line, 'work-clamped', 'The work is turned by C while its axis is clamped.')] : []),
    ...(coupled ? [cutFinding(coupled.line, 'work-clamped', 'Hob and work run coupled while the work axis is clamped.')] : []),
  ];
}

/** The tool cuts while C stands and nothing holds it. */
export function cutsUnclamped(steps: readonly ToolStep[], rule: Extract<CutRuleId, 'work-unclamped' | 'engrave-unclamped'>, cuts: (step: ToolStep) => boolean): CutFinding[] {
  const loose = steps.find((step) => step.clamped === false && step.from.c === step.to.c && cuts(step));
  return loose ? [cutFinding(loose.line, rule, 'The tool cuts while the work axis is released and stands: only its drive holds it.')] : [];
}
