import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkProgram } from '../../../server/src/assist/check.ts';
import { explain } from '../../../server/src/assist/explain.ts';
import { insertionAt } from '../../../server/src/assist/insert.ts';
import { explanationMarkdown } from '../../../server/src/assist/markdown.ts';
import { keyway } from '../../../server/src/process/keyway.ts';
import { values } from '../process/figures.ts';
import { inventedMachine, programOf } from './programs.ts';

/** Asks for everything at every character and gives what was found wrong. */
function askEverything(text: string): void {
  const program = programOf(text);
  for (let line = 0; line <= program.lineCount; line += 1) {
    for (let character = 0; character <= program.lineText(line).length; character += 1) {
      const found = explain(program, line, character, inventedMachine);
      if (found) expect(explanationMarkdown(found).length).toBeGreaterThan(0);
    }
  }
  for (const { line, start, end, message } of checkProgram(program, inventedMachine.card)) {
    expect(line).toBeLessThan(program.lineCount);
    expect(start).toBeLessThanOrEqual(end);
    expect(end).toBeLessThanOrEqual(program.lineText(line).length);
    expect(message).not.toMatch(/undefined|NaN\b/);
  }
}

const pieces = fc.constantFrom(
  'G01', 'X1.', 'N10', '(HOBBING:', 'MODULE=2', 'TEETH=', '(+ FACE=20)', '(END HOBBING)', '(KEYWAY: BORE=30 LENGTH=25 RPM=500 FEED=0.05)', 'G881 P1 Q-32 R15.0', 'M883 S303', '<syncOn>', '#1=[2*3]', 'G02 X1. I#1', 'O100', '%', '/', ';', '(', ')', '"', '=', '\r\n', '\n', '\r', ' ',
);

describe('any text', () => {
  it('of program pieces is explained, checked and never throws', () => {
    fc.assert(fc.property(fc.array(pieces, { maxLength: 12 }), (parts) => askEverything(parts.join(''))), { numRuns: 60 });
  });

  it('of any characters, lone surrogates among them, likewise', () => {
    fc.assert(fc.property(fc.string({ unit: 'binary', maxLength: 60 }), fc.array(fc.integer({ min: 0xd800, max: 0xdfff }), { maxLength: 4 }), (text, lone) => askEverything(text + String.fromCharCode(...lone))), { numRuns: 60 });
  });

  it('of random bytes likewise', () => {
    fc.assert(fc.property(fc.uint8Array({ maxLength: 200 }), (bytes) => {
      askEverything(Buffer.from(bytes).toString('latin1'));
      askEverything(Buffer.from(bytes).toString('utf8'));
    }), { numRuns: 50 });
  });
});

const tenMegabytes = 10 * 1024 * 1024;
/** Cost that grows with the square of the length is out of the question at this size too, and the tests end sooner. */
const oneMegabyte = 1024 * 1024;
const filled = (piece: string, length = oneMegabyte) => piece.repeat(Math.ceil(length / piece.length));

describe('a very long line is answered', () => {
  it.each<[string, string]>([
    ['10 MB of words', filled('X1.5', tenMegabytes)],
    ['10 MB in one note', `(HOBBING: ${filled('A=1 TEETH=24 ', tenMegabytes)})`],
    ['one number', `X${filled('1')}`],
    ['one comment', `(${filled('a ')})`],
    ['one comment that is not closed', `(${filled('a')}`],
    ['one note value', `(HOBBING: TEETH=${filled('9')})`],
    ['one note value before another', `(HOBBING: TEETH=${filled('9')}=)`],
    ['text in a note that is no parameter', `(HOBBING: ${filled('a ')})`],
    ['spaces', filled(' ')],
    ['opening parentheses', filled('(')],
    ['characters that are no words', filled('?')],
    ['one hole', `<${filled('a')}>`],
    ['holes', filled('<a>')],
    ['brackets', `X${filled('[')}`],
    ['lone surrogates', filled('\ud800')],
  ])('%s', (_name, line) => {
    const program = programOf(`G21\n${line}\nM30`);
    const found = explain(program, 1, Math.floor(line.length / 2), inventedMachine);
    if (found) expect(explanationMarkdown(found).length).toBeLessThan(20_000);
    expect(explain(program, 2, 0, inventedMachine)?.word).toBe('M30');
    const findings = checkProgram(program, inventedMachine.card, 100);
    expect(findings.length).toBeLessThan(2000);
    expect(Math.max(0, ...findings.map(({ message }) => message.length))).toBeLessThan(2000);
    const inserted = (at: number) => insertionAt(program, { line: at, character: 0 }, keyway, values('BORE=30 LENGTH=25 RPM=500 FEED=0.05'), inventedMachine.card);
    expect(inserted(1).text).toContain('(END KEYWAY)');
    // Behind a note that is not closed no block can go in.
    if (line.startsWith('(HOBBING:')) expect(inserted(2).problems.map(({ rule }) => rule)).toEqual(['block-place']);
    else expect(inserted(2).text).toContain('(END KEYWAY)');
    // The limit only ends a wait for an answer that never comes.
  }, 600_000);
});
