/**
 * A language client without an editor: it starts the built server on stdio and
 * speaks to it through the protocol library. What it can do is what a test says.
 */
import { spawn, type ChildProcess } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { afterEach } from 'vitest';
import {
  createProtocolConnection, StreamMessageReader, StreamMessageWriter,
  type ClientCapabilities, type Diagnostic, type Hover, type InitializeResult, type ProtocolConnection, type PublishDiagnosticsParams, type TextDocumentContentChangeEvent,
} from 'vscode-languageserver/node';
import type { CardChanged, InitializationOptions } from '../../server/src/requests.ts';

const serverFile = fileURLToPath(new URL('../../server/dist/main.js', import.meta.url));

export interface ClientSetting {
  capabilities?: ClientCapabilities;
  initializationOptions?: InitializationOptions;
  /** The URI of the workspace folder. */
  folder?: string;
  /** Answers to workspace/configuration by section; without it the client has no settings. */
  settings?: Record<string, unknown> | 'refused';
  /** Whether the client takes registrations, or refuses them although it said it could. */
  registrations?: 'taken' | 'refused';
}

const pulling: ClientCapabilities = { textDocument: { diagnostic: {} } };

/** Starts a client; it is stopped after the test, whatever happens. */
export async function startClient(setting: ClientSetting = {}): Promise<LanguageClient> {
  const client = new LanguageClient(setting);
  running.add(client);
  await client.initialize();
  return client;
}

const running = new Set<LanguageClient>();
afterEach(async () => {
  const clients = [...running];
  running.clear();
  await Promise.all(clients.map((client) => client.stop()));
});

export class LanguageClient {
  readonly cards: CardChanged[] = [];
  readonly published: PublishDiagnosticsParams[] = [];
  readonly log: string[] = [];
  readonly registered: string[] = [];
  refreshes = 0;
  settings: ClientSetting['settings'];
  initializeResult: InitializeResult | undefined;
  readonly #process: ChildProcess;
  readonly #connection: ProtocolConnection;
  readonly #versions = new Map<string, number>();
  #waiting: (() => void)[] = [];

  constructor(private readonly setting: ClientSetting) {
    this.settings = setting.settings;
    const child = spawn(process.execPath, [serverFile, '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] });
    this.#process = child;
    this.#connection = createProtocolConnection(new StreamMessageReader(child.stdout), new StreamMessageWriter(child.stdin));
    this.listen();
  }

  get isAlive(): boolean {
    return this.#process.exitCode === null && this.#process.signalCode === null;
  }

  async initialize(): Promise<void> {
    const { capabilities = pulling, initializationOptions, folder } = this.setting;
    const workspace = {
      ...(this.settings === undefined ? {} : { configuration: true }),
      ...(this.setting.registrations === undefined ? {} : { didChangeConfiguration: { dynamicRegistration: true }, didChangeWatchedFiles: { dynamicRegistration: true } }),
      ...capabilities.workspace,
    };
    this.initializeResult = await this.#connection.sendRequest<InitializeResult>('initialize', {
      processId: process.pid, rootUri: null, capabilities: { ...capabilities, workspace }, initializationOptions,
      workspaceFolders: folder === undefined ? null : [{ uri: folder, name: 'folder' }],
    });
    await this.#connection.sendNotification('initialized', {});
    await this.until(() => this.cards.length > 0);
  }

  async stop(): Promise<void> {
    if (!this.isAlive) return;
    const ended = new Promise((resolve) => this.#process.once('exit', resolve));
    await this.#connection.sendRequest('shutdown').catch(() => undefined);
    await this.#connection.sendNotification('exit').catch(() => undefined);
    await ended;
    this.#connection.dispose();
  }

  request<Answer>(method: string, parameters?: unknown): Promise<Answer> {
    return this.#connection.sendRequest<Answer>(method, parameters);
  }

  /** For what only the protocol library's own call can do, such as to cancel. */
  get connection(): ProtocolConnection {
    return this.#connection;
  }

  notify(method: string, parameters: unknown): Promise<void> {
    return this.#connection.sendNotification(method, parameters);
  }

  async open(uri: string, text: string, languageId = 'nc-program'): Promise<void> {
    this.#versions.set(uri, 1);
    await this.notify('textDocument/didOpen', { textDocument: { uri, languageId, version: 1, text } });
  }

  async change(uri: string, ...contentChanges: TextDocumentContentChangeEvent[]): Promise<void> {
    const version = (this.#versions.get(uri) ?? 0) + 1;
    this.#versions.set(uri, version);
    await this.notify('textDocument/didChange', { textDocument: { uri, version }, contentChanges });
  }

  async close(uri: string): Promise<void> {
    await this.notify('textDocument/didClose', { textDocument: { uri } });
  }

  hover(uri: string, line: number, character: number): Promise<Hover | null> {
    return this.request('textDocument/hover', { textDocument: { uri }, position: { line, character } });
  }

  /** The Markdown of a hover; empty where there is none. */
  async hoverText(uri: string, line: number, character: number): Promise<string> {
    const hover = await this.hover(uri, line, character);
    return hover === null ? '' : (hover.contents as { value: string }).value;
  }

  async diagnostics(uri: string): Promise<Diagnostic[]> {
    const { items } = await this.request<{ items: Diagnostic[] }>('textDocument/diagnostic', { textDocument: { uri } });
    return items;
  }

  /** Waits for something that the server will send; each message from it is a reason to look again. */
  async until(condition: () => boolean): Promise<void> {
    while (!condition()) {
      if (!this.isAlive) throw new Error('the server has ended');
      await new Promise<void>((resolve) => this.#waiting.push(resolve));
    }
  }

  private heard(): void {
    const waiting = this.#waiting;
    this.#waiting = [];
    for (const each of waiting) each();
  }

  private listen(): void {
    const on = <Parameters>(method: string, take: (parameters: Parameters) => void) =>
      this.#connection.onNotification(method, (parameters: Parameters) => {
        take(parameters);
        this.heard();
      });
    on<CardChanged>('blockwright/cardChanged', (card) => this.cards.push(card));
    on<PublishDiagnosticsParams>('textDocument/publishDiagnostics', (each) => this.published.push(each));
    on<{ message: string }>('window/logMessage', ({ message }) => this.log.push(message));
    this.#connection.onRequest('workspace/configuration', ({ items }: { items: { section?: string }[] }) => this.configuration(items));
    this.#connection.onRequest('client/registerCapability', ({ registrations }: { registrations: { method: string }[] }) => this.register(registrations.map(({ method }) => method)));
    this.#connection.onRequest('workspace/diagnostic/refresh', () => {
      this.refreshes += 1;
      this.heard();
      return null;
    });
    this.#process.once('exit', () => this.heard());
    this.#connection.listen();
  }

  private configuration(items: { section?: string }[]): unknown[] {
    const { settings } = this;
    if (settings === 'refused' || settings === undefined) throw new Error('no settings here');
    return items.map(({ section = '' }) => settings[section] ?? null);
  }

  private register(methods: string[]): null {
    if (this.setting.registrations !== 'taken') throw new Error('no registrations here');
    this.registered.push(...methods);
    return null;
  }
}
