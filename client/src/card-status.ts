/** The one status-bar item: which machine card is in use, and whether it has a fault. Quiet otherwise. */
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { CardAnswer } from '../../server/src/requests.ts';

export class CardStatus implements vscode.Disposable {
  readonly #item = vscode.languages.createLanguageStatusItem('blockwright.card', { language: 'nc-program' });

  constructor(private readonly client: BaseLanguageClient) {
    this.#item.name = 'Machine card';
    this.#item.command = { command: 'blockwright.openCard', title: 'Open' };
    client.onNotification('blockwright/cardChanged', (answer: CardAnswer) => this.#update(answer));
  }

  async show(): Promise<void> {
    this.#update(await this.client.sendRequest<CardAnswer>('blockwright/card'));
  }

  dispose(): void {
    this.#item.dispose();
  }

  #update({ name, fault }: CardAnswer): void {
    this.#item.text = `Machine card: ${name}`;
    this.#item.detail = fault ?? '';
    this.#item.severity = fault === undefined ? vscode.LanguageStatusSeverity.Information : vscode.LanguageStatusSeverity.Warning;
  }
}
