/** What operations look like by their moves alone, checked on the demo, on composed blocks and on programs that are none of it. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { MachineCard } from '../../../server/src/machine/card.ts';
import { dialectOf } from '../../../server/src/machine/dialect.ts';
import { openStandardCard } from '../../../server/src/machine/open-standard.ts';
import { composeText } from '../../../server/src/process/layout.ts';
import { processNamed } from '../../../server/src/process/processes.ts';
import { recognisedOperations, workOfTool } from '../../../server/src/process/recognition.ts';
import { type Program, ProgramDocument, readProgram } from '../../../server/src/program/index.ts';
import { EditableProgram } from '../../../server/src/program/program.ts';
import { TextStore } from '../../../server/src/program/store.ts';
import { cardOf } from '../../invented-machine.ts';
import { allNistPrograms, nistProgram } from '../program/helpers.ts';
import { values } from './figures.ts';

const folder = fileURLToPath(new URL('../../../client/demo/', import.meta.url));
const demoCard = cardOf(readFileSync(`${folder}invented.machine.json`, 'utf8'));
const demoPrograms = readdirSync(folder).filter((name) => name.endsWith('.nc'));

/** Every comment becomes a blank, so that lines keep their numbers. */
const withoutComments = (text: string): string => text.replace(/\([^)\r\n]*\)/g, '');

/** "first-last kind" of what is recognised, lines from 1. */
function kinds(program: Program, card: MachineCard): string[] {
  return recognisedOperations(program, card).flatMap(({ looksLike }) => (looksLike ? [`${looksLike.fromLine + 1}-${looksLike.toLine} ${looksLike.kind}`] : []));
}

function read(text: string, card: MachineCard): Program {
  return readProgram(text, dialectOf(card));
}

/** A block without its note and comments, behind lines that make the machine ready for it. */
function bareBlock(process: string, text: string, card: MachineCard, units: 'mm' | 'inch' = 'mm'): string {
  const { lines, problems } = composeText(processNamed(process)!, values(text), { units, card }, { comment: 'parentheses' });
  expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  return [`${units === 'inch' ? 'G20' : 'G21'} G18 G90 G97 M05`, 'T7', 'G00 X60. Z60. Y0. C0.', ...lines.filter((line) => !line.startsWith('(')), 'G00 Z60.', 'T8', 'G00 X200.', 'M30'].join('\n');
}

function kindsOf(text: string, card = demoCard): string[] {
  return kinds(read(text, card), card).map((each) => each.replace(/^\S+ /, ''));
}

const demoAsCard = { ...demoCard, plane: 18 } as const;
const driven = ['T7', 'G00 X27.9 Z2. Y0. C0.', 'G94', 'M91', 'M23 S900'];
const slot = ['G01 X36.6 F36.', 'G04 P0.2', 'G00 X27.9'];
const atSpeed = ['T9', 'G00 X50. Y0. Z1. C0.', 'G94', 'M91', 'M23 S5400'];

/** Letters of three strokes, as someone would write them by hand. */
const letters = [
  'G01 Z-.1 F300.', 'G01 X46. F800.', 'G01 X46. Y2.', 'G00 Z1.', 'G00 X50. Y3.', 'G01 Z-.1 F300.', 'G02 X46. Y3. R2. F800.', 'G01 X48. Y4.', 'G00 Z1.',
  'G00 X50. Y6.', 'G01 Z-.1 F300.', 'G01 X46. Y6. F800.', 'G01 Y8.', 'G00 Z1.',
];
const program = (...parts: readonly (readonly string[])[]): string => ['G21 G17 G90 M05', ...parts.flat(), 'M30'].join('\n');

describe.each(demoPrograms)('the demo program %s', (name) => {
  const text = readFileSync(`${folder}${name}`, 'utf8');
  const bare = withoutComments(text);
  const lines = text.split(/\r?\n/);
  /** The lines of the moves in the work, found by the words of the demo alone. */
  const between = (from: RegExp, to: RegExp, kind: string, after = 0): string => {
    const start = lines.findIndex((line, index) => index >= after && from.test(line));
    const end = lines.findIndex((line, index) => index >= start && to.test(line));
    return `${start + 1}-${end + 1} ${kind}`;
  };
  const gears = lines.filter((line) => line.startsWith('(HOBBING:')).length;
  const noteAt = (keyword: string, nth = 0): number => lines.flatMap((line, index) => (line.startsWith(`(${keyword}:`) ? [index] : []))[nth]!;
  const lastBefore = (line: number, pattern: RegExp): number => lines.findLastIndex((each, index) => index < line && pattern.test(each));
  const endOf = (keyword: string, nth = 0): number => lines.findIndex((line, index) => index > noteAt(keyword, nth) && line === `(END ${keyword})`);

  it('is recognised without its notes and comments, at the right lines', () => {
    expect(bare).not.toContain('(');
    expect(kinds(read(bare, demoCard), demoCard)).toEqual([
      between(/G01 Z/, /G01 Z/, 'hobbing', noteAt('HOBBING')),
      between(/G01 X/, /G00 X/, 'keyway', noteAt('KEYWAY')),
      `${lines.findIndex((line, index) => index > noteAt('ENGRAVING') && /G01 Z/.test(line)) + 1}-${lastBefore(endOf('ENGRAVING'), /G00 Z/) + 1} engraving`,
      ...(gears > 1 ? [between(/G01 Z/, /G01 Z/, 'hobbing', noteAt('HOBBING', 1))] : []),
    ]);
  });

  it('and with them it looks the same, in the operations of the notes', () => {
    const found = recognisedOperations(read(text, demoCard), demoCard).filter(({ looksLike }) => looksLike);
    expect(found.map(({ note, looksLike }) => [note, looksLike?.kind])).toEqual([['HOBBING', 'hobbing'], ['KEYWAY', 'keyway'], ['ENGRAVING', 'engraving'], ['HOBBING', 'hobbing']].slice(0, 2 + gears));
  });

  it('says what was seen', () => {
    const seen = recognisedOperations(read(bare, demoCard), demoCard).flatMap(({ looksLike }) => looksLike?.seen ?? []);
    expect(seen.join(' ')).toMatch(/starts 1, teeth -3[02]/);
    expect(seen.join(' ')).toMatch(/[89]00 strokes a minute on the stroke unit of the card, stroke unit, station 7/);
    expect(seen.join(' ')).toContain('which is 36000 of the cutter');
  });

  it('is nothing but turning to a card that has none of the words', () => expect(kinds(read(bare, openStandardCard), openStandardCard)).toEqual([]));

  it('shows at a T word what that tool is used for', () => {
    const whole = read(bare, demoCard);
    const toolLine = lastBefore(noteAt('KEYWAY'), /T07/);
    expect(workOfTool(whole, demoCard, toolLine, 4000)?.map(({ kind }) => kind)).toEqual(['keyway']);
    expect(workOfTool(whole, demoCard, lastBefore(noteAt('HOBBING'), /T05/), 4000)?.map(({ kind }) => kind)).toEqual(['hobbing']);
    expect(workOfTool(whole, demoCard, lines.findIndex((line) => /T0101/.test(line)), 4000)).toEqual([]);
    expect(workOfTool(whole, demoCard, toolLine, 5)).toBeUndefined();
  });
});

describe('composed blocks without their notes', () => {
  const mark = 'DEPTH=0.12 TIP-DIA=0.1 TIP-ANGLE=60 FLUTES=2 RPM=36000 CHIP-LOAD=0.012';
  it.each([
    ['a driven keyway', 'KEYWAY', 'BORE=30 LENGTH=30 RPM=900 FEED=0.04', 'keyway'],
    ['two driven keyways in two passes', 'KEYWAY', 'BORE=30 LENGTH=30 RPM=900 FEED=0.04 COUNT=2 ANGLE=30 INSERT=5', 'keyway'],
    ['a static keyway', 'KEYWAY', 'BORE=30 LENGTH=30 METHOD=STATIC SPEED=8 FEED=0.05', 'keyway'],
    ['a static keyway in two passes, twice', 'KEYWAY', 'BORE=30 LENGTH=30 METHOD=STATIC SPEED=8 FEED=0.05 COUNT=2 INSERT=5', 'keyway'],
    ['a mark on a face', 'ENGRAVING', `TEXT=B8 HEIGHT=4 AT-X=44 ${mark}`, 'engraving'],
    ['a mark on a cylinder', 'ENGRAVING', `TEXT=AB12 HEIGHT=4 SURFACE=CYLINDER DIA=40 AT-Z=-10 ${mark}`, 'engraving'],
    ['a gear', 'HOBBING', 'MODULE=2 TEETH=32 HELIX=15 FACE=20 HOB-DIA=63 SPEED=60 FEED=1.5', 'hobbing'],
  ])('%s', (_name, process, text, kind) => {
    expect(kindsOf(bareBlock(process, text, demoCard))).toEqual([kind]);
  });

  it('in an inch program, on a card in mm', () => {
    expect(kindsOf(bareBlock('KEYWAY', 'BORE=1.25 LENGTH=1 RPM=900 FEED=0.0015', demoCard, 'inch'))).toEqual(['keyway']);
    expect(kindsOf(bareBlock('ENGRAVING', 'TEXT=B8 HEIGHT=.16 AT-X=1.7 DEPTH=.005 TIP-DIA=.004 TIP-ANGLE=60 FLUTES=2 RPM=36000 CHIP-LOAD=.0005', demoCard, 'inch'))).toEqual(['engraving']);
  });
});

describe('a driven slot', () => {
  const of = (...lines: string[]): string[] => kindsOf(program(driven, lines, ['M25']));

  it('is straight feeds of X away from the axis, each with a rapid back', () => {
    expect(of(...slot)).toEqual(['keyway']);
    expect(of(...slot, 'G00 C120.', ...slot, 'G00 C240.', ...slot)).toEqual(['keyway']);
    expect(of('G01 X30. F36.', 'G01 X36.6 F20.', 'G00 X27.')).toEqual(['keyway']);
    expect(of('M28 S500', 'M95', ...slot)).toEqual(['keyway']);
  });

  it.each([
    ['a feed toward the axis, which may be a drill', ['G00 X50.', 'G01 X40. F36.', 'G00 X50.']],
    ['a feed through the axis', ['G00 X-20.', 'G01 X36. F36.', 'G00 X-20.']],
    ['one that Y goes along with', ['G01 X36.6 Y1. F36.', 'G00 X27.9']],
    ['one that C goes along with', ['G01 X36.6 C10. F36.', 'G00 X27.9']],
    ['a way back at feed', ['G01 X36.6 F36.', 'G01 X27.9', 'G00 Z20.']],
    ['a way back that ends in the work', ['G01 X36.6 F36.', 'G00 X30.']],
    ['a slanting way back', ['G01 X36.6 F36.', 'G00 X27.9 Z20.']],
    ['a rapid out of the work along Z', ['G01 X36.6 F36.', 'G00 Z20.']],
    ['no way back', [...slot, 'G01 X36.6 F36.']],
    ['more than half a millimetre a stroke', ['G01 X36.6 F500.', 'G00 X27.9']],
    ['hardly a stroke', ['G01 X27.92 F36.', 'G00 X27.9']],
    ['a milling move beside it', [...slot, 'G01 Z-10.', 'G00 Z20.']],
    ['a turning work', ['M92', 'S500 M03', ...slot]],
    ['a work in the turning sub-spindle', ['M28 S500', ...slot]],
    ['a work between coupled spindles', ['G36 S300 C0.', ...slot]],
    ['a faster drive than the unit strokes', ['M23 S1500', ...slot]],
    ['a drive of unknown speed', ['M23 S#1', ...slot]],
  ])('is not %s', (_name, lines) => expect(of(...lines)).toEqual([]));

  it('is none without a stroke unit in the card', () => expect(kindsOf(program(driven, slot), { ...demoAsCard, toolUnits: demoCard.toolUnits.filter(({ kind }) => kind !== 'stroke') })).toEqual([]));
});

describe('a static slot', () => {
  const stroke = (x: number): string[] => [`G00 X${x.toFixed(2)}`, 'G01 Z-30. F8000.', `G00 X${(x - 1).toFixed(2)}`, 'G00 Z2.'];
  const strokes = (count: number, step: number, first = 29): string[] => Array.from({ length: count }, (_, index) => stroke(first + step * index)).flat();
  const of = (...lines: string[]): string[] => kindsOf(['G21 G18 G90', 'T7', 'G00 X25. Z2. Y0. C0.', 'G94', ...lines, 'M30'].join('\n'));

  it('is strokes over the same way with small steps of X in one direction, while the program says that the work stands', () => {
    expect(of('M91', ...strokes(12, 0.1))).toEqual(['keyway']);
    expect(of('M05', ...strokes(12, 0.1))).toEqual(['keyway']);
    expect(of('M95', ...strokes(12, -0.1))).toEqual(['keyway']);
    expect(of('M91', ...strokes(12, 0.1), ...strokes(2, 0, 30.1), 'G00 C180.', ...strokes(12, 0.1))).toEqual(['keyway']);
  });

  it('steps by at most half a millimetre of radius, whichever way X is programmed', () => {
    const text = ['G21 G18 G90', 'T7', 'G00 X25. Z2. Y0. C0.', 'G94', 'M91', ...strokes(12, 0.8), 'M30'].join('\n');
    expect(kindsOf(text)).toEqual(['keyway']);
    expect(kindsOf(text, { ...demoCard, diameterProgramming: false })).toEqual([]);
    expect(kindsOf(text.replace('G21', 'G20'))).toEqual([]);
  });

  it('may come back and step at feed', () => expect(of('M91', ...Array.from({ length: 8 }, (_, index) => [`G01 X${(29 + index / 10).toFixed(1)} F100.`, 'G01 Z-30. F8000.', 'G01 Z2.']).flat())).toEqual(['keyway']));

  it.each([
    ['where the spindle has not been stopped by a word', strokes(12, 0.1)],
    ['where the spindle turns', ['S500 M03', ...strokes(12, 0.1)]],
    ['where a tool is driven', ['M91', 'M23 S500', ...strokes(12, 0.1)]],
    ['at steps of a roughing cut', ['M05', ...strokes(12, 3)]],
    ['of four strokes', ['M91', ...strokes(4, 0.1)]],
    ['without steps', ['M91', ...strokes(12, 0)]],
    ['if one of several has too few strokes', ['M91', ...strokes(4, 0.1), 'G00 C180.', ...strokes(12, 0.1)]],
    ['of threads', ['M91', ...strokes(12, 0.1).map((line) => line.replace('G01 Z-30. F8000.', 'G33 Z-30. K1.'))]],
    ['that goes back and forth in X', ['M91', ...strokes(8, 0.1), ...strokes(8, 0.1)]],
    ['whose strokes have different lengths', ['M91', ...strokes(8, 0.1), 'G00 X30.', 'G01 Z-20.', 'G00 X29.', 'G00 Z2.']],
    ['with a slanting move', ['M91', ...strokes(8, 0.1), 'G01 X40. Z5.']],
    ['with an arc', ['M91', ...strokes(8, 0.1), 'G02 X34. Z-2. R6.']],
  ])('is none %s', (_name, lines) => expect(of(...lines)).toEqual([]));
});

describe('engraving', () => {
  const of = (...lines: string[]): string[] => kindsOf(program(atSpeed, lines, ['M25']));

  it('is short lines at one shallow depth by a fast tool', () => expect(of(...letters)).toEqual(['engraving']));

  it.each([
    ['two strokes of many lines', [...letters.slice(0, 3), ...letters.slice(1, 3), 'G01 X50.', 'G01 Y0.', ...letters.slice(3, 9)]],
    ['three strokes of three lines', [...letters.slice(0, 2), ...letters.slice(3, 7), 'G00 Z1.', 'G00 Y9.', 'G01 Z-.1 F300.', 'G01 Y12. F800.', 'G00 Z1.']],
    ['lines at two depths', [...letters, 'G00 X50. Y9.', 'G01 Z-.2 F300.', 'G01 X46. F800.', 'G00 Z1.']],
    ['a deep pocket', letters.map((line) => line.replace('Z-.1', 'Z-6.'))],
    ['a long line', [...letters, 'G00 X50. Y10.', 'G01 Z-.1 F300.', 'G01 X150. F800.', 'G00 Z1.']],
    ['lines that all run one way', Array.from({ length: 8 }, (_, index) => [`G00 X50. Y${index}.`, 'G01 Z-.1 F300.', 'G01 X46. F800.', 'G00 Z1.']).flat()],
    ['holes', Array.from({ length: 8 }, (_, index) => [`G00 X50. Y${index}.`, 'G01 Z-.1 F300.', 'G00 Z1.']).flat()],
    ['a slower tool', ['M23 S700', ...letters]],
    ['a standing tool', ['M25', ...letters]],
    ['a turning work', ['M92', 'S500 M03', ...letters]],
    ['milling under tool radius compensation', ['G41 D1', ...letters]],
    ['a rapid move in the work', [...letters.slice(0, 2), 'G00 Y2.', ...letters.slice(3)]],
    ['a tool that stays down', letters.slice(0, -1)],
    ['a tool that goes deeper instead of up', [...letters.slice(0, -1), 'G00 Z-5.']],
    ['a drilling move beside it', [...letters, 'G01 Z-1. X40.']],
  ])('is not %s', (_name, lines) => expect(of(...lines)).toEqual([]));

  it('counts speeds near the limit where the card has no fast spindle', () => {
    const card: MachineCard = { ...demoCard, toolUnits: [] };
    expect(kindsOf(program(atSpeed, letters), card)).toEqual(['engraving']);
    expect(kindsOf(program(atSpeed, letters), { ...card, limits: { ...card.limits, drivenToolRpm: 12000 } })).toEqual([]);
    expect(kindsOf(program(atSpeed, letters), { ...card, limits: {} })).toEqual([]);
  });
});

describe('hobbing', () => {
  const gear = ['T5', 'G00 X145. Z18.', 'G94', 'M91', 'M23 S303', 'G37 P1 Q-32 R15.', 'G00 X124.', 'G01 Z-22. F14.', 'G00 X145.', 'G38', 'M25'];
  it('is feed while the words of the card couple work and driven tool', () => expect(kindsOf(program(gear))).toEqual(['hobbing']));
  it.each([
    ['nothing is fed', gear.filter((line) => !line.startsWith('G01'))],
    ['the tool stands', gear.filter((line) => !line.startsWith('M23'))],
  ])('is none where %s', (_name, lines) => expect(kindsOf(program(lines))).toEqual([]));
});

describe('what is none of it', () => {
  it('moves of a subprogram where it stands, which run only where it is called', () => {
    expect(kindsOf(`${program(['T1', 'G00 X1.'])}\nO7\nG21 G17 G90 M05\n${[...driven, ...slot].join('\n')}\nM30`)).toEqual([]);
  });

  it.each(allNistPrograms)('%s [NISTIR 6556, app. C and table 10]', (name) => {
    expect(kindsOf(nistProgram(name))).toEqual([]);
    expect(kindsOf(nistProgram(name), openStandardCard)).toEqual([]);
  });

  it('plain turning, drilling and milling', () => {
    const turning = ['T1', 'G95 G96 S180 M03', ...Array.from({ length: 10 }, (_, index) => [`G00 X${60 - index}.`, 'G01 Z-40. F0.2', `G01 X${62 - index}.`, 'G00 Z2.']).flat(), 'M05'];
    const crossHoles = ['T7', 'G94', 'M91', 'M23 S900', ...[0, 90, 180].flatMap((c) => [`G00 X50. Z-10. C${c}.`, 'G01 X20. F50.', 'G00 X50.']), 'M25'];
    const milling = ['T8', 'G94', 'M91', 'M23 S5900', 'G00 X60. Z2. Y-30. C0.', 'G01 Z-5. F500.', ...Array.from({ length: 9 }, (_, index) => [`G01 Y${index % 2 ? '-' : ''}30. F900.`, `G01 X${60 - 4 * index}.`]).flat(), 'G00 Z2.', 'M25'];
    expect(kindsOf(program(turning, crossHoles, milling))).toEqual([]);
  });
});

describe('reading', () => {
  const line = fc.constantFrom(...driven, ...slot, ...atSpeed, ...letters, 'M25', 'T1', 'M30', '(KEYWAY: BORE=30)', '(END KEYWAY)', 'G00 C90.', 'M92', 'S500 M03', 'G01 Z-30. F8000.');
  const text = fc.array(line, { maxLength: 40 }).map((lines) => lines.join('\n'));
  const whole = fc.constantFrom(program(driven, slot), program(atSpeed, letters), program(driven, slot, ['M25'], atSpeed, letters));

  it('after edits finds what it finds in a fresh program', () => {
    fc.assert(fc.property(whole, fc.array(fc.tuple(fc.nat(40), fc.nat(3), text), { maxLength: 4 }), (before, edits) => {
      const dialect = dialectOf(demoCard);
      const document = ProgramDocument.create('file:///a.nc', 'nc-program', 1, before);
      edits.forEach(([at, removed, added], index) => {
        recognisedOperations(document.program(dialect), demoCard);
        ProgramDocument.update(document, [{ range: { start: { line: at, character: 0 }, end: { line: at + removed, character: 0 } }, text: added }], index + 2);
      });
      expect(recognisedOperations(document.program(dialect), demoCard)).toEqual(recognisedOperations(readProgram(document.getText(), dialect), demoCard));
    }));
  });

  /** Lines executed by the recognition itself, when everything else has been read before. */
  function work(text: string, ask: (program: Program) => unknown): number {
    const program = new EditableProgram(new TextStore(text), dialectOf(demoCard));
    program.operations();
    const before = program.linesExecuted;
    ask(program);
    return program.linesExecuted - before;
  }
  const repeated = (times: number, ...lines: string[]): string => Array.from({ length: times }, () => lines.join('\n')).join('\n');

  it('of long plain milling costs a small part of it', () => {
    const text = `T7\n${repeated(10_000, 'G01 X50. Z-3. F200.', 'G01 X40. Y2.')}`;
    expect(work(text, (each) => recognisedOperations(each, demoCard))).toBeLessThan(2000);
    expect(work(text, (each) => workOfTool(each, demoCard, 0, 1000))).toBe(0);
  });

  it.each([
    ['much engraving', (times: number) => [...atSpeed, repeated(times, ...letters)].join('\n')],
    ['many operations', (times: number) => repeated(times, 'T1', 'G00 X50.', 'T2', 'G00 X40.')],
  ])('of %s grows no faster than the program', (_name, text) => {
    const [small, large] = [200, 1600].map((times) => work(text(times), (each) => recognisedOperations(each, demoCard)));
    expect(small).toBeGreaterThan(200);
    expect(large! / small!).toBeLessThan(9);
  });

  it('takes a program apart in the same way whatever stands before it', () => {
    const long = program(Array.from({ length: 3000 }, (_, index) => `G01 X${index % 50}. Z-${index % 70}. F200.`), driven, slot, ['M25'], atSpeed, letters);
    expect(kindsOf(long)).toEqual(['keyway', 'engraving']);
  });
});
