import { describe, expect, it } from 'vitest';
import { machineCardSchema, keyOfHole, type MachineCard, toolUnit } from '../../../server/src/machine/card.ts';
import { dialectOf } from '../../../server/src/machine/dialect.ts';
import { openStandardCard } from '../../../server/src/machine/open-standard.ts';
import { readProgram } from '../../../server/src/program/index.ts';
import { inventedCard, withCodes } from '../../invented-machine.ts';

/** Codes of the invented card that are words of the open definitions, which the engine carries out itself. */
const byDefinition = ['absolute', 'incremental', 'feedPerMinute', 'feedPerRevolution', 'dwell', 'coolantOn', 'coolantOff'];

describe('the dialect of a card', () => {
  it('takes over what the card says of the language', () => {
    expect(dialectOf(inventedCard)).toMatchObject({ units: 'mm', diameterProgramming: true, xFeedOnDiameter: false, incrementalAxes: {} });
    expect(dialectOf({ ...inventedCard, units: 'inch', incrementalAxes: { U: 'X' } })).toMatchObject({ units: 'inch', incrementalAxes: { U: 'X' } });
  });

  it('has one pattern for each code that the card says, and none for the others', () => {
    const own = Object.keys(inventedCard.codes).filter((name) => !byDefinition.includes(name));
    expect(dialectOf(inventedCard).patterns.map(({ name }) => name)).toEqual(own);
    expect(dialectOf(openStandardCard).patterns.map(({ name }) => name)).not.toContain('syncOn');
  });

  it('has none for a word that the open definitions carry out, but one for another word in its place', () => {
    const names = (codes: typeof inventedCard.codes) => dialectOf({ ...inventedCard, codes }).patterns.map(({ name }) => name);
    expect(names({ dwell: 'G4 P{seconds}', absolute: 'G90', coolantOn: 'M8' })).toEqual([]);
    expect(names({ dwell: 'G4 X{seconds}', absolute: 'G890', coolantOn: 'M808' })).toEqual(['dwell', 'absolute', 'coolantOn']);
  });

  it.each([['the built-in card', openStandardCard], ['the invented card', inventedCard]])('%s leaves the modes and dwells of the open definitions in force [NISTIR 6556 §3.5]', (_name, card) => {
    const program = readProgram('G91 G93\nG90 G94\nG95\nG04 P1.5', dialectOf(card));
    expect([0, 1, 2].map((line) => [program.stateAfter(line).distance, program.stateAfter(line).feedMode])).toEqual([['incremental', 'inverseTime'], ['absolute', 'perMinute'], ['absolute', 'perRevolution']]);
    expect([...program.moves(3, 4)]).toMatchObject([{ kind: 'dwell', seconds: 1.5 }]);
  });

  it('takes the open words of modes away where the card has others, and only there', () => {
    const replaced = (codes: typeof inventedCard.codes) => dialectOf({ ...inventedCard, codes }).replaced;
    expect(replaced({ absolute: 'G890', incremental: 'G91', inverseTime: ['G893', 'M77'], feedPerMinute: '', coolantOn: 'M808' })).toEqual({ G90: 'G890', G93: 'G893, M77' });
    expect(replaced({ absolute: 'G90 G400', feedPerRevolution: 'not a plain word' })).toEqual({ G95: 'not a plain word' });
    expect(dialectOf(openStandardCard).replaced).toEqual({});
  });

  it('a dwell in milliseconds is read as such, and P without its code is none', () => {
    const own = dialectOf(withCodes({ dwell: 'G4 P{milliseconds}' }));
    const program = readProgram('G4 P500\nG4', own);
    expect([...program.moves()].map(({ kind, seconds }) => [kind, seconds])).toEqual([['dwell', 0.5], ['dwell', undefined]]);
  });

  describe('the words for units', () => {
    const read = (text: string, unitWords?: { inch: string; mm: string }) => {
      const program = readProgram(text, dialectOf(machineCardSchema.parse({ name: 'A machine', ...(unitWords ? { unitWords } : {}) })));
      return [program.stateAfter(program.lineCount - 1).units, program.problems().filter(({ rule }) => rule !== 'end-missing').map(({ rule }) => rule)];
    };

    it.each(['G20', 'G70'])('both pairs count where the card says nothing: %s', (word) => expect(read(word)).toEqual(['inch', []]));

    it.each([
      ['G20', { inch: 'G20', mm: 'G21' }, 'inch', []],
      ['G70', { inch: 'G20', mm: 'G21' }, 'mm', ['unknown-code']],
      ['G20\nG71', { inch: 'G20', mm: 'G21' }, 'inch', ['unknown-code']],
      ['G70', { inch: 'G70', mm: 'G71' }, 'inch', []],
      ['G20', { inch: 'G70', mm: 'G71' }, 'mm', ['unknown-code']],
      ['G120', { inch: 'G120', mm: 'G121' }, 'inch', []],
    ])('%s with %o', (text, unitWords, units, rules) => expect(read(text, unitWords)).toEqual([units, rules]));
  });

  it('a program obeys the words of the card for its modes, and no others', () => {
    const own = dialectOf(withCodes({ absolute: 'G890', incremental: 'G891', inverseTime: 'G893', feedPerMinute: 'G98', feedPerRevolution: 'G99', dwell: 'G4 X{seconds}' }));
    const program = readProgram('G0 X1\nG891 G893\nG90 G94\nG890 G98\nG91 G95\nG99\nG4 X2.5\nG4 P2', own);
    expect([1, 2, 3, 4, 5].map((line) => [program.stateAfter(line).distance, program.stateAfter(line).feedMode])).toEqual([
      ['incremental', 'inverseTime'], ['incremental', 'inverseTime'], ['absolute', 'perMinute'], ['absolute', 'perMinute'], ['absolute', 'perRevolution'],
    ]);
    expect([...program.moves(6)].map(({ kind, seconds, end }) => [kind, seconds, end.X])).toEqual([['dwell', 2.5, 1], ['dwell', undefined, 1]]);
    expect(program.problems().filter(({ rule }) => rule !== 'end-missing').map(({ line, rule }) => [line, rule])).toEqual([[2, 'unknown-code'], [2, 'unknown-code'], [4, 'unknown-code'], [4, 'unknown-code'], [7, 'dwell-word']]);
  });

  it('hands on what the card says of the start, of lines, numbers and T words', () => {
    const fixedFormat = { letters: 'XZ', integerDigits: 4, fractionDigits: 3, suppressedZeros: 'leading' } as const;
    const dialect = dialectOf({ ...inventedCard, plane: 18, feedMode: 'perRevolution', cycleReturn: 'initial', toolChange: 'M06', toolOffsetDigits: 2, fixedFormat, maxLineLength: 60 });
    expect(readProgram('', dialect).stateBefore(0)).toMatchObject({ plane: 18, feedMode: 'perRevolution', returnLevel: 'initial' });
    expect(readProgram('T0304\nG0 X25000', dialect).stateAfter(1)).toMatchObject({ selectedTool: 3, position: { X: 25 } });
    expect(readProgram('T0304 M6', dialect).stateAfter(0)).toMatchObject({ tool: 3, toolOffset: 4 });
    expect(readProgram(`(${'-'.repeat(60)})`, dialect).problems().map(({ rule }) => rule)).toContain('line-too-long');
  });

  it('knows calls and jumps by the words of the card', () => {
    const own = dialectOf(withCodes({ subprogramCall: 'M498 P{program} L{repeats}', subprogramReturn: 'M499', jump: 'G427 P{target}' }));
    const program = readProgram('G00 X0.\nM498 P7 L3\nG427 P50\nM30\nO7\nG91 G00 X1.\nG90\nM499', own);
    expect(program.stateAfter(1).position.X).toBe(3);
    expect(program.problems().map(({ line, rule }) => [line, rule])).toEqual([[2, 'jump']]);
  });

  describe('how often a call runs', () => {
    const after = (call: string, more: Partial<MachineCard>, template = 'M498 P{program} L{repeats}') => {
      const card = { ...inventedCard, ...more, codes: { subprogramStart: 'O{program}', subprogramCall: template, subprogramReturn: 'M499' } };
      const program = readProgram(`G00 X0.\n${call}\nM30\nO7\nG91 G00 X1.\nG90\nM499`, dialectOf(card));
      return { x: program.stateAfter(1).position.X, said: program.problems().filter(({ rule }) => rule === 'subprogram').map(({ message }) => message).join() };
    };
    const once = { repeatsLeftOut: 'once' } as const;

    it.each<[string, string, Partial<MachineCard>, number | undefined, RegExp]>([
      ['M498 P{program}', 'M498 P7', {}, 1, /^$/],
      ['M498 P{program}', 'N5 M498 P7', {}, 1, /^$/],
      ['M498 P{program}', 'G00 X5. M498 P7', {}, 6, /^$/],
      ['M498 P{program}', 'M498 P7 L3', {}, undefined, /^L3 stands beside the call/],
      ['M498 P{program}', 'M498 P7 Q20', once, undefined, /^Q20 stands beside the call/],
      ['M498 P{program} L{repeats}', 'M498 P7 L3', {}, 3, /^$/],
      ['M498 P{program} L{repeats}', 'M498 P7 L#9', {}, undefined, /repeats is not known/],
      ['M498 P{program} L{repeats}', 'M498 P7', {}, undefined, /^The call lacks the word for its repeats/],
      ['M498 P{program} L{repeats}', 'M498 P7', once, 1, /^$/],
      ['M498 P{program} L{repeats}', 'M498 P7 L3', once, 3, /^$/],
      ['M498 P{program} L{repeats}', 'M498 P7 L0', once, undefined, /at least 1, not 0/],
    ])('by %s: %s', (template, call, more, x, said) => {
      expect(after(call, more, template)).toEqual({ x, said: expect.stringMatching(said) as string });
    });
  });

  it('says nothing of what the card leaves out', () => {
    const { state, dialect } = { dialect: dialectOf(openStandardCard), state: readProgram('T0304', dialectOf(openStandardCard)).stateAfter(0) };
    expect(state).toMatchObject({ plane: 17, feedMode: 'perMinute', tool: 304 });
    expect([state.returnLevel, state.toolOffset, dialect.fixedFormat, dialect.maxLineLength, dialect.dwellSeconds]).toEqual(Array(5).fill(undefined));
  });

  it('recognises a template of several blocks by the one that carries the figures', () => {
    const { patterns } = dialectOf({ ...inventedCard, codes: { syncOn: ['M05', 'G881 P{starts} Q{teeth}', 'M06'] } });
    expect(patterns).toEqual([{ name: 'syncOn', words: [{ letter: 'G', value: 881 }, { letter: 'P', slot: 'starts' }, { letter: 'Q', slot: 'teeth' }] }]);
  });

  it.each<[string[], string]>([
    [['M05', 'M881'], 'M881'],
    [['M881', 'M05'], 'M881'],
    [['M05', 'M10'], 'M10'],
    [['M05', 'G28 C0.'], 'G28 C0'],
    [['M881', 'M882'], 'M881'],
  ])('recognises %j, which carries no figures, by %s: a spindle stop alone says nothing of the axis', (blocks, word) => {
    const own = dialectOf({ ...inventedCard, codes: { workAxisOn: blocks } });
    expect(own.patterns.map(({ words }) => words.map(({ letter, value }) => `${letter}${String(value).padStart(2, letter === 'C' ? '' : '0')}`).join(' '))).toEqual([word]);
    const state = readProgram('M03 S500\nM05', own).stateAfter(1);
    expect([state.spindle, state.workAxis]).toEqual(['stopped', false]);
  });

  it.each(['M05 M881', 'M881 M05'])('carries out the spindle stop in %s, which makes an axis of the spindle', (template) => {
    const program = readProgram(`M03 S500\n${template}\nM881 G00 C0.\nM30`, dialectOf({ ...inventedCard, codes: { workAxisOn: template } }));
    expect([program.stateAfter(1).spindle, program.stateAfter(1).workAxis]).toEqual(['stopped', true]);
    expect(program.problems()).toEqual([]);
  });

  it('gives the diameters of the tools by number, however the number is written', () => {
    expect([...dialectOf(machineCardSchema.parse({ name: 'M', tools: { '5': { diameter: 6 }, '0012': { diameter: 0.8 } } })).toolDiameters ?? []]).toEqual([[5, 6], [12, 0.8]]);
    expect(dialectOf(inventedCard).toolDiameters?.size).toBe(0);
  });

  it('has rapid speeds only where the card has them', () => {
    expect(dialectOf(inventedCard).rapid).toBeUndefined();
    expect(dialectOf({ ...inventedCard, rapids: { x: 18000, c: undefined } }).rapid).toEqual({ x: 18000 });
  });
});

describe('the card', () => {
  it('finds the first unit of a kind', () => {
    expect(toolUnit(inventedCard, 'stroke')?.totalStroke).toBe(40);
    expect(toolUnit(inventedCard, 'highSpeed')).toBeUndefined();
  });

  it('names the key that would fill a hole, and none where no key would', () => {
    expect(keyOfHole('syncOn')).toBe('codes.syncOn');
    expect(keyOfHole('sense')).toBe('senses.workRotation');
    expect(keyOfHole('rpm')).toBeUndefined();
    expect(keyOfHole('toString')).toBeUndefined();
  });

  it('knows a key for each of its codes', () => {
    const names = Object.keys(machineCardSchema.shape.codes.unwrap().shape);
    expect(names.length).toBeGreaterThan(15);
    for (const name of names) expect(keyOfHole(name)).toBe(`codes.${name}`);
  });
});
