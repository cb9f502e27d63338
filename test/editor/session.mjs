// One running editor for a test file: the packaged extension installed as a user would install it, a copy of the demo, a
// browser window on it. With `browserOnly` the extension comes over HTTP and has no Node to run on. Everything is thrown away at the end.
import { mkdtempSync, readdirSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { prepareDemo } from '../../client/host/demo.mjs';
import { installEmbeddedEditor } from '../../client/host/embedded-install.mjs';
import { installExtension, startEmbeddedEditor, workspaceAddress, writeInitialSettings } from '../../client/host/embedded-server.mjs';
import { packageWhenStale } from '../../client/host/freshness.mjs';
import { addExtensionFrom } from './browser-host.mjs';
import { launchChromium } from './chromium.mjs';
import { serveFolder } from './served-folder.mjs';
import { Workbench } from './workbench.mjs';

// Hovers wait a moment by default, and a minimap repeats the text that a test looks for.
const testSettings = { 'editor.hover.delay': 50, 'editor.minimap.enabled': false, 'window.autoDetectColorScheme': false };

const windowSize = { width: 1280, height: 900 };

/**
 * Starts an editor on a copy of the demo.
 * @param {Record<string, unknown>} [settings] user settings beside the usual ones
 * @param {{ browserOnly?: boolean }} [host] where the extension runs
 * @returns {Promise<{ workbench: Workbench, demo: { folder: string, program: string }, address: string,
 *   changeSettings: (settings: Record<string, unknown>) => void, close: () => Promise<void> }>}
 */
export async function openEditorSession(settings = {}, { browserOnly = false } = {}) {
  const scratchFolder = realpathSync(mkdtempSync(join(tmpdir(), 'blockwright-editor-')));
  const dataFolder = join(scratchFolder, 'data');
  const editor = await installEmbeddedEditor(console.error);
  const packageFile = await packageWhenStale(console.error);
  const demo = prepareDemo(scratchFolder);
  writeInitialSettings(dataFolder, { ...testSettings, ...settings });
  const extensionHome = browserOnly ? join(scratchFolder, 'served') : dataFolder;
  await installExtension(editor, extensionHome, packageFile);
  const server = await startEmbeddedEditor(editor, dataFolder);
  const browser = await launchChromium();
  const page = await browser.newPage({ viewport: windowSize, bypassCSP: browserOnly });
  const served = browserOnly ? await serveFolder(installedFolder(extensionHome)) : undefined;
  if (served) await addExtensionFrom(page, served.address);
  const close = async () => {
    await browser.close();
    served?.close();
    await server.stop();
    rmSync(scratchFolder, { recursive: true, force: true });
  };
  const workbench = new Workbench(page, demo.folder);
  const addressOf = (file) => workspaceAddress(server.address, demo.folder, { file });
  return { workbench, demo, addressOf, settingsFile: join(dataFolder, 'User', 'settings.json'), served, close };
}

/** Where the editor has put the extension. */
function installedFolder(dataFolder) {
  const extensions = join(dataFolder, 'extensions');
  const name = readdirSync(extensions).find((each) => each.startsWith('blockwright.'));
  if (name === undefined) throw new Error(`no extension in ${extensions}`);
  return join(extensions, name);
}
