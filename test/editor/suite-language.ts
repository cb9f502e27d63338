// What the editor knows of the language before anything is computed.
import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { eventually, positionOf, showProgram, showWorkspaceProgram } from './suite-program.ts';
import type { EditorCheck } from './suite-runner.ts';

export const languageChecks: readonly EditorCheck[] = [
  {
    name: 'a program of the workspace has the language of NC programs and starts the extension',
    async verify() {
      const { document } = await showWorkspaceProgram(/\bG21\b/);
      assert.equal(document.languageId, 'nc-program');
      await eventually(() => vscode.extensions.getExtension('blockwright.blockwright')?.isActive || undefined);
    },
  },
  {
    name: 'the programs of the demo carry no mark of an error or a warning',
    async verify() {
      const { document } = await showWorkspaceProgram(/\bG21\b/);
      // The first marks may come before the machine card is read, so the settled state is waited for.
      await eventually(() => (marksOf(document).length === 0 ? true : undefined));
    },
  },
  {
    name: 'an unknown name in a note is marked on that very word',
    async verify() {
      const { document } = await showProgram(['(HOBBING: MODULE=2 TEETHS=20)', '(END HOBBING)']);
      const position = positionOf(document, /TEETHS/);
      const mark = await eventually(() => marksOf(document).find(({ range }) => range.contains(position) && document.getText(range).startsWith('TEETHS')));
      assert.match(mark.message, /TEETHS/);
    },
  },
  {
    name: 'zero teeth are refused with the allowed range',
    async verify() {
      const { document } = await showProgram(['(HOBBING: MODULE=2 TEETH=0 FACE=20 HOB-DIA=63 SPEED=60 FEED=1.5)', '(END HOBBING)']);
      const mark = await eventually(() => marksOf(document).find(({ message }) => message.includes('TEETH')));
      assert.equal(document.getText(mark.range), '0');
      assert.match(mark.message, /3 to 1000/);
      assert.equal(mark.severity, vscode.DiagnosticSeverity.Error);
    },
  },
];

function marksOf(document: vscode.TextDocument): vscode.Diagnostic[] {
  const worthMarking = [vscode.DiagnosticSeverity.Error, vscode.DiagnosticSeverity.Warning];
  return vscode.languages.getDiagnostics(document.uri).filter(({ severity }) => worthMarking.includes(severity));
}
