/** What the program engine offers to the rest of the product. */
export * from './dialect.ts';
export { type Problem, programRules, type Rule, type RuleId, type Severity } from './rules.ts';
export * from './scan.ts';
