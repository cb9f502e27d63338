/**
 * The language server on any connection: lists the services, follows documents,
 * settings and the machine card. Entries (Node, browser) bring the connection
 * and the runtime.
 */
import {
  DidChangeConfigurationNotification, DidChangeWatchedFilesNotification, TextDocuments, TextDocumentSyncKind,
  type Connection, type InitializeParams, type InitializeResult, type ServerCapabilities,
} from 'vscode-languageserver';
import { blocksService, cardAnswer } from './assist/blocks.ts';
import { codeActionsService } from './assist/code-actions.ts';
import { completionService } from './assist/completion.ts';
import { diagnosticsService, pushDiagnostics } from './assist/diagnostics.ts';
import { foldingService } from './assist/folding.ts';
import { hoverService } from './assist/hover.ts';
import { outlineService } from './assist/outline.ts';
import { proveService } from './assist/prove.ts';
import { Rehearsal } from './assist/rehearsal.ts';
import { whatFailed, type Service } from './assist/service.ts';
import { isMachineCard, Session, type Runtime } from './assist/session.ts';
import { ProgramDocument } from './program/index.ts';
import type { InitializationOptions } from './requests.ts';

const services: readonly Service[] = [hoverService, completionService, diagnosticsService, codeActionsService, blocksService, outlineService, foldingService, proveService];

export function startServer(connection: Connection, runtime: Runtime): void {
  const documents = new TextDocuments(ProgramDocument);
  const session = new Session(documents, runtime);
  const host = new Host(connection, session);
  const rehearsal = new Rehearsal(session);
  connection.onInitialize((parameters) => host.initialize(parameters));
  connection.onInitialized(() => host.initialized());
  connection.onDidChangeConfiguration(() => host.reloadSettings());
  connection.onDidChangeWatchedFiles(() => host.reloadCard());
  documents.onDidChangeContent(({ document }) => host.documentChanged(document));
  documents.onDidOpen(({ document }) => rehearsal.begin(document.uri).catch((error: unknown) => connection.console.error(`Explaining words of ${document.uri} ahead failed: ${whatFailed(error)}`)));
  documents.onDidClose(({ document }) => host.documentClosed(document));
  for (const service of services) service.register(connection, session);
  documents.listen(connection);
  connection.listen();
}

function capabilities(): ServerCapabilities {
  return Object.assign({ textDocumentSync: TextDocumentSyncKind.Incremental, positionEncoding: 'utf-16' }, ...services.map((service) => service.capabilities)) as ServerCapabilities;
}

/** What one client can do, and the card that its settings name. */
class Host {
  #pulls = false;
  #refreshes = false;
  #hasSettings = false;
  #registersSettings = false;
  #registersFiles = false;
  #folder: string | undefined;
  #options: InitializationOptions = {};
  #latestReload = 0;
  #latestReading = 0;

  constructor(
    private readonly connection: Connection,
    private readonly session: Session,
  ) {}

  initialize({ capabilities: client, workspaceFolders, rootUri, initializationOptions }: InitializeParams): InitializeResult {
    this.#pulls = client.textDocument?.diagnostic !== undefined;
    this.#refreshes = client.workspace?.diagnostics?.refreshSupport === true;
    this.#hasSettings = client.workspace?.configuration === true;
    this.#registersSettings = client.workspace?.didChangeConfiguration?.dynamicRegistration === true;
    this.#registersFiles = client.workspace?.didChangeWatchedFiles?.dynamicRegistration === true;
    this.#folder = workspaceFolders?.[0]?.uri ?? rootUri ?? undefined;
    this.#options = (initializationOptions as InitializationOptions | undefined) ?? {};
    this.session.mostFoldingRanges = client.textDocument?.foldingRange?.rangeLimit ?? Infinity;
    this.session.clientMarksBrokenJson = this.#options.marksBrokenJson === true;
    this.session.clientListsWordsOnDemand = this.#options.listsWordsOnDemand === true;
    if (!this.#hasSettings && this.#options.machineCard === undefined) this.session.markCardKnown();
    return { capabilities: capabilities(), serverInfo: { name: 'blockwright' } };
  }

  /** The registrations are asked for first and not waited for: no answer may hang on a client that leaves them open. */
  async initialized(): Promise<void> {
    const { client } = this.connection;
    if (this.#registersSettings) void this.tried(() => client.register(DidChangeConfigurationNotification.type, { section: 'blockwright' }));
    if (this.#registersFiles) void this.tried(() => client.register(DidChangeWatchedFilesNotification.type, { watchers: [{ globPattern: '**/*.machine.json' }] }));
    await this.reloadSettings();
  }

  async reloadSettings(): Promise<void> {
    if (this.#hasSettings) await this.readSettings();
    await this.reloadCard();
  }

  /** Of several readings that overlap, the one that was asked for last counts. */
  private async readSettings(): Promise<void> {
    const reading = (this.#latestReading += 1);
    const [rules, blockSkip] = await Promise.all([this.setting('blockwright.rules'), this.setting('blockwright.blockSkip')]);
    if (reading !== this.#latestReading) return;
    this.session.severities.use(rules);
    this.session.cards.setBlockSkip(blockSkip === true);
  }

  /**
   * Reads the card that the settings name, an open document before the file, and
   * tells the client what is in use. Of several reloads that overlap, the one that
   * was asked for last counts, whichever answer comes last: until it is through,
   * which card is in use is not known.
   */
  async reloadCard(): Promise<void> {
    const reload = (this.#latestReload += 1);
    const isLatest = (): boolean => reload === this.#latestReload;
    try {
      await this.readCard(isLatest);
    } finally {
      if (isLatest()) this.session.markCardKnown();
    }
  }

  private async readCard(isLatest: () => boolean): Promise<void> {
    const uri = await this.cardUri();
    const file = uri === undefined || this.session.document(uri) ? undefined : await this.session.runtime.readText(uri);
    if (!isLatest()) return;
    if (uri === undefined) this.session.cards.useBuiltIn();
    else this.session.cards.use(uri, this.session.document(uri)?.getText() ?? file);
    this.cardChanged();
  }

  /** A client that knows no such setting answers with null; then what it said at the start counts. */
  private async cardUri(): Promise<string | undefined> {
    const setting = (await this.setting('blockwright.machineCard')) ?? this.#options.machineCard;
    if (typeof setting !== 'string' || setting.trim() === '') return undefined;
    return resolvedUri(setting.trim(), this.#folder);
  }

  private async setting(section: string): Promise<unknown> {
    return this.#hasSettings ? this.tried(() => this.connection.workspace.getConfiguration(section)) : undefined;
  }

  /** A client that refuses what it said it could do must not take the server down. */
  private async tried(work: () => Promise<unknown>): Promise<unknown> {
    try {
      return await work();
    } catch (error) {
      this.connection.console.warn(`The client refused a request: ${error instanceof Error ? error.message : String(error)}`);
      return undefined;
    }
  }

  documentChanged(document: ProgramDocument): void {
    const isCardInUse = isMachineCard(document.uri) && document.uri === this.session.cards.current.uri;
    if (isCardInUse) this.session.cards.use(document.uri, document.getText());
    if (isCardInUse) this.cardChanged();
    else if (!this.#pulls) pushDiagnostics(this.connection, this.session, [document]);
  }

  /** Unsaved text of a card is gone when its editor closes: the file counts again. */
  documentClosed(document: ProgramDocument): void {
    if (!this.#pulls) void this.connection.sendDiagnostics({ uri: document.uri, diagnostics: [] });
    if (document.uri === this.session.cards.current.uri) void this.reloadCard();
  }

  private cardChanged(): void {
    void this.connection.sendNotification('blockwright/cardChanged', cardAnswer(this.session));
    if (!this.#pulls) pushDiagnostics(this.connection, this.session, this.session.documents.all());
    else if (this.#refreshes) this.connection.languages.diagnostics.refresh();
  }
}

/** A path of the settings as a URI: absolute, or relative to the workspace folder. */
function resolvedUri(path: string, folder: string | undefined): string {
  if (/^[a-z][a-z0-9+.-]+:\/\//i.test(path)) return path;
  const encoded = path.replaceAll('\\', '/').split('/').map(encodedPart).join('/').replace(/^([A-Za-z])%3A\//, '/$1%3A/');
  if (encoded.startsWith('/')) return `file://${encoded}`;
  return folder === undefined ? `file:///${encoded}` : `${folder.replace(/\/$/, '')}/${encoded.replace(/^\.\//, '')}`;
}

/** As editors encode a part of a path, so that the URI of a card is the one that its open document has. */
function encodedPart(part: string): string {
  return encodeURIComponent(part).replace(/[!'()*]/g, (character) => `%${character.charCodeAt(0).toString(16).toUpperCase()}`);
}
