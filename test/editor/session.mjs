// One running editor for a test file: the packaged extension installed as a user would install it, a copy of the demo, a
// browser window on it. Everything is thrown away at the end.
import { mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { prepareDemo } from '../../client/host/demo.mjs';
import { installEmbeddedEditor } from '../../client/host/embedded-install.mjs';
import { installExtension, startEmbeddedEditor, workspaceAddress, writeInitialSettings } from '../../client/host/embedded-server.mjs';
import { packageWhenStale } from '../../client/host/freshness.mjs';
import { launchChromium } from './chromium.mjs';
import { Workbench } from './workbench.mjs';

// Hovers wait a moment by default, and a minimap repeats the text that a test looks for.
const testSettings = { 'editor.hover.delay': 50, 'editor.minimap.enabled': false, 'window.autoDetectColorScheme': false };

const windowSize = { width: 1280, height: 900 };

/**
 * Starts an editor on a copy of the demo.
 * @param {Record<string, unknown>} [settings] user settings beside the usual ones
 * @returns {Promise<{ workbench: Workbench, demo: { folder: string, program: string }, address: string,
 *   changeSettings: (settings: Record<string, unknown>) => void, close: () => Promise<void> }>}
 */
export async function openEditorSession(settings = {}) {
  const scratchFolder = realpathSync(mkdtempSync(join(tmpdir(), 'blockwright-editor-')));
  const dataFolder = join(scratchFolder, 'data');
  const editor = await installEmbeddedEditor(console.error);
  const packageFile = await packageWhenStale(console.error);
  const demo = prepareDemo(scratchFolder);
  writeInitialSettings(dataFolder, { ...testSettings, ...settings });
  await installExtension(editor, dataFolder, packageFile);
  const server = await startEmbeddedEditor(editor, dataFolder);
  const browser = await launchChromium();
  const page = await browser.newPage({ viewport: windowSize });
  const close = async () => {
    await browser.close();
    await server.stop();
    rmSync(scratchFolder, { recursive: true, force: true });
  };
  const workbench = new Workbench(page, demo.folder);
  const addressOf = (file) => workspaceAddress(server.address, demo.folder, { file });
  return { workbench, demo, addressOf, settingsFile: join(dataFolder, 'User', 'settings.json'), close };
}
