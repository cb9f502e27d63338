/** What the program engine offers to the rest of the product. */
export { isCarriedOut } from './codes.ts';
export * from './dialect.ts';
export { ProgramDocument, type TextChange, type TextPosition, type TextRange } from './document.ts';
export { type Move, type MoveKind, type Position } from './moves.ts';
export { type Operation, type Totals } from './operations.ts';
export { type Landmark, type PatternEvent, type PlacedNoteMark, type Program, readProgram } from './program.ts';
export { type Problem, programRules, type Rule, type RuleId, type Severity } from './rules.ts';
export * from './scan.ts';
export { type Axis, type CycleWords, MODAL_FIELDS, type ModalField, type ModalState, type SpindleDirection, type SubSpindle } from './state.ts';
export { codesWithMeaning, commentMeaning, meaningOf, type Meaning } from './words.ts';
