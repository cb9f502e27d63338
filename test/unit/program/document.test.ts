import fc from 'fast-check';
import { expect, test } from 'vitest';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { ProgramDocument } from '../../../server/src/program/index.ts';

const piece = fc.oneof(
  fc.constantFrom('\r', '\n', '\r\n', '\n\r', '', 'X1', 'G1 Y2\n', '\ud83d\ude00', '\ud83d', '\ude00', '\u2028', '\u0085'),
  fc.string({ unit: 'binary', maxLength: 8 }),
);
const text = fc.array(piece, { maxLength: 20 }).map((pieces) => pieces.join(''));
/** Enough lines that the text is kept in several pieces. */
const longText = fc.tuple(fc.integer({ min: 500, max: 2400 }), fc.constantFrom('\n', '\r\n', '\r'), text).map(([lines, end, rest]) => `G1 X1${end}`.repeat(lines) + rest);

interface Edit { from: number; to: number; text: string }
const edit = fc.record({ from: fc.double({ min: 0, max: 1, noNaN: true }), to: fc.double({ min: 0, max: 1, noNaN: true }), text });

function rangeOf(document: TextDocument, { from, to }: Edit): { start: { line: number; character: number }; end: { line: number; character: number } } {
  const length = document.getText().length;
  const [first, second] = [Math.floor(from * length), Math.floor(to * length)].sort((a, b) => a - b) as [number, number];
  return { start: document.positionAt(first), end: document.positionAt(second) };
}

function agree(ours: ProgramDocument, stock: TextDocument): void {
  const content = stock.getText();
  expect(ours.getText()).toBe(content);
  expect(ours.lineCount).toBe(stock.lineCount);
  expect(ours.version).toBe(stock.version);
  for (const offset of samples(content.length)) {
    const position = stock.positionAt(offset);
    expect(ours.positionAt(offset)).toEqual(position);
    expect(ours.offsetAt(position)).toBe(stock.offsetAt(position));
  }
  for (const line of samples(stock.lineCount)) {
    for (const character of [-1, 0, 1, 3, 100]) expect(ours.offsetAt({ line, character })).toBe(stock.offsetAt({ line, character }));
    expect(ours.getLineRange(line)).toEqual(stock.getLineRange(line));
    expect(ours.getEOLCharacters(line)).toBe(stock.getEOLCharacters(line));
  }
}

/** All of a short range; the ends and an even spread of a long one. */
function samples(count: number): number[] {
  const step = Math.max(1, Math.floor(count / 200));
  const inside = Array.from({ length: Math.ceil(count / step) }, (_, index) => index * step);
  return [-1, ...inside, count - 1, count, count + 1];
}

function checkEdits(start: string, edits: readonly Edit[]): void {
  const stock = TextDocument.create('file:///a.nc', 'nc-program', 1, start);
  let ours = ProgramDocument.create('file:///a.nc', 'nc-program', 1, start);
  agree(ours, stock);
  edits.forEach((one, index) => {
    const change = { range: rangeOf(stock, one), text: one.text };
    TextDocument.update(stock, [change], index + 2);
    ours = ProgramDocument.update(ours, [change], index + 2);
    agree(ours, stock);
  });
}

test('agrees with the stock text document through edits, for all line ends', () => {
  fc.assert(fc.property(text, fc.array(edit, { maxLength: 8 }), checkEdits), { numRuns: 200 });
});

test('agrees with it on texts of several pieces', () => {
  fc.assert(fc.property(longText, fc.array(edit, { maxLength: 4 }), checkEdits), { numRuns: 25 });
});

test('several changes in one update apply one after the other', () => {
  const changes = [{ range: { start: { line: 0, character: 0 }, end: { line: 0, character: 2 } }, text: 'A\r\nB' }, { range: { start: { line: 1, character: 1 }, end: { line: 1, character: 9 } }, text: '!' }];
  const stock = TextDocument.update(TextDocument.create('u', 'l', 1, 'abcdef\nxyz'), changes, 2);
  agree(ProgramDocument.update(ProgramDocument.create('u', 'l', 1, 'abcdef\nxyz'), changes, 2), stock);
});

test('a change without a range replaces everything', () => {
  const document = ProgramDocument.create('u', 'l', 1, 'G1 X1\n');
  expect(document.program().lineCount).toBe(2);
  ProgramDocument.update(document, [{ text: 'G1\nG2\nG3' }], 2);
  expect(document.getText()).toBe('G1\nG2\nG3');
  expect(document.program().lineCount).toBe(3);
});

test('ranges of text agree with the stock document', () => {
  fc.assert(fc.property(longText, fc.double({ min: 0, max: 1, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true }), (start, from, to) => {
    const stock = TextDocument.create('u', 'l', 1, start);
    const ours = ProgramDocument.create('u', 'l', 1, start);
    const range = rangeOf(stock, { from, to, text: '' });
    expect(ours.getText(range)).toBe(stock.getText(range));
  }), { numRuns: 40 });
});
