// Blocks put in through the command that the lightbulb and a key binding run, and taken back in one step.
import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { eventually, showProgram } from './suite-program.ts';
import type { EditorCheck } from './suite-runner.ts';

const lines = ['%', 'O9002', 'N10 G21 G18 G90', 'N20 M30', '%'];
const insertPosition = new vscode.Position(3, 0);

export const insertChecks: readonly EditorCheck[] = [
  {
    name: 'the lightbulb offers both blocks',
    async verify() {
      const { document } = await showProgram(lines);
      const titles = await offeredActions(document);
      for (const process of ['hobbing', 'keyway']) assert.ok(titles.some((title) => title.startsWith(`Insert ${process} block`)), titles.join(', '));
    },
  },
  insertCheck('hobbing', { MODULE: '2', TEETH: '28', FACE: '18', 'HOB-DIA': '63', SPEED: '60', FEED: '1.5' }),
  insertCheck('keyway', { BORE: '30', LENGTH: '20', RPM: '600', FEED: '0.04' }),
  {
    name: 'leaving the sheet leaves the program as it was',
    async verify() {
      const { document } = await showProgram(lines);
      const command = insert(document, 'hobbing', {});
      const ended = command.then(() => true);
      await eventually(async () => {
        await vscode.commands.executeCommand('workbench.action.closeQuickOpen');
        return Promise.race([ended, undefined]);
      });
      assert.equal(document.getText(), lines.join('\n'));
    },
  },
];

function insertCheck(process: string, values: Record<string, string>): EditorCheck {
  return {
    name: `a ${process} block goes in with its note and caution, and out by one undo`,
    async verify() {
      const { document } = await showProgram(lines);
      await acceptSheet(document, insert(document, process, values));
      const text = document.getText();
      for (const [name, value] of Object.entries(values)) assert.match(text, new RegExp(`\\b${name}=${value}\\b`));
      assert.match(text, /PROVE BY SIMULATION AND DRY RUN/);
      assert.ok(text.includes(`(END ${process.toUpperCase()})\nN20 M30`), text);
      await vscode.commands.executeCommand('undo');
      assert.equal(document.getText(), lines.join('\n'));
    },
  };
}

function insert(document: vscode.TextDocument, process: string, values: Record<string, string>): Thenable<unknown> {
  const place = { uri: document.uri.toString(), line: insertPosition.line, character: insertPosition.character };
  return vscode.commands.executeCommand('blockwright.insertBlock', { process, place, values });
}

/** A complete sheet opens with the row that inserts the block; accepting does nothing until the sheet is there. */
async function acceptSheet(document: vscode.TextDocument, command: Thenable<unknown>): Promise<void> {
  await eventually(async () => {
    await vscode.commands.executeCommand('workbench.action.acceptSelectedQuickOpenItem');
    return document.getText().includes('(END ') || undefined;
  });
  await command;
}

function offeredActions(document: vscode.TextDocument): Promise<string[]> {
  return eventually(async () => {
    const range = new vscode.Range(insertPosition, insertPosition);
    const actions = await vscode.commands.executeCommand<vscode.CodeAction[]>('vscode.executeCodeActionProvider', document.uri, range);
    return actions.length === 0 ? undefined : actions.map(({ title }) => title);
  });
}
