/** Runs the built command line as a process, and keeps its files in a folder of their own. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect } from 'vitest';

const commandLine = fileURLToPath(new URL('../../../server/dist/cli.js', import.meta.url));

export interface Run {
  code: number | null;
  stdout: string;
  stderr: string;
}

export function run(...words: string[]): Run {
  const { status, stdout, stderr } = spawnSync(process.execPath, [commandLine, ...words], { encoding: 'utf8' });
  return { code: status, stdout, stderr };
}

/** Runs a verb that has to succeed and gives what it printed as data. */
export function runForJson(...words: string[]): unknown {
  const { code, stdout, stderr } = run(...words, '--json');
  expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
  return JSON.parse(stdout);
}

/** Bad input: exit code 2, nothing on stdout, one line on stderr. */
export function expectRefused(words: string[], message: string | RegExp): void {
  const { code, stdout, stderr } = run(...words);
  expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
  expect(stderr.endsWith('\n') && stderr.indexOf('\n') === stderr.length - 1, stderr).toBe(true);
  expect(stderr.trimEnd()).toMatch(/^blockwright: /);
  if (typeof message === 'string') expect(stderr.trimEnd()).toBe(`blockwright: ${message}`);
  else expect(stderr).toMatch(message);
}

/** Writes files that are gone after the tests of the file. */
export function temporaryFiles(): { file(name: string, text: string | Uint8Array): string; folder: string } {
  const folder = mkdtempSync(join(tmpdir(), 'blockwright-test-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  return {
    folder,
    file(name, text) {
      const path = join(folder, name);
      writeFileSync(path, text);
      return path;
    },
  };
}
