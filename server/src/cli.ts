/**
 * The command line: the same answers as in the editor, for scripts and for
 * people without one. Bad input is one line on stderr and exit code 2, with
 * nothing on stdout.
 */
import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { checkProgram } from './assist/check.ts';
import { explain } from './assist/explain.ts';
import { explanationText, quantitiesText } from './assist/plain.ts';
import { movesTable } from './assist/moves.ts';
import { proofData, proofText } from './assist/proof-text.ts';
import type { MachineCard } from './machine/card.ts';
import { dialectOf } from './machine/dialect.ts';
import { openStandardCard } from './machine/open-standard.ts';
import { readCard } from './machine/read-card.ts';
import { type Dialect, type Program, readProgram } from './program/index.ts';
import type { RawValues } from './process/fields.ts';
import { comment, composeText } from './process/layout.ts';
import { isError, type Problem, type Process } from './process/process.ts';
import { processes, processNamed } from './process/processes.ts';
import { proveProgram } from './process/proof.ts';

const usage = `blockwright: hobbing, slotting, engraving and hand-over blocks for NC programs, computed and checked

  explain FILE LINE COLUMN        what a hover shows there (1-based)
  check FILE...                   problems; exit 1 if any is an error
  compute PROCESS NAME=VALUE...   the figures of a process
  compose PROCESS NAME=VALUE...   the block of a process, ready to paste; exit 1 while it has holes
  moves FILE                      every move with length and time, operations and what they look like, and totals
  prove FILE                      cuts the blocks virtually and measures the part; exit 1 if anything is wrong

  --card FILE    machine card; without it only open-standard words are known
  --skip         the block skip switch is on: lines that open with a slash are checked, and left out
  --inch         compute and compose for an inch program
  --json         machine-readable output

Processes: ${processes.map(({ id }) => id).join(', ')}.
Prove every block by simulation and dry run. Guards, local codes and qualified practice decide.
`;

/** Bad input. Its message is the one line that the user sees. */
class BadInput extends Error {}

interface Options {
  json: boolean;
  card: MachineCard;
  inch: boolean;
  skip: boolean;
}

type Verb = (words: string[], options: Options) => number;

const verbs: Record<string, Verb> = { explain: explainVerb, check: checkVerb, compute: computeVerb, compose: composeVerb, moves: movesVerb, prove: proveVerb };

function main(argv: string[]): number {
  const { values, positionals } = parseArgs({
    args: argv,
    allowPositionals: true,
    options: { json: { type: 'boolean', default: false }, inch: { type: 'boolean', default: false }, skip: { type: 'boolean', default: false }, card: { type: 'string' }, help: { type: 'boolean', short: 'h', default: false } },
  });
  const [name, ...words] = positionals;
  if (values.help || name === undefined) return print(usage, name === undefined && !values.help ? 2 : 0);
  const verb = Object.hasOwn(verbs, name) ? verbs[name] : undefined;
  if (!verb) throw new BadInput(`"${name}" is not a verb: it must be ${Object.keys(verbs).join(', ')}`);
  return verb(words, { json: values.json, inch: values.inch, skip: values.skip, card: values.card === undefined ? openStandardCard : cardFrom(values.card) });
}

function print(text: string, code = 0): number {
  (code === 2 ? process.stderr : process.stdout).write(text.endsWith('\n') ? text : `${text}\n`);
  return code;
}

function printJson(data: unknown, code = 0): number {
  return print(JSON.stringify(data, undefined, 2), code);
}

function textOf(file: string): string {
  try {
    return withoutByteOrderMark(readFileSync(file, 'utf8'));
  } catch (error) {
    throw new BadInput(`${file} cannot be read: ${(error as NodeJS.ErrnoException).code ?? String(error)}`);
  }
}

/** Some editors put the mark in front of a text; it is no part of it. */
function withoutByteOrderMark(text: string): string {
  return text.startsWith('\ufeff') ? text.slice(1) : text;
}

function cardFrom(file: string): MachineCard {
  const text = textOf(file);
  const reading = readCard(text);
  if (reading.card) return reading.card;
  const [problem] = reading.problems;
  const line = text.slice(0, problem?.start ?? 0).split('\n').length;
  throw new BadInput(`${file}:${line} ${problem?.message ?? 'is not a machine card'}`);
}

function programFrom(file: string, options: Options): Program {
  return readProgram(textOf(file), dialectFor(options));
}

function dialectFor({ card, skip }: Options): Dialect {
  return { ...dialectOf(card), skipBlocks: skip };
}

function explainVerb([file, line, column, ...rest]: string[], options: Options): number {
  const { json, card } = options;
  if (file === undefined || line === undefined || column === undefined || rest.length > 0) throw new BadInput('explain needs FILE LINE COLUMN');
  const program = programFrom(file, options);
  const lineIndex = oneBased('LINE', line, program.lineCount);
  const character = oneBased('COLUMN', column, program.lineText(lineIndex).length + 1);
  const explanation = explain(program, lineIndex, character, { card, dialect: program.dialect });
  if (!explanation) return json ? printJson({ word: '', meaning: '', quantities: [] }) : print('Nothing stands there.');
  const { word, title, meaning, quantities } = explanation;
  return json ? printJson({ word, meaning: `${title}. ${meaning}`, quantities }) : print(explanationText(explanation));
}

function oneBased(name: string, text: string, most: number): number {
  const value = Number(text);
  if (!Number.isInteger(value) || value < 1 || value > most) throw new BadInput(`${name}: ${text} is not allowed: it must be a whole number from 1 to ${most}`);
  return value - 1;
}

function checkVerb(files: string[], options: Options): number {
  const { json, card } = options;
  if (files.length === 0) throw new BadInput('check needs at least one FILE');
  const results = files.map((file) => ({ file, findings: checkProgram(programFrom(file, options), card) }));
  const all = results.flatMap(({ file, findings }) => findings.map((each) => ({ file, ...each })));
  const code = all.some(({ severity }) => severity === 'error') ? 1 : 0;
  if (json) return printJson(all.map(({ file, line, start, end, severity, rule, message }) => ({ file, line: line + 1, column: start + 1, endColumn: end + 1, severity, rule, message })), code);
  if (all.length > 0) print(all.map(({ file, line, start, severity, rule, message }) => `${file}:${line + 1}:${start + 1} ${severity} ${rule} ${message}`).join('\n'));
  return code;
}

function processAndValues(words: string[]): { process: Process; values: RawValues } {
  const [name, ...pairs] = words;
  const process = name === undefined ? undefined : processNamed(name);
  if (!process) throw new BadInput(`"${name ?? ''}" is not a process: it must be ${processes.map(({ id }) => id).join(' or ')}`);
  const values: Record<string, string> = {};
  for (const pair of pairs) {
    const at = pair.indexOf('=');
    const parameter = pair.slice(0, at).toUpperCase();
    if (at < 1) throw new BadInput(`"${pair}" is not a parameter: it must be NAME=VALUE, such as TEETH=24`);
    if (parameter in values) throw new BadInput(`${parameter} is given twice`);
    values[parameter] = pair.slice(at + 1);
  }
  return { process, values };
}

function unitsOf({ inch }: Options): 'mm' | 'inch' {
  return inch ? 'inch' : 'mm';
}

/** Errors on parameters are bad input; a hole of the card is not: the block shows it, and the exit code tells scripts that no control takes it yet. */
function refuse(problems: readonly Problem[]): void {
  const wrong = problems.find((problem) => isError(problem) && problem.rule !== 'hole');
  if (wrong) throw new BadInput(wrong.message);
}

function computeVerb(words: string[], options: Options): number {
  const { process, values } = processAndValues(words);
  const { quantities, problems } = process.evaluate(values, { units: unitsOf(options), card: options.card });
  refuse(problems);
  if (options.json) return printJson({ quantities, problems });
  warn(problems);
  return print(quantitiesText(quantities));
}

function composeVerb(words: string[], options: Options): number {
  const { process, values } = processAndValues(words);
  const { card } = options;
  const { sequenceNumbers } = card;
  const layout = { comment: card.comment, maxLineLength: card.maxLineLength, ...(sequenceNumbers ? { numbering: { first: sequenceNumbers.start, step: sequenceNumbers.step } } : {}) };
  const setting = { units: unitsOf(options), card, fresh: { programNumbers: new Set<number>(), mayCall: true } };
  const { lines, subprogram, problems } = composeText(process, process.settled(values, setting), setting, layout);
  refuse(problems);
  const code = problems.some(isError) ? 1 : 0;
  if (options.json) return printJson({ text: `${lines.join('\n')}\n`, ...(subprogram.length > 0 ? { subprogram: `${subprogram.join('\n')}\n` } : {}), problems }, code);
  warn(problems);
  return print([...lines, ...(subprogram.length > 0 ? ['', comment('BEHIND THE END OF THE PROGRAM:', card.comment), ...subprogram] : [])].join('\n'), code);
}

function warn(problems: readonly Problem[]): void {
  for (const { severity, rule, message } of problems) process.stderr.write(`${severity} ${rule} ${message}\n`);
}

function movesVerb([file, ...rest]: string[], options: Options): number {
  const { json, card } = options;
  if (file === undefined || rest.length > 0) throw new BadInput('moves needs one FILE');
  const { moves, operations, totals, text } = movesTable(programFrom(file, options), card);
  return json ? printJson({ moves, operations, totals }) : print(text);
}

function proveVerb([file, ...rest]: string[], options: Options): number {
  const { json, card } = options;
  if (file === undefined || rest.length > 0) throw new BadInput('prove needs one FILE');
  const stretches = runToEnd(proveProgram(programFrom(file, options), card));
  const isGood = stretches.every(({ proof }) => proof !== undefined && proof.findings.every(({ severity }) => severity !== 'error'));
  return json ? printJson(stretches.map(proofData), isGood ? 0 : 1) : print(proofText(file, stretches), isGood ? 0 : 1);
}

function runToEnd<T>(work: Generator<unknown, T>): T {
  let step = work.next();
  while (!step.done) step = work.next();
  return step.value;
}

// A reader that has seen enough, such as `head`, is no fault.
process.stdout.on('error', (error: NodeJS.ErrnoException) => process.exit(error.code === 'EPIPE' ? 0 : 1));

try {
  process.exitCode = main(process.argv.slice(2));
} catch (error) {
  const message = error instanceof Error ? error.message : String(error);
  process.stderr.write(`blockwright: ${message.split('\n')[0]}\n`);
  process.exitCode = 2;
}
