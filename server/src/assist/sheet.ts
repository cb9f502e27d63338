/**
 * The parameter sheet as data: rows from the process's field list, live figures,
 * problems where they arise. The client draws it and knows no process.
 */
import { allowedRange, defaultText, unitOf, type Field, type RawValues } from '../process/fields.ts';
import { composeText } from '../process/layout.ts';
import type { Problem, Process, Setting } from '../process/process.ts';
import type { Quantity } from '../trade/quantity.ts';
import type { Sheet, SheetFigure, SheetRow } from '../requests.ts';
import { capitalised, valueWithUnit, workingWithSymbol } from './figures.ts';

export function sheetOf(process: Process, raw: RawValues, setting: Setting): Sheet {
  const evaluation = process.evaluate(raw, setting);
  const { comment, maxLineLength } = setting.card;
  const problems = evaluation.quantities.length > 0 ? composeText(process, raw, setting, { comment, maxLineLength }).problems : evaluation.problems;
  const rowNames = Object.keys(process.fields);
  const better = process.betterDefaults(raw, setting);
  const hints = process.hints(raw, setting);
  return {
    title: process.title,
    rows: Object.entries(process.fields).map(([name, field]) => rowOf(name, field, raw[name], better[name] ?? defaultText(field, setting.units), setting, problems, hints[name])),
    figures: figuresOf(process, evaluation.quantities),
    notices: problems.filter(({ parameter }) => parameter === undefined || !rowNames.includes(parameter)).map(({ severity, message, cardKey }) => ({ severity, message, ...(cardKey === undefined ? {} : { cardKey }) })),
    ready: !problems.some((problem) => problem.severity === 'error' && problem.rule !== 'hole'),
  };
}

function rowOf(name: string, field: Field, typed: string | undefined, standard: string | undefined, setting: Setting, problems: readonly Problem[], hint: string | undefined): SheetRow {
  const own = problems.filter(({ parameter }) => parameter === name);
  const saidOf = (wanted: Problem['severity']) => own.find(({ severity }) => severity === wanted)?.message;
  const [problem, warning, remark] = [saidOf('error'), saidOf('warning'), saidOf('information')];
  return {
    name,
    label: field.label,
    help: field.help,
    unit: unitOf(field, setting.units),
    allowed: allowedRange(field, setting.units),
    value: typed ?? '',
    standard: standard ?? field.absent ?? '',
    required: standard === undefined && !field.optional,
    ...(field.kind === 'choice' ? { choices: [...field.choices] } : {}),
    ...(problem === undefined ? {} : { problem }),
    ...(warning === undefined ? {} : { warning }),
    ...(remark === undefined ? {} : { remark }),
    ...(hint === undefined ? {} : { hint }),
  };
}

function figuresOf({ keyQuantities }: Process, quantities: readonly Quantity[]): SheetFigure[] {
  return keyQuantities.map((id) => quantities.find((each) => each.id === id)).filter((each) => each !== undefined).map((each) => ({
    id: each.id,
    name: capitalised(each.name),
    text: valueWithUnit(each),
    working: workingWithSymbol(each),
  }));
}
