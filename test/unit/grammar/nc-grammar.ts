/**
 * Loads the shipped grammar once for the tests of this folder, through the
 * grammar test library, and answers questions about what it makes of a text.
 */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { createRegistry } from 'vscode-tmgrammar-test/dist/common/index.js';

export const SCOPE = 'source.nc-program';
const GRAMMAR_FILE = fileURLToPath(new URL('../../../syntaxes/nc-program.tmLanguage.json', import.meta.url));

export const registry = createRegistry([{ path: GRAMMAR_FILE, scopeName: SCOPE }]);

export interface Piece {
  readonly text: string;
  /** The scopes inside the root scope, outermost first, without the language's suffix. */
  readonly scopes: readonly string[];
}

/** What is left of the rules after a text, and the pieces of its last line. */
export async function readLines(lines: readonly string[]): Promise<{ pieces: Piece[]; openRules: number }> {
  const grammar = await registry.loadGrammar(SCOPE);
  if (!grammar) throw new Error('The grammar could not be loaded.');
  let stack: Parameters<typeof grammar.tokenizeLine>[1] = null;
  let pieces: Piece[] = [];
  let openRules = 0;
  for (const line of lines) {
    const result = grammar.tokenizeLine(line, stack);
    stack = result.ruleStack;
    openRules = result.ruleStack.depth - 1;
    pieces = result.tokens.map((token) => ({
      text: line.slice(token.startIndex, token.endIndex),
      scopes: token.scopes.slice(1).map((scope) => scope.replace(/\.nc-program$/, '')),
    }));
  }
  return { pieces, openRules };
}

/** Every value of the given keys anywhere in the grammar file. */
export function grammarValues(...keys: string[]): string[] {
  const found: string[] = [];
  JSON.parse(readFileSync(GRAMMAR_FILE, 'utf8'), (key: string, value: unknown) => {
    if (keys.includes(key) && typeof value === 'string') found.push(value);
    return value;
  });
  return found;
}
