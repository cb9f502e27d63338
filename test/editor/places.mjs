// Finds places in a program's text the way a reader would point at them: by what stands there, not by line numbers.

/**
 * The text from a process's note to its end.
 * @returns {{ first: number, last: number, text: string }} line numbers counted from 1
 */
export function processBlock(program, process) {
  const lines = program.split(/\r?\n/);
  const first = lines.findIndex((line) => line.startsWith(`(${process}:`));
  const last = lines.findIndex((line, index) => index > first && line.startsWith(`(END ${process})`));
  if (first < 0 || last < 0) throw new Error(`the program holds no ${process} block`);
  return { first: first + 1, last: last + 1, text: lines.slice(first, last + 1).join('\n') };
}

/**
 * Where a pattern stands inside a block.
 * @returns {{ line: number, column: number, length: number, word: string }} counted from 1
 */
export function placeIn(block, pattern) {
  for (const [index, line] of block.text.split('\n').entries()) {
    const match = pattern.exec(line);
    if (match) return { line: block.first + index, column: match.index + 1, length: match[0].length, word: match[0] };
  }
  throw new Error(`nothing in the block matches ${pattern}`);
}

/** The values of a process note by their names. */
export function noteValues({ text }) {
  return Object.fromEntries([...text.matchAll(/([A-Z][A-Z-]*)=([^\s)]+)/g)].map(([, name, value]) => [name, value]));
}
