import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { comment } from '../../../server/src/process/layout.ts';
import { noteValues, readNotes, writeNoteEnd, writeNoteHead, type NoteComment, type ProcessNote } from '../../../server/src/process/note.ts';
import { notesIn } from '../../../server/src/process/program-notes.ts';
import { processes } from '../../../server/src/process/processes.ts';
import { readProgram, scanLine } from '../../../server/src/program/index.ts';

const keywords = ['HOBBING', 'KEYWAY'];

function commentsOf(lines: readonly string[]): NoteComment[] {
  return lines.flatMap((text, line) => scanLine(text).flatMap((item) => (item.kind === 'comment' ? [{ line, start: item.start + 1, text: item.text }] : [])));
}

function notesOf(...lines: string[]): ProcessNote[] {
  return readNotes(commentsOf(lines), keywords, lines.length);
}

function theNoteOf(...lines: string[]): ProcessNote {
  const [note, ...others] = notesOf(...lines);
  if (!note || others.length > 0) throw new Error(`${others.length + (note ? 1 : 0)} notes`);
  return note;
}

describe('reading a note', () => {
  it('takes parameters from the head and from lines that open with a plus', () => {
    const note = theNoteOf('(HOBBING: MODULE=2 TEETH=32)', '(+ FACE=20)', '(+HOB-DIA=63 )', 'G00 X1.', '(END HOBBING)', 'M30');
    expect(noteValues(note)).toEqual({ MODULE: '2', TEETH: '32', FACE: '20', 'HOB-DIA': '63' });
    expect(note).toMatchObject({ keyword: 'HOBBING', headLine: 0, headEndLine: 2, endLine: 4, lastLine: 4, faults: [] });
  });

  it.each<[string, string[], Record<string, string>]>([
    ['lower case', ['(hobbing: teeth=32)', '(end hobbing)'], { TEETH: '32' }],
    ['semicolon comments', ['; HOBBING: TEETH=32', ';+ FACE=.5', '; END HOBBING'], { TEETH: '32', FACE: '.5' }],
    ['a sequence number before it', ['N10 (HOBBING: TEETH=32)'], { TEETH: '32' }],
    ['spaces round the equals sign', ['(HOBBING: TEETH = 32  FACE= 20)'], { TEETH: '32', FACE: '20' }],
    ['a value that is missing before the next name', ['(HOBBING: TEETH= FACE=20)'], { TEETH: '', FACE: '20' }],
    ['a value that is missing at the end', ['(HOBBING: FACE=20 TEETH=)'], { FACE: '20', TEETH: '' }],
    ['text in quotes', ['(KEYWAY: FIT="J S 9" BORE=20)'], { FIT: 'J S 9', BORE: '20' }],
    ['text in quotes that are not closed', ['(KEYWAY: FIT="J S'], { FIT: 'J S' }],
    ['a name that stands twice: the first counts', ['(HOBBING: TEETH=32 TEETH=33)'], { TEETH: '32' }],
  ])('%s', (_name, lines, expected) => expect(noteValues(theNoteOf(...lines))).toEqual(expected));

  it('knows where each name and each value stands', () => {
    const line = '  (HOBBING:  TEETH = 32 FIT="A B")';
    const { keywordSpan, entries } = theNoteOf(line);
    const cut = ({ start, end }: { start: number; end: number }) => line.slice(start, end);
    expect(cut(keywordSpan)).toBe('HOBBING');
    expect(entries.map(({ nameSpan, valueSpan, span }) => [cut(nameSpan), cut(valueSpan), cut(span)])).toEqual([['TEETH', '32', 'TEETH = 32'], ['FIT', '"A B"', 'FIT="A B"']]);
  });

  it('marks what is no parameter', () => {
    const bad = theNoteOf('(HOBBING: 32 TEETH=32 ??)').faults;
    expect(bad.map(({ span }) => [span.start, span.end])).toEqual([[10, 12], [22, 24]]);
    expect(bad[0]?.message).toMatch(/^"32" is not a parameter; a note holds NAME=VALUE/);
  });

  it('takes a plus line only right behind the head', () => {
    const note = theNoteOf('(HOBBING: TEETH=32)', 'G00 X1.', '(+ FACE=20)', '(END HOBBING)');
    expect(noteValues(note)).toEqual({ TEETH: '32' });
  });

  it('ends at the next note, or at the end of the program, when it is not closed', () => {
    const [first, second] = notesOf('(HOBBING: TEETH=32)', 'G00 X1.', '(KEYWAY: BORE=20)', 'M30', '(END HOBBING)');
    expect(first).toMatchObject({ endLine: undefined, lastLine: 1 });
    expect(second).toMatchObject({ endLine: undefined, lastLine: 4 });
  });

  it('is not begun by another comment', () => {
    expect(notesOf('(HOBBING)', '(TURNING: X=1)', '(SETUP: HOBBING: TEETH=1)', '(+ TEETH=3)', '(END HOBBING)')).toEqual([]);
  });
});

describe('writing a note', () => {
  it('keeps to the room of a comment where the parameters can be parted', () => {
    const lines = writeNoteHead('HOBBING', { MODULE: '2', TEETH: '32', HELIX: '15', HAND: 'RIGHT' }, 24);
    expect(lines).toEqual(['HOBBING: MODULE=2', '+ TEETH=32 HELIX=15', '+ HAND=RIGHT']);
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(24);
  });

  it('ends with the keyword of the process', () => {
    expect(writeNoteEnd('KEYWAY')).toBe('END KEYWAY');
  });
});

const name = fc.constantFrom(...new Set(processes.flatMap(({ fields }) => Object.keys(fields))));
/** Every text that a comment can hold: printable, without quotes and parentheses. */
const value = fc.string({ unit: fc.constantFrom(...'ABCxyz019 .-+=:/#;,&<>[]%'), minLength: 1, maxLength: 30 });

describe('both ways', () => {
  it('a note that was written in either comment style gives its values back', () => {
    fc.assert(fc.property(fc.constantFrom(...processes), fc.dictionary(name, value, { maxKeys: 12 }), fc.integer({ min: 28, max: 120 }), fc.constantFrom('parentheses', 'semicolon'), ({ keyword }, values, room, style) => {
      const head = writeNoteHead(keyword, values, room).map((text) => comment(text, style));
      const program = readProgram([...head, 'G00 X1.', comment(writeNoteEnd(keyword), style)].join('\n'));
      const [note, ...others] = notesIn(program);
      expect(others).toEqual([]);
      expect(note).toMatchObject({ keyword, faults: [], headEndLine: head.length - 1, endLine: head.length + 1 });
      expect(note && noteValues(note)).toEqual(values);
    }));
  });

  it('any comments give notes whose places lie inside their lines', () => {
    const text = fc.oneof(fc.string({ unit: 'binary' }), fc.constantFrom('HOBBING: TEETH=1', '+ A=', 'END HOBBING', 'KEYWAY:'), fc.string({ unit: fc.constantFrom(...'HOBING: +=A1" END') }));
    fc.assert(fc.property(fc.array(text, { maxLength: 8 }), (texts) => {
      const notes = readNotes(texts.map((each, line) => ({ line, start: 0, text: each })), keywords, texts.length);
      for (const { entries, faults, keywordSpan, headLine, headEndLine, lastLine } of notes) {
        expect(headLine).toBeLessThanOrEqual(headEndLine);
        expect(headEndLine).toBeLessThanOrEqual(lastLine);
        for (const { line, start, end } of [keywordSpan, ...entries.map(({ span }) => span), ...faults.map(({ span }) => span)]) {
          expect(start).toBeLessThan(end);
          expect(end).toBeLessThanOrEqual(texts[line]?.length ?? -1);
        }
      }
    }));
  });

  it('a very long value costs no more than its length', () => {
    const note = theNoteOf(`(HOBBING: FACE=${'9'.repeat(2_000_000)} TEETH=32)`);
    expect(noteValues(note)['TEETH']).toBe('32');
    expect(noteValues(theNoteOf(`(HOBBING: FACE=${'9'.repeat(2_000_000)}= TEETH=32)`))).toMatchObject({ FACE: '' });
  });
});
