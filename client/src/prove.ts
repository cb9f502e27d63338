/**
 * The command that proves the blocks of a program by a virtual cut: progress that
 * can be cancelled, findings on their lines until the program changes, and the
 * report beside the program.
 */
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { ProveAnswer, ProveProgress } from '../../server/src/requests.ts';

const scheme = 'blockwright-proof';
const severities = { error: vscode.DiagnosticSeverity.Error, warning: vscode.DiagnosticSeverity.Warning, information: vscode.DiagnosticSeverity.Information } as const;

export class Prover implements vscode.Disposable, vscode.TextDocumentContentProvider {
  readonly #findings = vscode.languages.createDiagnosticCollection('blockwright-proof');
  readonly #reports = new Map<string, string>();
  readonly #changed = new vscode.EventEmitter<vscode.Uri>();
  readonly onDidChange = this.#changed.event;
  readonly #subscriptions: vscode.Disposable[];
  #report: ((progress: ProveProgress) => void) | undefined;

  constructor(private readonly client: BaseLanguageClient) {
    this.#subscriptions = [
      this.#findings,
      this.#changed,
      vscode.workspace.registerTextDocumentContentProvider(scheme, this),
      vscode.workspace.onDidChangeTextDocument(({ document }) => this.#findings.delete(document.uri)),
      client.onNotification('blockwright/proveProgress', (progress: ProveProgress) => this.#report?.(progress)),
    ];
  }

  provideTextDocumentContent(uri: vscode.Uri): string {
    return this.#reports.get(uri.toString()) ?? '';
  }

  dispose(): void {
    vscode.Disposable.from(...this.#subscriptions).dispose();
  }

  async prove(): Promise<void> {
    const document = vscode.window.activeTextEditor?.document;
    if (document?.languageId !== 'nc-program') return;
    const answer = await this.#run(document);
    if (!answer) return;
    this.#findings.set(document.uri, answer.findings.map(({ line, severity, rule, message }) => {
      const diagnostic = new vscode.Diagnostic(document.lineAt(line).range, message, severities[severity]);
      diagnostic.code = rule;
      diagnostic.source = 'blockwright';
      return diagnostic;
    }));
    await this.#show(document, answer.text);
  }

  /** Undefined when the user cancels or types on: neither is worth a message. */
  #run(document: vscode.TextDocument): Thenable<ProveAnswer | undefined> {
    const options = { location: vscode.ProgressLocation.Notification, title: 'Virtual cut', cancellable: true };
    return vscode.window.withProgress(options, async (progress, token) => {
      let done = 0;
      this.#report = ({ share }) => {
        progress.report({ increment: (share - done) * 100 });
        done = share;
      };
      try {
        return await this.client.sendRequest<ProveAnswer>('blockwright/prove', { uri: document.uri.toString() }, token);
      } catch (error) {
        if (!token.isCancellationRequested) void vscode.window.showWarningMessage(`Virtual cut: ${error instanceof Error ? error.message : String(error)}`);
        return undefined;
      } finally {
        this.#report = undefined;
      }
    });
  }

  async #show(document: vscode.TextDocument, text: string): Promise<void> {
    const name = document.uri.path.slice(document.uri.path.lastIndexOf('/') + 1);
    const uri = vscode.Uri.from({ scheme, path: `/Virtual cut of ${name}.txt` });
    this.#reports.set(uri.toString(), text);
    this.#changed.fire(uri);
    const report = await vscode.workspace.openTextDocument(uri);
    await vscode.window.showTextDocument(report, { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true, preview: true });
  }
}
