// Finds commands of the desktop on this machine and runs them: a desktop editor, a browser.
import { spawn } from 'node:child_process';
import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';

const usualEditorCommands = ['code', 'codium'];

/**
 * The desktop editor to use, or undefined when the embedded one is wanted. BLOCKWRIGHT_EDITOR names a command or a
 * path; `embedded` asks for the embedded editor even where a desktop editor is installed.
 * @throws {Error} when the variable names something that cannot be run
 */
export function findDesktopEditor() {
  const wanted = process.env.BLOCKWRIGHT_EDITOR;
  if (wanted === 'embedded') return undefined;
  if (!wanted) return hasDesktop() ? usualEditorCommands.map(findCommand).find((path) => path !== undefined) : undefined;
  const found = findCommand(wanted);
  if (found === undefined) throw new Error(`BLOCKWRIGHT_EDITOR names "${wanted}", which cannot be run`);
  return found;
}

/** Runs a desktop editor's command and resolves when the command has handed over to the window. */
export function runDesktopEditor(editor, options) {
  const child = spawn(editor, options, { stdio: 'inherit', shell: process.platform === 'win32' });
  return new Promise((resolve, reject) => {
    child.once('error', (error) => reject(new Error(`cannot run ${editor}: ${error.message}`)));
    child.once('close', (code) => (code === 0 ? resolve() : reject(new Error(`${editor} ended with code ${code}`))));
  });
}

/** Opens an address in the person's browser where there is a desktop to show it; says whether it tried. */
export function openBrowser(address) {
  const opener = browserOpener();
  if (opener === undefined) return false;
  // The address is printed as well, so a browser that fails to open is no failure of the start.
  spawn(opener, [address], { stdio: 'ignore', detached: true }).once('error', () => {}).unref();
  return true;
}

function browserOpener() {
  if (!hasDesktop()) return undefined;
  return findCommand(process.platform === 'darwin' ? 'open' : 'xdg-open');
}

/** Over a plain remote shell the commands may be installed while there is no screen for their windows. */
function hasDesktop() {
  if (process.platform === 'darwin' || process.platform === 'win32') return true;
  return Boolean(process.env.DISPLAY || process.env.WAYLAND_DISPLAY || process.env.WSL_DISTRO_NAME);
}

/** The path of a command that can be run, looked for as a shell would. */
export function findCommand(name) {
  if (name.includes('/') || name.includes('\\')) return isExecutable(name) ? name : undefined;
  const endings = process.platform === 'win32' ? ['.cmd', '.exe'] : [''];
  const folders = (process.env.PATH ?? '').split(delimiter).filter((folder) => folder !== '');
  return folders.flatMap((folder) => endings.map((ending) => join(folder, name + ending))).find(isExecutable);
}

function isExecutable(path) {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
