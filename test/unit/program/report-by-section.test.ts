/**
 * Statements of NISTIR 6556 (Kramer, Proctor, Messina 2000), taken one by one where
 * no other test holds the engine to them. Each names its section. What the report
 * does not hold says where it is from instead.
 */
import { describe, expect, test } from 'vitest';
import { meaningOf, openStandardDialect, readProgram, scanLine } from '../../../server/src/program/index.ts';
import { atZero, ends, marks, onlyMove, standingAt } from './helpers.ts';

const moves = (text: string, dialect = atZero) => [...readProgram(text, dialect).moves()];
const finalState = (text: string, dialect = atZero) => {
  const program = readProgram(text, dialect);
  return program.stateAfter(program.lineCount - 1);
};

describe('§3.3 white space means nothing, in an expression too', () => {
  test.each([
    ['#1=1 5\nG0 X#1', ['1:4 space-in-number']],
    ['G0 X[1 2 + 3]', ['1:6 space-in-number']],
    ['G0 X[12 + 3]', []],
    ['G0 X[ - 3 ]', []],
  ])('%s', (text, expected) => expect(marks(text, atZero)).toEqual(expected));
});

describe('§3.3.2.4 functions', () => {
  test.each(['90', '-90', '270', '450'])('a right angle has no tangent: %s', (angle) => expect(marks(`G0 X TAN[${angle}]`, atZero)).toEqual(['1:6 expression-value']));
  test.each(['89', '180', '0'])('but %s has', (angle) => expect(marks(`G0 X TAN[${angle}]`, atZero)).toEqual([]));
});

describe('§3.3.4, §3.3.5 comments', () => {
  test.each([
    ['(a\u0001b)', ['1:3 character']],
    ['G0 X1 (a\u007fb)', ['1:9 character']],
    ['(a\tb)', []],
    ['(100 % OF IT)', ['1:6 comment-percent']],
    ['G0 X1 (A % B % C)', ['1:10 comment-percent']],
    ['(Größe)', []],
  ])('what stands in one: %j', (text, expected) => expect(marks(text, atZero)).toEqual(expected));

  test.each([
    ['(MSG, HELLO)', 'Message'], ['( m s g , hello)', 'Message'], ['(MSG HELLO)', 'Comment'], ['(A MSG, HELLO)', 'Comment'], [';MSG, HELLO', 'Comment'],
  ])('%s', (text, title) => {
    const [item] = scanLine(text);
    expect(meaningOf(item!, readProgram(text).stateBefore(0), openStandardDialect).title).toBe(title);
  });
});

describe('§3.5.19 F of inverse time feed is of its own line', () => {
  test('a line without one has no time', () => {
    expect(moves('G93 G1 X10 F2\nX20').map(({ seconds }) => seconds)).toEqual([30, undefined]);
  });

  test('the F from before counts again in another feed mode', () => {
    expect(moves('G1 X10 F100\nG93 X20 F2\nG94 X30').map(({ feed, seconds }) => [feed, seconds])).toEqual([[100, 6], [2, 30], [100, 6]]);
  });

  test('where there was none, there is none afterwards', () => {
    expect(marks('G93 G1 X10 F2\nG94 X20', atZero)).toEqual(['2:5 feed-missing']);
  });

  test('with G93 again on a line nothing is lost', () => {
    expect(moves('G1 X10 F100\nG93 X20 F2\nG93 X30 F4\nG94 X40').map(({ feed }) => feed)).toEqual([100, 2, 4, 100]);
  });

  test('and at the end of the program, which puts G94 back and leaves F (§3.6.1)', () => {
    expect(finalState('G1 X10 F100\nG93 X20 F2\nM2')).toMatchObject({ feedMode: 'perMinute', feed: 100 });
  });
});

describe('F of the other feed mode (own rule: what is not settled is not guessed)', () => {
  test.each([
    ['M3 S100 G95 F0.2\nG94 G1 X10', ['2:8 feed-other-mode']],
    ['G94 F200\nG95 M3 S100 G1 X10\nX20', ['2:16 feed-other-mode']],
    ['G94 F200\nG95 M3 S100 G98 G81 X1 Z-1 R1', ['2:17 feed-other-mode']],
    ['G94 F200\nG95 M3 S100 G1 X10 F0.2\nX20', []],
    ['G94 F200\nG95\nG94 G1 X10', []],
    ['G94 F200\nG93 G1 X10 F2\nG94 X20', []],
    ['G94 F200\nG93 G1 X10 F2\nG95 M3 S100 X20', ['3:13 feed-other-mode']],
    ['G94 F200\nG95\nG93 G1 X10 F2', []],
    ['G94 F200\nG95\nG0 X10', []],
  ])('%s', (text, expected) => expect(marks(text, atZero)).toEqual(expected));

  test('and no time is made of it', () => {
    expect(moves('G94 F200\nG95 M3 S100 G1 X10\nX20\nX30 F0.1').map(({ feed, seconds }) => [feed, seconds])).toEqual([[undefined, undefined], [undefined, undefined], [0.1, 60]]);
  });

  test('a subprogram does not know what its caller gave', () => {
    expect(marks('G94 F200\nM30\nO7\nM3 S100 G95 G1 X10', atZero)).toEqual([]);
  });
});

describe('§3.5.16 fixed cycles', () => {
  test('a feed that was never given is missed, and no time is made of it', () => {
    expect(marks('G98 G81 X1 Z-1 R1', atZero)).toEqual(['1:5 feed-missing']);
    expect(moves('G98 G81 X1 Z-1 R1').filter(({ kind }) => kind === 'feed').map(({ seconds }) => seconds)).toEqual([undefined]);
  });

  test('it is missed once', () => expect(marks('G98 G81 X1 Z-1 R1\nX2', atZero)).toEqual(['1:5 feed-missing']));

  test('a feed per revolution needs something that turns (derived)', () => {
    expect(marks('G95 G98 G81 X1 Z-1 R1 F0.1', atZero)).toEqual(['1:9 feed-without-spindle']);
    expect(marks('G95 M3 S100 G98 G81 X1 Z-1 R1 F0.1', atZero)).toEqual([]);
  });

  test('the error is rotary motion: a word for where the axis stands is none', () => {
    expect(marks('G98 G81 X1 Z-1 R1 F1 A0', standingAt({ X: 0, Y: 0, Z: 0, A: 0 }))).toEqual([]);
    expect(marks('G98 G81 X1 Z-1 R1 F1 A90', standingAt({ X: 0, Y: 0, Z: 0, A: 90 }))).toEqual([]);
    expect(marks('G98 G91 G81 X1 Z-1 R1 F1 A90', standingAt({ X: 0, Y: 0, Z: 0, A: 90 }))).toEqual(['1:9 cycle-words']);
    expect(marks('G98 G81 X1 Z-1 R1 F1 A90', openStandardDialect)).toEqual(['1:5 cycle-words']);
  });

  const driven = standingAt({ X: 0, Y: 0, Z: 0 }, {
    patterns: [
      { name: 'drivenStart', words: [{ letter: 'M', value: 203 }, { letter: 'S', slot: 'rpm' }] },
      { name: 'drivenReverse', words: [{ letter: 'M', value: 204 }, { letter: 'S', slot: 'rpm' }] },
    ],
  });

  test.each([
    ['M203 S500 G98 G84 X1 Z-1 R1 F500', []],
    ['M204 S500 G98 G84 X1 Z-1 R1 F1', ['1:15 cycle-spindle']],
    ['M3 M204 S500 G98 G84 X1 Z-1 R1 F1', ['1:18 cycle-spindle']],
    ['M203 S500 G98 G86 X1 Z-1 R1 P1 F1', []],
  ])('the spindle that holds the tool is the driven one where it runs: %s', (text, expected) => {
    expect(marks(text, driven)).toEqual(expected);
  });

  test('I of G87 is a radius as with arcs, so the tool stands aside by it (derived)', () => {
    const lathe = standingAt({ X: 10, Y: 0, Z: 5 }, { diameterProgramming: true });
    expect(ends('M3 S1 G98 G87 X10 Z-3 R1 I0.5 J0 K-1 F1', lathe)).toContain('rapid 11,0,1');
  });
});

describe('§3.5.3.2 the tolerance of an arc', () => {
  test('0.002 mm pass, whatever the rounding of doubles adds', () => {
    expect(marks('G2 X10 I5.001 F1', atZero)).toEqual([]);
    expect(marks('G2 X10 I5.0011 F1', atZero)).toEqual(['1:4 arc-radius']);
  });
});

describe('§3.5.1, §3.5.2 a motion code needs an axis word, whatever else is on its line', () => {
  test.each([
    ['G0 G28', ['1:1 motion-without-axis']],
    ['G4 P1 G1', ['1:7 motion-without-axis']],
    ['G4 P1 G1 X1 F1', []],
    ['G80 G28', []],
  ])('%s', (text, expected) => expect(marks(text, atZero)).toEqual(expected));
});

describe('§3.5.12 G53', () => {
  test('at feed it needs a feed like any move', () => {
    expect(marks('G1 G53 X1', atZero)).toEqual(['1:8 feed-missing']);
    expect(marks('G0 G53 X1', atZero)).toEqual([]);
    expect(marks('G93 G1 G53 X1', atZero)).toEqual(['1:12 feed-missing']);
  });
});

describe('§3.5.9 G38.2', () => {
  test('without an axis word', () => expect(marks('G38.2 F1', atZero)).toEqual(['1:1 probe']));
  test('with tool radius compensation (App. B.5)', () => expect(marks('G41 D1 G1 X9 F1\nG38.2 X1', atZero)).toContain('2:7 compensation-on'));

  test('the result is where the report puts it, so what the program put there is gone (§3.2.1)', () => {
    expect(marks('#5061=3 #5067=4\nG38.2 X10 F1\nG0 X#5061 Y#5067', atZero)).toEqual(['3:5 parameter-unset']);
  });
});

describe('§3.5.10, App. B.5 with tool radius compensation', () => {
  test.each(['G92.1', 'G92.2', 'G92.3'])('%s must not come', (code) => {
    expect(marks(`G41 D1 G1 X1 F1\n${code}`, standingAt(atZero.start?.position, { toolDiameters: new Map([[1, 0.1]]) }))).toEqual(['2:1 compensation-on']);
  });

  test('the plane must not change; the word of the plane in force changes nothing', () => {
    const lathe = standingAt(atZero.start?.position, { toolDiameters: new Map([[1, 0.1]]) });
    expect(marks('G18 G41 D1 G1 X1 F1\nG18 X2', lathe)).toEqual([]);
    expect(marks('G18 G41 D1 G1 X1 F1\nG17 X2', lathe)).toContain('2:1 compensation-on');
  });
});

describe('table 3: the uses of letters', () => {
  test.each([
    ['G1 X1 R2 F1', ['1:7 word-idle']],
    ['G0 X1 I2', ['1:7 word-idle']],
    ['G1 X1e3 F1', ['1:6 word-idle']],
    ['P1', ['1:1 word-idle']],
    ['G4 P1', []],
    ['G4 P1 Q2', ['1:7 word-idle']],
    ['G10 L2 P1 X0', []],
    ['G10 L2 P1 X0 R1', ['1:14 word-idle']],
    ['G28 X0 P2', ['1:8 word-idle']],
    ['G98 G81 X1 Z-1 R1 F1\nL3', ['2:1 word-idle']],
    ['G98 G81 X1 Z-1 R1 F1 L3', []],
    ['G98 G83 X1 Z-1 R1 Q1 F1', []],
    ['G98 G81 X1 Z-1 R1 F1 I2', ['1:22 word-idle']],
    ['M3 G33 Z-1 K1', []],
    ['M3 G33 Z-1 K1 P2', ['1:15 word-idle']],
    ['G2 X10 I5 K5 F1', ['1:11 word-idle']],
    ['G64 P0.1', ['1:5 word-idle']],
  ])('a word that nothing on its line uses: %s', (text, expected) => expect(marks(text, atZero)).toEqual(expected));

  test.each(['G65 P1 Q2', 'M98 P10', 'M19 R90', 'G8 P1', 'M31 P1', 'G1 X1 F1 <syncOn> P1', 'X1 R2'])('beside an open code it may be used: %s', (text) => {
    expect(marks(text, atZero).filter((mark) => mark.endsWith('word-idle'))).toEqual([]);
  });

  test('an axis of the machine is never idle', () => {
    expect(marks('G0 H5 R3', standingAt({ X: 0, Z: 0, C: 0 }, { incrementalAxes: { H: 'C', R: 'Z' } }))).toEqual([]);
  });

  test.each([
    ['H5', ['1:1 word-unused']],
    ['G49 H1', ['1:5 word-unused']],
    ['G43 H1\nG0 X1 H2', ['2:7 word-unused']],
    ['G43 H1', []],
    ['G65 H1', ['1:1 unknown-code']],
  ])('H is of G43: %s', (text, expected) => expect(marks(text, atZero)).toEqual(expected));
});

describe('axis words beside a G code that nobody explains (own rule: nothing is guessed)', () => {
  const lathe = standingAt({ X: 50, Z: 0 }, { incrementalAxes: { U: 'X' }, meanings: { G171: 'Roughing' } });

  test.each(['G0\nG999 X2', 'G1 F1\nG171 U2', 'G999 X2'])('%s: no move is made of them, and the axes may be anywhere', (text) => {
    expect(moves(text, lathe).map(({ kind, end }) => [kind, end.X])).toEqual([['unknown', undefined]]);
    expect([finalState(text, lathe).position.X, finalState(text, lathe).position.Z]).toEqual([undefined, undefined]);
    expect(marks(text, lathe).filter((mark) => mark.endsWith('not-computed'))).toHaveLength(1);
  });

  test('beside a motion code they are of that', () => {
    expect(onlyMove('G0 G999 X2', lathe)).toMatchObject({ kind: 'rapid', end: { X: 2 } });
  });
});

describe('codes of which tables differ (tables of GOST 20999, JB 3208, EIA RS-274-D; DIN 66025 and ISO 1056 from memory)', () => {
  const explained = (text: string) => meaningOf(scanLine(text)[0]!, readProgram(text).stateBefore(0), openStandardDialect);

  test.each([['G68', /inside corner/], ['G69', /outside corner/], ['G72', /three-dimensional/], ['G74', /DIN 66025 \(from memory\)/], ['G75', /several quadrants/]])('%s says both, and sets nothing', (text, detail) => {
    expect(explained(text)).toMatchObject({ title: expect.stringMatching(/^Unassigned, or /) as string, detail: expect.stringMatching(detail) as string });
    expect(marks(text)).toEqual(['1:1 unknown-code']);
  });

  test('one that none of them has is unassigned', () => expect(explained('G76').title).toBe('Unassigned'));
});

describe('§3.5.3 an arc needs an axis word of its plane', () => {
  test.each([
    ['G2 I5 F1', ['1:4 arc-words']],
    ['G2 X0 I5 F1\nI3', ['2:1 arc-words']],
    ['G2 R5 F1', ['1:4 arc-words']],
    ['G18 G2 J5 F1', ['1:5 motion-without-axis']],
  ])('%s', (text, expected) => expect(marks(text, atZero)).toEqual(expected));
});

describe('§3.6.1 the end of a program', () => {
  test('the machine\'s own plane and feed mode come back where it has others (derived)', () => {
    const lathe = standingAt({}, { start: { plane: 18, feedMode: 'perRevolution' } });
    expect(finalState('G19 G94\nM30', lathe)).toMatchObject({ plane: 18, feedMode: 'perRevolution' });
    expect(finalState('G19 G93\nM30')).toMatchObject({ plane: 17, feedMode: 'perMinute' });
  });
});

describe('threads (ISO 6983-1, from memory)', () => {
  test('E is a lead as F is', () => expect(onlyMove('M3 S100 G33 Z-10 E2').seconds).toBe(3));
  test('nothing turns', () => expect(marks('G33 Z-10 K1', atZero)).toEqual(['1:1 feed-without-spindle']));
});

describe('the speed limit (ISO 6983 G96, from memory)', () => {
  test('holds under constant cutting speed, and says nothing of S in rev/min', () => {
    const lathe = standingAt({ X: 20, Z: 0 }, { diameterProgramming: true, patterns: [{ name: 'speedLimit', words: [{ letter: 'G', value: 126 }, { letter: 'S', slot: 'rpm' }] }] });
    const rpm = (text: string) => moves(text, lathe).map(({ spindle }) => spindle.startRpm);
    expect(rpm('G126 S3000\nG97 S5000 M3 F1\nG1 Z-1')).toEqual([5000]);
    expect(rpm('G126 S3000\nG96 S200 M3 F1\nG1 Z-1')).toEqual([3000]);
  });
});

describe('S of the other speed mode (own rule: what is not settled is not guessed)', () => {
  test.each([
    ['G96 S200 M3\nG97', ['2:1 speed-other-mode']],
    ['S1000 M3\nG96', ['2:1 speed-other-mode']],
    ['G96 S200\nG97 M3', ['2:1 speed-other-mode']],
    ['G96 S200 M3\nG97 S1000', []],
    ['G96 S200 M3\nG97 M5', []],
    ['G96 S200 M3\nG96', []],
    ['G96 S200\nG97', []],
    ['G96 M3\nS200', []],
  ])('%s', (text, expected) => expect(marks(text, atZero)).toEqual(expected));

  test('and the speed is not known until S comes', () => {
    expect([finalState('G96 S200 M3\nG97').speed, finalState('G96 S200 M3\nG97\nS500').speed]).toEqual([undefined, 500]);
  });
});

describe('words of the machine card (own rule)', () => {
  const limited = { ...openStandardDialect, patterns: [{ name: 'speedLimit', words: [{ letter: 'G', value: 126 }, { letter: 'S', slot: 'rpm' }] }] };

  test.each(['G96 S200 G126 S3000', 'G126 S3000 G96 S200', 'S200 G96 G126 S3000'])('a slot takes the word nearest behind its code: %s', (text) => {
    expect(finalState(text, limited)).toMatchObject({ speed: 200, speedLimit: 3000 });
  });

  test('or the one before it where none stands behind', () => {
    expect(finalState('S3000 G126', limited).speedLimit).toBe(3000);
  });
});
