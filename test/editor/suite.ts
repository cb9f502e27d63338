// The suite that an editor runs inside its extension host: the extension seen through the editor's programming interface,
// in a desktop editor and in the embedded one alike.
import { hoverChecks } from './suite-hover.ts';
import { insertChecks } from './suite-insert.ts';
import { languageChecks } from './suite-language.ts';
import { runChecks } from './suite-runner.ts';

/** What the editor calls. Rejects when a check fails, which becomes the editor's exit code. */
export function run(): Promise<void> {
  return runChecks([...languageChecks, ...hoverChecks, ...insertChecks]);
}
