/** What a block says of the modes that the program has set before it. */
import { describe, expect, it } from 'vitest';
import { checkProgram } from '../../../server/src/assist/check.ts';
import type { MachineCard } from '../../../server/src/machine/card.ts';
import { dialectOf } from '../../../server/src/machine/dialect.ts';
import { engraving } from '../../../server/src/process/engraving.ts';
import { handover } from '../../../server/src/process/handover.ts';
import { hobbing } from '../../../server/src/process/hobbing.ts';
import { keyway } from '../../../server/src/process/keyway.ts';
import { composeText } from '../../../server/src/process/layout.ts';
import type { Problem, Process } from '../../../server/src/process/process.ts';
import { settingAt } from '../../../server/src/process/program-notes.ts';
import { slotting } from '../../../server/src/process/slotting.ts';
import { readProgram } from '../../../server/src/program/index.ts';
import { values } from './figures.ts';
import { subCard } from './sub-spindle.ts';

const cardOfTests: MachineCard = { ...subCard, codes: { ...subCard.codes, inverseTime: 'G93' } };

const onTheWorkAxis: readonly (readonly [string, Process, string])[] = [
  ['hobbing', hobbing, 'MODULE=2 TEETH=32 HELIX=15 FACE=20 HOB-DIA=63 SPEED=60 FEED=1.5'],
  ['keyway', keyway, 'BORE=30 LENGTH=25 RPM=500 FEED=0.05'],
  ['static keyway', keyway, 'BORE=30 LENGTH=25 METHOD=STATIC SPEED=8 FEED=0.05'],
  ['slotting', slotting, 'SHAPE=HEXAGON BORE=10 ACROSS-FLATS=10 LENGTH=12 RPM=600 FEED=.04'],
  ['engraving', engraving, 'TEXT=L SURFACE=FACE AT-X=40 HEIGHT=5 DEPTH=.1 TIP-DIA=.1 TIP-ANGLE=60 FLUTES=1 RPM=5000 CHIP-LOAD=.003'],
];
const coupling = ['handover', handover, 'RPM=300 GRIP-Z=-400 RETRACT-Z=0 OVERLAP=10 FEED=200'] as const;

/** The block as it would go in behind these lines. */
function behind(before: readonly string[], process: Process, text: string, card = cardOfTests): { blocks: string[]; problems: Problem[]; lines: string[] } {
  const program = readProgram(before.join('\n'), dialectOf(card));
  const { lines, problems } = composeText(process, values(text), settingAt(program.stateBefore(before.length), card), { comment: 'parentheses', maxLineLength: 80 });
  return { lines, problems, blocks: lines.filter((line) => !line.startsWith('(')) };
}

const start = ['G21 G18 G90 G40 G94'];
const safe = [...start, 'G97 S500 M03', 'M05'];

describe.each(onTheWorkAxis)('%s', (_name, process, text) => {
  it('has nothing to say where the program is ready for it', () => expect(behind(safe, process, text).problems).toEqual([]));

  it.each([['G41 D1', 'G41'], ['G42 D1', 'G42']])('%s in force is an error that names its line, and there is no block [ISO 6983-1]', (block, word) => {
    const { lines, problems } = behind([...safe, block, 'G01 X40. Z5. F100'], process, text);
    expect(lines).toEqual([]);
    expect(problems).toEqual([{ rule: 'compensation-in-force', severity: 'error', message: expect.stringContaining(`${word} of line 4 is in force`) as string }]);
  });

  it.each(['M03', 'M04'])('a spindle that turns by %s is an error that names its line', (word) => {
    const { lines, problems } = behind([...start, `G97 S500 ${word}`, 'G00 X100.'], process, text);
    expect(lines).toEqual([]);
    expect(problems).toEqual([{ rule: 'spindle-turning', severity: 'error', message: expect.stringContaining(`${word} of line 2 is in force`) as string }]);
  });

  it('coupled spindles that turn are an error', () => {
    const { lines, problems } = behind([...safe, 'M940 S300 C0.'], process, text);
    expect(lines).toEqual([]);
    expect(problems).toEqual([{ rule: 'spindle-turning', severity: 'error', message: 'M940 is in force: both spindles are coupled and turn, and the block would take one of them as the work axis. M941 must stand before it.' }]);
  });

  it('spindles that turned while they were coupled turn on when they are uncoupled, until they are stopped', () => {
    const turning = [{ rule: 'spindle-turning', severity: 'error', message: 'M941 ended the coupling and stopped nothing: the main spindle turned until then, and the block would take it as the work axis. M05 must stand before it.' }];
    const coupled = [...safe, 'M940 S300 C0.', 'G04 P1.'];
    const uncoupled = [...coupled, 'M941', 'G00 X200. Z100.'];
    expect(behind(uncoupled, process, text)).toMatchObject({ lines: [], problems: turning });
    expect(behind([...uncoupled, 'M05'], process, text).problems).toEqual([]);
    expect(behind([...coupled, 'M05', 'M941'], process, text).problems).toEqual([]);
    expect(behind([...uncoupled, 'M881', 'M882'], process, text).problems).toEqual([]);
  });

  it('and no matter where they stood, or where nothing was coupled', () => {
    expect(behind([...safe, 'M940 S0 C0.', 'M941'], process, text).problems).toEqual([]);
    expect(behind([...safe, 'M941'], process, text).problems).toEqual([]);
  });

  it('a spindle that is started again behind the coupling is said by its own word', () => {
    expect(behind([...safe, 'M940 S300 C0.', 'M941', 'S500 M03'], process, text).problems).toEqual([expect.objectContaining({ message: expect.stringContaining('M03 of line 6 is in force') as string })]);
  });

  it('a spindle that is the work axis already does not turn', () => {
    expect(behind([...start, 'G97 S500 M03', 'M881'], process, text).problems).toEqual([]);
  });

  it('constant surface speed is a warning that names its line, and the block is there [ISO 6983-1]', () => {
    const { blocks, problems } = behind([...start, 'G96 S200 M03', 'M05'], process, text);
    expect(problems).toEqual([{ rule: 'surface-speed-in-force', severity: 'warning', message: expect.stringContaining('G96 of line 2 is in force') as string }]);
    expect(blocks.length).toBeGreaterThan(5);
  });

  it('inverse time is put back behind the block', () => {
    expect(behind([...safe, 'G93'], process, text).blocks.at(-1)).toBe('G93');
    expect(behind([...safe, 'G91 G93'], process, text).blocks.slice(-2)).toEqual(['G93', 'G91']);
    expect(behind(safe, process, text).blocks).not.toContain('G93');
  });

  it('says nothing of a program where there is none', () => expect(process.compose(values(text), { units: 'mm', card: cardOfTests }).problems).toEqual([]));

  it('and the check of a program with the block says the same', () => {
    const block = behind(safe, process, text).lines;
    const rulesOf = (before: readonly string[]) => checkProgram(readProgram([...before, ...block, 'M30'].join('\n'), dialectOf(cardOfTests)), cardOfTests).filter(({ rule }) => rule === 'spindle-turning');
    expect(rulesOf(safe)).toEqual([]);
    expect(rulesOf([...start, 'G97 S500 M03'])).toMatchObject([{ line: 2, start: 1, severity: 'error' }]);
  });
});

describe.each(onTheWorkAxis)('%s in the sub-spindle', (_name, process, text) => {
  const onSub = `${text.replace('HELIX=15 ', '')} SPINDLE=SUB`;
  const withStart: MachineCard = { ...cardOfTests, codes: { ...cardOfTests.codes, subStart: ['M97', 'M68 S{rpm}'], subReverse: 'M69 S{rpm}', subStop: 'M70' } };
  const rules = (before: readonly string[], card: MachineCard): unknown[] => behind(before, process, onSub, card).problems.filter(({ rule }) => rule === 'spindle-turning').map(({ message }) => message);

  it('may go in while the main spindle turns, where the card has a word of its own for the sub-spindle', () => {
    expect(rules([...start, 'G97 S500 M03'], withStart)).toEqual([]);
    expect(behind([...start, 'G97 S500 M03'], process, onSub, withStart).blocks.length).toBeGreaterThan(5);
  });

  it('may not where it has none: nothing settles which spindle M03 turns', () => expect(rules([...start, 'G97 S500 M03'], cardOfTests)).toEqual([expect.stringContaining('M03 of line 2 is in force')]));

  it('may not while the sub-spindle turns', () => {
    expect(rules([...start, 'M68 S500', 'G00 X100.'], withStart)).toEqual([expect.stringMatching(/^M97 of line 2 is in force.* M70 must stand before it/)]);
    expect(rules([...start, 'M69 S500'], withStart)).toEqual([expect.stringMatching(/^M69 of line 2/)]);
    expect(rules([...start, 'M68 S500', 'M70'], withStart)).toEqual([]);
  });

  it('may not behind a coupling that turned it, until it is stopped or taken as an axis', () => {
    const uncoupled = [...safe, 'M940 S300 C0.', 'M941'];
    const turning = [expect.stringMatching(/^M941 ended the coupling and stopped nothing: the sub-spindle turned.* M70 must stand before it/) as string];
    expect(rules(uncoupled, withStart)).toEqual(turning);
    expect(rules([...uncoupled, 'M05'], withStart)).toEqual(turning);
    expect(rules([...uncoupled, 'M70'], withStart)).toEqual([]);
    expect(rules([...uncoupled, 'M981', 'M980'], withStart)).toEqual([]);
  });

  it('whose speed the coupling does not say turns where one of both did', () => {
    const unsaid: MachineCard = { ...withStart, codes: { ...withStart.codes, spindleSyncOn: 'M940 C{angle}' } };
    const turning = [expect.stringMatching(/^M941 ended/) as string];
    expect(rules([...safe, 'M940 C0.', 'M941'], unsaid)).toEqual([]);
    expect(rules([...start, 'M68 S500', 'M940 C0.', 'M70', 'M941'], unsaid)).toEqual([]);
    expect(rules([...start, 'S500 M03', 'M940 C0.', 'M05', 'M941'], unsaid)).toEqual(turning);
    expect(rules([...safe, 'M940 C0.', 'S500 M03', 'M941', 'M05'], unsaid)).toEqual(turning);
  });

  it('is stopped by M05 where the card has no word of its own for it', () => {
    expect(rules([...safe, 'M940 S300 C0.', 'M941'], cardOfTests)).toEqual([expect.stringMatching(/^M941 ended.* M05 must stand before it/)]);
    expect(rules([...safe, 'M940 S300 C0.', 'M941', 'M05'], cardOfTests)).toEqual([]);
  });

  it('and a turning sub-spindle is no matter before a block on the main spindle', () => expect(behind([...safe, 'M68 S500'], process, text, withStart).problems).toEqual([]));
});

describe('a hand-over', () => {
  const [, process, text] = coupling;

  it('takes a turning spindle along, and gives inverse time back', () => {
    expect(behind([...start, 'G97 S500 M03'], process, text).problems).toEqual([]);
    expect(behind([...safe, 'G93'], process, text).blocks.at(-1)).toBe('G93');
  });

  it('stops both spindles: a keyway in the sub-spindle right behind it stands, and is refused where the stop is taken out', () => {
    const block = behind(safe, process, text).lines;
    const onSub = 'BORE=30 LENGTH=25 RPM=500 FEED=0.05 SPINDLE=SUB';
    const rules = (before: readonly string[]) => behind(before, keyway, onSub).problems.map(({ rule }) => rule);
    expect(rules([...safe, ...block])).toEqual([]);
    expect(rules([...safe, ...block.filter((line) => line !== 'M05')])).toEqual(['spindle-turning']);
  });

  it.each([['G41 D1', 'compensation-in-force', 'error'], ['G96 S100 M03', 'surface-speed-in-force', 'warning']])('%s is a problem there too', (block, rule, severity) => {
    expect(behind([...safe, block], process, text).problems).toMatchObject([{ rule, severity }]);
  });
});

describe('{tool} and {offset} of a template', () => {
  const keywayText = 'BORE=30 LENGTH=25 RPM=500 FEED=0.05';
  const own: MachineCard = { ...cardOfTests, toolOffsetDigits: 2, codes: { ...cardOfTests.codes, drivenStart: 'M883 S{rpm} D{tool} H{offset}' } };

  it('are those of the T word in force', () => expect(behind([...safe, 'T1203'], keyway, keywayText, own).blocks).toContain('M883 S500 D12 H03'));

  it('are holes where no T word stands before the block', () => {
    const { blocks, problems } = behind(safe, keyway, keywayText, own);
    expect(blocks).toContain('M883 S500 D<tool> H<offset>');
    expect(problems).toMatchObject([{ rule: 'hole', severity: 'error' }]);
  });

  it('and so is the offset where the card does not say that T words hold it', () => {
    expect(behind([...safe, 'T1203'], keyway, keywayText, { ...own, toolOffsetDigits: 0 }).blocks).toContain('M883 S500 D1203 H<offset>');
  });
});
