/** A block with a subprogram goes into a program, comes back as its note and is made anew: two places, one edit. */
import { describe, expect, it } from 'vitest';
import { TextDocument, type TextEdit } from 'vscode-languageserver-textdocument';
import { checkProgram } from '../../../server/src/assist/check.ts';
import { insertionAt } from '../../../server/src/assist/insert.ts';
import { noteAnswer, remadeAt } from '../../../server/src/assist/remake-block.ts';
import { dialectOf } from '../../../server/src/machine/dialect.ts';
import { keyway } from '../../../server/src/process/keyway.ts';
import { composeNote, notesIn } from '../../../server/src/process/program-notes.ts';
import { solveWord } from '../../../server/src/process/solve.ts';
import { noteValues } from '../../../server/src/process/note.ts';
import { driftOf } from '../../../server/src/process/drift.ts';
import { readProgram } from '../../../server/src/program/index.ts';
import { values } from '../process/figures.ts';
import { callingCard } from '../process/subprogram-cards.ts';

const card = { ...callingCard, sequenceNumbers: undefined };
const read = (text: string) => readProgram(text, dialectOf(card));
const standing = values('BORE=30 LENGTH=25 METHOD=STATIC SPEED=8 FEED=0.05');
const errorsOf = (text: string) => checkProgram(read(text), card).filter(({ severity }) => severity === 'error').map(({ rule, line }) => `${line + 1} ${rule}`);

function edited(text: string, edits: readonly TextEdit[]): string {
  return TextDocument.applyEdits(TextDocument.create('file:///a.nc', 'nc-program', 1, text), [...edits]);
}

/** The program after the block went in at a line. */
function withBlock(text: string, line: number, raw = standing): string {
  const { subprogram, text: newText, character, line: at, problems } = insertionAt(read(text), { line, character: 0 }, keyway, raw, card);
  if (newText === '') throw new Error(problems.map(({ message }) => message).join(' '));
  const place = (each: { line: number; character: number }) => ({ start: { line: each.line, character: each.character }, end: { line: each.line, character: each.character } });
  return edited(text, [{ range: place({ line: at, character }), newText }, ...(subprogram ? [{ range: place(subprogram), newText: subprogram.text }] : [])]);
}

/** The program after the block that owns a line was made anew. */
function madeAnew(text: string, line: number, raw?: Record<string, string>): { text: string; dropped: string[]; problems: string[] } {
  const { fromLine, toLine, text: newText, subprogram, dropped, problems } = remadeAt(read(text), line, card, raw);
  if (newText === '') return { text: '', dropped, problems };
  const block: TextEdit = { range: { start: { line: fromLine, character: 0 }, end: { line: toLine, character: 0 } }, newText };
  return { text: edited(text, [block, ...(subprogram ? [{ range: { start: subprogram.from, end: subprogram.to }, newText: subprogram.text }] : [])]), dropped, problems };
}

const start = ['%', 'O100', 'G21 G90 G94 G18', 'T0101', 'G00 X400. Z200.', 'M30', '%', ''].join('\n');
const full = withBlock(start, 5);
const headLine = full.split('\n').findIndex((line) => line.startsWith('(KEYWAY:'));
const raw = { ...noteValues(notesIn(read(full))[0]!) };
const change = (text: string, pattern: RegExp, replacement: string) => {
  const result = text.replace(pattern, replacement);
  if (result === text) throw new Error(`${pattern} is not there`);
  return result;
};

describe('putting it in', () => {
  it('the subprogram goes behind the end, before the closing percent sign, and its number into the note', () => {
    const lines = full.split('\n');
    expect(lines.slice(lines.indexOf('M30'))).toEqual(['M30', 'O8000', '(ONE STROKE OF THE KEYWAY BLOCK WITH PROGRAM=8000)', 'G00 U1.1', 'G01 W-29.0 F8000.0', 'G00 U-1.0', 'G00 W29.0', 'M899', '%', '']);
    expect(raw['PROGRAM']).toBe('8000');
    expect(errorsOf(full)).toEqual([]);
  });

  it.each([
    ['no percent signs', ['O100', 'G21 G90 G94', 'M30', ''].join('\n'), 2],
    ['no line end at the end', ['O100', 'G21 G90 G94', 'M30'].join('\n'), 2],
    ['blank lines at the end', ['O100', 'G21 G90 G94', 'M30', '', '', ''].join('\n'), 2],
    ['other line ends', ['%', 'O100', 'G21 G90 G94', 'M30', '%', ''].join('\r\n'), 3],
  ])('a program with %s', (_name, text, line) => {
    const after = withBlock(text, line);
    expect(errorsOf(after)).toEqual([]);
    expect(after.split(/\r\n|\n/).filter((each) => each.trim() !== '' && each !== '%').at(-1)).toBe('M899');
    expect(after.includes('\r\n')).toBe(text.includes('\r\n'));
  });

  it('a second block takes the next number; one that the program calls but does not hold is passed over', () => {
    const calling = change(start, /M30/, 'M898 P8001 L1\nM30');
    const two = withBlock(withBlock(calling, 5), 5);
    expect(two.match(/^O8\d+$/gm)).toEqual(['O8000', 'O8002']);
    expect(errorsOf(two)).toEqual([]);
  });

  it('a program without an end gets the block written out: the lines would run without being called', () => {
    const open = withBlock('O100\nG21 G90 G94\n', 2);
    expect(open).not.toContain('O8000');
    expect(open.match(/^G01 Z/gm)?.length).toBe(79);
  });

  it('a number that is asked for is refused where there is no end, or where the file has it', () => {
    const ask = (text: string, number: string) => insertionAt(read(text), { line: 2, character: 0 }, keyway, { ...standing, PROGRAM: number }, card);
    expect(ask('O100\nG21 G90 G94\n', '8005')).toMatchObject({ text: '', problems: [{ parameter: 'PROGRAM', message: expect.stringMatching(/no end behind which/) as string }] });
    expect(ask(full, '8000')).toMatchObject({ text: '', problems: [{ parameter: 'PROGRAM', message: expect.stringMatching(/has or calls already/) as string }] });
  });
});

describe('making it anew', () => {
  it('changes nothing where nothing has changed', () => {
    expect(madeAnew(full, headLine)).toEqual({ text: full, dropped: [], problems: [] });
  });

  it('changes both places from the sheet', () => {
    const { text } = madeAnew(full, headLine, { ...raw, LENGTH: '30', FEED: '0.1' });
    expect(text).toContain('M898 P8000 L38');
    expect(text).toContain('O8000\n(ONE STROKE OF THE KEYWAY BLOCK WITH PROGRAM=8000)\nG00 U1.2\nG01 W-34.0 F8000.0\nG00 U-1.0\nG00 W34.0\nM899\n%\n');
    expect(errorsOf(text)).toEqual([]);
  });

  it('takes the subprogram out where the block is written out from now on, and puts it back', () => {
    const { PROGRAM: _number, ...without } = raw;
    const { text } = madeAnew(full, headLine, without);
    expect(text).not.toContain('8000\n');
    expect(text.endsWith('M30\n%\n')).toBe(true);
    expect(madeAnew(text, headLine, raw).text).toBe(full);
  });

  it('takes it out at the end of a text without a line end', () => {
    const bare = withBlock('O100\nG21 G90 G94\nM30', 2);
    const { PROGRAM: _number, ...without } = raw;
    expect(madeAnew(bare, 2, without).text.endsWith('\nM30')).toBe(true);
  });

  it('gives it another number in its place', () => {
    const { text } = madeAnew(full, headLine, { ...raw, PROGRAM: '8044' });
    expect(text.match(/8\d\d\d/g)?.every((number) => number === '8044' || number === '8000')).toBe(true);
    expect(text.match(/^O\d+/gm)).toEqual(['O100', 'O8044']);
    expect(errorsOf(text)).toEqual([]);
  });

  it('never overwrites a program that the note did not make', () => {
    const foreign = change(full, /%\n$/, 'O8044\nG04 P1\nM899\n%\n');
    expect(madeAnew(foreign, headLine, { ...raw, PROGRAM: '8044' })).toMatchObject({ text: '', problems: [expect.stringMatching(/8044 is another program of this file/) as string] });
    const taken = change(full, /\(ONE STROKE.*\n/, '');
    expect(madeAnew(taken, headLine)).toMatchObject({ text: '', problems: [expect.stringMatching(/8000 is another program of this file/) as string] });
  });

  it('leaves a subprogram that another note names, and asks for another number', () => {
    const note = full.split('\n').slice(headLine, full.split('\n').findIndex((line) => line === '(END KEYWAY)') + 1);
    const twice = change(full, /M30\n/, `${note.join('\n')}\nM30\n`);
    expect(madeAnew(twice, headLine, { ...raw, LENGTH: '30' })).toMatchObject({ text: '', problems: [expect.stringMatching(/8000 stands in another note too/) as string] });
    const { text } = madeAnew(twice, headLine, { ...raw, PROGRAM: '8001' });
    expect(text.match(/^O8\d+/gm)).toEqual(['O8000', 'O8001']);
    expect(errorsOf(text)).toEqual([]);
  });

  it('puts a missing one back', () => {
    const gone = change(full, /O8000\n[^%]*/, '');
    expect(errorsOf(gone).map((error) => error.split(' ')[1])).toContain('subprogram-missing');
    expect(madeAnew(gone, headLine).text).toBe(full);
  });

  it('refuses to guess where a subprogram without a return ends', () => {
    expect(madeAnew(change(full, /M899\n%\n/, ''), headLine)).toMatchObject({ text: '', problems: [expect.stringMatching(/no return/) as string] });
  });

  it('names what the user had written into the subprogram, and keeps what was marked as kept', () => {
    const slower = change(full, /G01 W-29\.0 F8000\.0/, 'G01 W-29.0 F6000.0');
    expect(madeAnew(slower, headLine).dropped).toEqual([expect.stringMatching(/^F6000\.0 instead of F8000\.0 \(line \d+\)$/)]);
    const kept = change(slower, /F6000\.0/, 'F6000.0 (KEPT F8000.0)');
    expect(errorsOf(kept)).toEqual([]);
    expect(madeAnew(kept, headLine)).toEqual({ text: kept, dropped: [], problems: [] });
  });
});

describe('from a line of the subprogram', () => {
  const strokeLine = full.split('\n').indexOf('G00 U1.1');

  it('its note is found, to be edited', () => {
    expect(noteAnswer(read(full), strokeLine)).toMatchObject({ process: 'keyway', line: headLine, values: { PROGRAM: '8000' } });
    expect(madeAnew(full, strokeLine).text).toBe(full);
  });

  it('lines of another subprogram have no note', () => {
    const other = change(full, /%\n$/, 'O8044\nG04 P1\nM899\n%\n');
    expect(noteAnswer(read(other), other.split('\n').indexOf('G04 P1'))).toBeNull();
  });

  it('a word of it can be taken back into the note', () => {
    const program = read(change(full, /U1\.1/, 'U1.2'));
    const note = notesIn(program)[0]!;
    const composed = composeNote(program, note, card)!;
    const [word] = driftOf(program, note, composed.composition).drift;
    expect(word).toMatchObject({ kind: 'changed', actual: 'U1.2', wanted: 'U1.1' });
    expect(solveWord(composed.process, noteValues(note), composed.setting, word!.wantedAt!, 1.2)).toContainEqual({ parameter: 'FEED', value: '0.1' });
  });
});
