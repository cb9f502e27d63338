// Runs npm from a script. Knows how to find it and how to keep an outer npm's settings away from an inner run.
import { spawn } from 'node:child_process';

/**
 * Runs npm in a folder and resolves to its exit code.
 * @param {string} folder
 * @param {string[]} options
 * @param {import('node:child_process').StdioOptions} stdio where its output goes
 * @throws {Error} with one line when there is no npm
 */
export function runNpm(folder, options, stdio) {
  const { file, first } = npmCommand();
  const child = spawn(file, [...first, ...options], { cwd: folder, env: npmEnvironment(), stdio, shell: file === 'npm' && process.platform === 'win32' });
  return new Promise((resolve, reject) => {
    child.once('error', (error) => reject(new Error(`cannot run npm: ${error.message}`)));
    child.once('close', (code, signal) => resolve(code ?? signal));
  });
}

/** The npm that started this script when there is one, else the one on the path. */
function npmCommand() {
  const script = process.env.npm_execpath;
  return script?.endsWith('npm-cli.js') ? { file: process.execPath, first: [script] } : { file: 'npm', first: [] };
}

/** What an outer `npm start` says about its own project must not steer the installation of another one. */
function npmEnvironment() {
  const foreign = /^(npm_(lifecycle|package|config_(local_prefix|omit|include|production|ignore_scripts|global|prefix))|INIT_CWD$|NODE_ENV$)/;
  return Object.fromEntries(Object.entries(process.env).filter(([name]) => !foreign.test(name)));
}
