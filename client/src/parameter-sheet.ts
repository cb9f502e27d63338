/**
 * The parameter sheet: one list with every parameter, its value and unit, and
 * the figures that follow from them. Pick a row to change it; the last row puts
 * the block in. Every change is remembered at once, so Escape loses nothing.
 *
 * It is drawn from what the server sends and knows no process.
 */
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { Sheet, SheetParameters, SheetRow, TypedValues } from '../../server/src/requests.ts';

type Entry = vscode.QuickPickItem & ({ action: 'insert' } | { action: 'change'; row: SheetRow } | { action: 'card'; key: string } | { action: 'none' });

export class ParameterSheet {
  #values: TypedValues;
  #last: string | undefined;
  /** What was typed and then left with Escape: it comes back when the row is opened again. */
  readonly #drafts = new Map<string, string>();

  constructor(
    private readonly client: BaseLanguageClient,
    private readonly parameters: SheetParameters,
    private readonly remember: (values: TypedValues) => void,
    private readonly finish = 'Insert the block',
  ) {
    this.#values = { ...parameters.values };
  }

  /** Shows the sheet until the block is wanted (its values) or the sheet is left (undefined). */
  async run(): Promise<TypedValues | undefined> {
    for (;;) {
      const sheet = await this.#sheet(this.#values);
      const entry = await this.#pick(sheet);
      if (!entry) return undefined;
      if (entry.action === 'insert' && sheet.ready) return this.#values;
      if (entry.action === 'card') return void vscode.commands.executeCommand('blockwright.openCard', entry.key);
      const row = entry.action === 'change' ? entry.row : sheet.rows.find((each) => each.problem !== undefined);
      if (row) await this.#change(row);
    }
  }

  #sheet(values: TypedValues): Promise<Sheet> {
    return this.client.sendRequest<Sheet>('blockwright/sheet', { ...this.parameters, values });
  }

  #pick(sheet: Sheet): Promise<Entry | undefined> {
    const pick = vscode.window.createQuickPick<Entry>();
    pick.title = `${sheet.title}: parameters`;
    pick.placeholder = 'Pick a parameter to change it, or insert the block. Escape keeps what you typed.';
    pick.matchOnDescription = true;
    pick.matchOnDetail = true;
    pick.ignoreFocusOut = true;
    pick.items = entriesOf(sheet, this.finish);
    const active = this.#rowToOffer(pick.items);
    if (active) pick.activeItems = [active];
    return new Promise((resolve) => {
      pick.onDidAccept(() => {
        const [chosen] = pick.selectedItems;
        resolve(chosen);
        pick.hide();
      });
      pick.onDidHide(() => {
        resolve(undefined);
        pick.dispose();
      });
      pick.show();
    });
  }

  /** After a change the next row that is still wrong, so that Enter and a value fill the sheet; else the row just changed. */
  #rowToOffer(items: readonly Entry[]): Entry | undefined {
    const rows = items.filter((each) => each.action === 'change');
    const last = rows.findIndex(({ row }) => row.name === this.#last);
    if (last < 0) return undefined;
    const order = [...rows.slice(last + 1), ...rows.slice(0, last + 1)];
    return order.find(({ row }) => row.problem !== undefined) ?? rows[last];
  }

  async #change(row: SheetRow): Promise<void> {
    this.#last = row.name;
    const value = row.choices ? await chooseValue(row) : await this.#typeValue(row);
    if (value === undefined) return;
    this.#values = { ...this.#values, [row.name]: value };
    if (value === '') delete this.#values[row.name];
    this.remember(this.#values);
  }

  /** The server judges each keystroke, so that a wrong value is said while it is typed. */
  #typeValue(row: SheetRow): Thenable<string | undefined> {
    return vscode.window.showInputBox({
      title: `${row.name}: ${row.label}${row.unit === '' ? '' : ` in ${row.unit}`}`,
      prompt: [row.help, `Allowed: ${row.allowed}.`, ...(row.required ? [] : [`If empty: ${row.standard}.`]), ...(row.hint === undefined ? [] : [row.hint])].join(' '),
      value: this.#drafts.get(row.name) ?? row.value,
      ignoreFocusOut: true,
      validateInput: async (typed) => {
        this.#drafts.set(row.name, typed);
        return typed.trim() === '' ? undefined : this.#judge(row, typed.trim());
      },
    }).then((typed) => this.#accepted(row, typed));
  }

  #accepted(row: SheetRow, typed: string | undefined): string | undefined {
    if (typed !== undefined) this.#drafts.delete(row.name);
    return typed?.trim();
  }

  async #judge(row: SheetRow, value: string): Promise<vscode.InputBoxValidationMessage | undefined> {
    const sheet = await this.#sheet({ ...this.#values, [row.name]: value });
    const judged = sheet.rows.find(({ name }) => name === row.name);
    if (judged?.problem !== undefined) return { message: judged.problem, severity: vscode.InputBoxValidationSeverity.Warning };
    const message = judged?.warning ?? judged?.remark ?? summary(sheet.figures).join('');
    return message === '' ? undefined : { message, severity: vscode.InputBoxValidationSeverity.Info };
  }
}

/** A choice that may be left out can be taken back, too: then its parameter is not written. */
async function chooseValue(row: SheetRow): Promise<string | undefined> {
  const { choices = [], standard, required } = row;
  const current = row.value === '' ? standard : row.value;
  const given = choices.map((choice) => ({ label: choice, value: choice, description: choice === standard ? 'default' : '' }));
  const items = required || choices.includes(standard) ? given : [{ label: standard, value: '', description: 'not written' }, ...given];
  const marked = items.map((item) => ({ ...item, picked: item.label === current }));
  return (await vscode.window.showQuickPick(marked, { title: `${row.name}: ${row.label}`, placeHolder: row.hint ?? row.help, ignoreFocusOut: true }))?.value;
}

function entriesOf(sheet: Sheet, finish: string): Entry[] {
  return [...insertEntry(sheet, finish), separator('Parameters'), ...sheet.rows.map(rowEntry), ...figureEntries(sheet), ...noticeEntries(sheet)];
}

/** The first row: what is still wrong, or the figures that the block comes to, in sight while the rows below are changed. */
function insertEntry(sheet: Sheet, finish: string): Entry[] {
  const { ready, rows, figures } = sheet;
  const wrong = rows.filter(({ problem }) => problem !== undefined).map(({ name }) => name);
  const detail = [...obstacles(sheet), ...summary(figures)].join(' ');
  const label = ready ? `$(check) ${finish}` : `$(error) Not ready: ${wrong.length === 0 ? 'see below' : wrong.join(', ')}`;
  return [{ label, ...(detail === '' ? {} : { detail }), alwaysShow: true, action: 'insert' }];
}

/** What stands in the way and belongs to no row: a mode in force at the place, or words that the machine card lacks. */
function obstacles({ ready, notices }: Sheet): string[] {
  const errors = notices.filter(({ severity }) => severity === 'error');
  if (errors.length === 0) return [];
  if (!ready) return errors.filter(({ cardKey }) => cardKey === undefined).map(({ message }) => message);
  return [`The block will hold words that a control refuses, because the machine card lacks them (${errors.length}).`];
}

function summary(figures: Sheet['figures']): string[] {
  return figures.length === 0 ? [] : [figures.slice(0, 3).map(({ name, text }) => `${name.replace(/,.*/, '')} ${text}`).join(' · ')];
}

/** What is typed stands plain, what counts without it in parentheses. */
function rowEntry(row: SheetRow): Entry {
  const value = row.value === '' ? inParentheses(withUnit(row.standard, row)) : withUnit(row.value, row);
  const mark = row.problem !== undefined ? '$(error) ' : row.warning !== undefined ? '$(warning) ' : row.remark !== undefined ? '$(info) ' : '';
  const note = row.problem ?? row.warning ?? row.remark ?? row.hint;
  return {
    label: `${mark}${row.name}`,
    description: `${value === '' ? '–' : value}   ${row.label}`,
    ...(note === undefined ? {} : { detail: note }),
    action: 'change',
    row,
  };
}

/** A unit belongs to a number, not to words such as "computed". */
function withUnit(text: string, { unit }: SheetRow): string {
  return unit !== '' && /^[-+.\d]/.test(text) ? `${text} ${unit}` : text;
}

function inParentheses(text: string): string {
  return text === '' ? '' : `(${text})`;
}

function figureEntries({ figures }: Sheet): Entry[] {
  if (figures.length === 0) return [];
  return [separator('Figures'), ...figures.map(({ name, text, working }): Entry => ({ label: `$(dash) ${name}`, description: text, detail: working, action: 'none' }))];
}

/** What the machine card would settle opens it; the rest is of the place where the block goes in. */
function noticeEntries({ notices }: Sheet): Entry[] {
  const ofCard = notices.filter(({ cardKey }) => cardKey !== undefined);
  const ofPlace = notices.filter(({ cardKey }) => cardKey === undefined);
  return [...titled('Place of the block', ofPlace), ...titled('Machine card', ofCard)];
}

function titled(title: string, notices: Sheet['notices']): Entry[] {
  if (notices.length === 0) return [];
  return [separator(title), ...notices.map(({ severity, message, cardKey }): Entry => {
    const label = `$(${noticeIcons[severity]}) ${title}`;
    return cardKey === undefined ? { label, detail: message, action: 'none' } : { label, detail: message, description: `opens ${cardKey}`, action: 'card', key: cardKey };
  })];
}

const noticeIcons = { error: 'error', warning: 'warning', information: 'info' } as const;

function separator(label: string): Entry {
  return { label, kind: vscode.QuickPickItemKind.Separator, action: 'none' };
}
