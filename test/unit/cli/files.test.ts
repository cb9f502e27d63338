import { describe, expect, it } from 'vitest';
import { inventedCardFile, inventedCardText } from '../../invented-machine.ts';
import { expectRefused, run, runForJson, temporaryFiles } from './command-line.ts';

const { file, folder } = temporaryFiles();
const block = [
  'G21 G90 G94',
  '(HOBBING: MODULE=2 TEETH=32 FACE=20 HOB-DIA=63 SPEED=60 FEED=1.5)',
  'M883 S303',
  '(END HOBBING)',
  'G00 X10. Z0.',
  'G01 X20. F100.',
  'M30',
].join('\n');
const good = file('good.nc', block);
const faulty = file('faulty.nc', block.replace('TEETH=32', 'TEETH=0'));
const quiet = file('quiet.nc', 'G21 G90 G94\nG00 X10. Z0.\nG01 X20. F100.\nM30\n');
const missing = `${folder}/none.nc`;

describe('--skip', () => {
  const skipping = file('skipping.nc', 'G00 X0. Z0.\n/ G00 X50. (\nG00 X20.\nM30\n');

  it('leaves lines out that open with a slash', () => {
    const ends = (words: string[]) => (runForJson('moves', skipping, ...words) as { moves: { end: { X: number } }[] }).moves.map(({ end }) => end.X);
    expect(ends([])).toEqual([0, 50, 20]);
    expect(ends(['--skip'])).toEqual([0, 20]);
  });

  it('checks them all the same (NISTIR 6556 §2.2.2)', () => {
    expect(run('check', skipping, '--skip').stdout).toContain(':2:12 error comment-open');
  });
});

describe('explain', () => {
  it('prints what a hover shows, as { word, meaning, quantities }', () => {
    const found = runForJson('explain', good, '3', '7', '--card', inventedCardFile) as { word: string; meaning: string; quantities: { id: string; value: number }[] };
    expect(Object.keys(found)).toEqual(['word', 'meaning', 'quantities']);
    expect(found.word).toBe('S303');
    expect(found.quantities.slice(0, 3).map(({ id }) => id)).toEqual(['syncRatio', 'workRpm', 'cuttingSpeed']);
    expect(found.quantities[0]?.value).toBe(1 / 32);
  });

  it('counts lines and columns from 1', () => {
    expect(runForJson('explain', good, '1', '1')).toMatchObject({ word: 'G21' });
    expect(runForJson('explain', good, '7', '1')).toMatchObject({ word: 'M30' });
  });

  it('prints text for people', () => {
    const { code, stdout } = run('explain', good, '6', '10');
    expect(code).toBe(0);
    expect(stdout).toMatch(/^F100\.: Feed per minute\. /);
  });

  it('says when nothing stands there', () => {
    expect(run('explain', good, '1', '9999').code).toBe(2);
    expect(runForJson('explain', file('blank.nc', 'G21\n\nM30\n'), '2', '1')).toEqual({ word: '', meaning: '', quantities: [] });
  });

  it.each<[string, string[], string | RegExp]>([
    ['too few words', ['explain', good, '1'], 'explain needs FILE LINE COLUMN'],
    ['too many words', ['explain', good, '1', '1', '1'], 'explain needs FILE LINE COLUMN'],
    ['a line that is none', ['explain', good, 'x', '1'], 'LINE: x is not allowed: it must be a whole number from 1 to 7'],
    ['a line beyond the end', ['explain', good, '8', '1'], 'LINE: 8 is not allowed: it must be a whole number from 1 to 7'],
    ['column 0', ['explain', good, '1', '0'], 'COLUMN: 0 is not allowed: it must be a whole number from 1 to 12'],
    ['a file that is not there', ['explain', missing, '1', '1'], `${missing} cannot be read: ENOENT`],
    ['a folder', ['explain', folder, '1', '1'], `${folder} cannot be read: EISDIR`],
  ])('refuses %s', (_name, words, message) => expectRefused(words, message));
});

describe('check', () => {
  it('prints nothing and exits with 0 where nothing is wrong', () => {
    expect(run('check', quiet)).toEqual({ code: 0, stdout: '', stderr: '' });
  });

  it('prints FILE:LINE:COL severity rule message and exits with 1 on an error', () => {
    const { code, stdout, stderr } = run('check', faulty, '--card', inventedCardFile);
    expect({ code, stderr }).toEqual({ code: 1, stderr: '' });
    expect(stdout.split('\n')).toContain(`${faulty}:2:26 error bad-value TEETH: 0 is not allowed: it must be a whole number from 3 to 1000.`);
  });

  it('exits with 0 where there are only warnings', () => {
    const open = file('open.nc', 'G21\n(HOBING: TEETH=3)\nM30\n');
    const { code, stdout } = run('check', open);
    expect(code).toBe(0);
    expect(stdout).toBe(`${open}:2:2 warning note-name "HOBING" is no process; HOBBING may be meant.\n`);
  });

  it('checks several files and exits with 1 if any has an error', () => {
    const { code, stdout } = run('check', quiet, faulty);
    expect(code).toBe(1);
    expect(stdout.trimEnd().split('\n').every((line) => line.startsWith(`${faulty}:`))).toBe(true);
  });

  it('gives data with --json, and the same exit code', () => {
    const { code, stdout } = run('check', faulty, '--json');
    const findings = JSON.parse(stdout) as object[];
    expect(code).toBe(1);
    expect(findings).toContainEqual({ file: faulty, line: 2, column: 26, endColumn: 27, severity: 'error', rule: 'bad-value', message: 'TEETH: 0 is not allowed: it must be a whole number from 3 to 1000.' });
    expect(runForJson('check', quiet)).toEqual([]);
  });

  it('exits with 2 and prints nothing where one of the files cannot be read', () => {
    expectRefused(['check', faulty, missing], `${missing} cannot be read: ENOENT`);
    expectRefused(['check'], 'check needs at least one FILE');
  });

  it('passes over a byte order mark, which is no part of the text', () => {
    expect(run('check', file('marked.nc', '\ufeffG21 G90 G94\nG00 X10. Z0.\nM30\n'))).toEqual({ code: 0, stdout: '', stderr: '' });
  });

  it('answers on bytes that are no text', () => {
    const { code } = run('check', file('bytes.nc', Uint8Array.from({ length: 5000 }, (_, index) => (index * 7919) % 256)));
    expect(code).toBe(1);
  });
});

describe('moves', () => {
  it('prints every move with its line, length and time, and totals', () => {
    const { moves, totals } = runForJson('moves', quiet, '--card', inventedCardFile) as { moves: object[]; totals: object };
    expect(moves).toMatchObject([{ line: 2, kind: 'rapid' }, { line: 3, kind: 'feed', feed: 100, length: 5 }]);
    expect((moves[1] as { seconds: number }).seconds).toBeCloseTo(3, 9);
    expect(totals).toMatchObject({ moves: 2 });
  });

  it('prints a table for people, with the totals last', () => {
    const { code, stdout } = run('moves', quiet);
    expect(code).toBe(0);
    expect(stdout.trimEnd().split('\n').at(-1)).toMatch(/^total {2}2 moves/);
  });

  it('says which path is counted under tool radius compensation', () => {
    const contour = file('contour.nc', 'G21 G90 G94 G17 F60\nG00 X-5. Y-2. Z0.\nG41 D1\nG01 X0. Y0.\nG01 Y10.\nG01 X20.\nG40\nM30\n');
    const card = file('tools.machine.json', JSON.stringify({ name: 'Mill with a tool table', diameterProgramming: false, tools: { 1: { diameter: 2 } } }));
    expect(runForJson('moves', contour, '--card', card)).toMatchObject({ moves: [{}, { end: { X: -1, Y: 0 }, compensation: 'left', toolRadius: 1 }, { end: { X: -1, Y: 10 } }, { kind: 'arc', corner: true, line: 6 }, { end: { X: 20, Y: 11 } }], totals: { compensatedPath: 'toolCentre' } });
    const lines = run('moves', contour, '--card', card).stdout.trimEnd().split('\n');
    expect(lines[3]).toContain('tool left: corner of the centre of radius 1 mm');
    expect(lines.at(-1)).toMatch(/centre of the tool$/);
    expect(run('moves', contour).stdout.trimEnd()).toMatch(/no tool diameter is known$/);
    expect(run('check', contour, '--card', card).stdout).toContain('compensation-corner X0.: the next move turns to the side of the tool');
  });

  const slotted = ['G21 G18 G90 M05', 'T7', 'G00 X27.9 Z2.', 'G94', 'M881', 'M883 S900', 'G01 X36.6 F36.', 'G00 X27.9', 'T8', 'G00 X50.', 'M30'].join('\n');

  it('names operations, and what they look like without a note', () => {
    const { operations } = runForJson('moves', file('slotted.nc', slotted), '--card', inventedCardFile) as { operations: object[] };
    expect(operations).toMatchObject([
      { fromLine: 1, toLine: 1 }, { fromLine: 2, toLine: 8, tool: 7, totals: { moves: 3 }, looksLike: { kind: 'keyway', fromLine: 7, toLine: 8 } }, { fromLine: 9, toLine: 11, tool: 8 },
    ]);
    expect(operations[2]).not.toHaveProperty('looksLike');
  });

  it('has a line for each of them before the totals', () => {
    const { stdout } = run('moves', file('slotted.nc', slotted), '--card', inventedCardFile);
    const lines = stdout.trimEnd().split('\n');
    expect(lines.filter((line) => line.startsWith('operation'))).toEqual([
      'operation  lines 1 to 1  0 moves  0 s',
      expect.stringMatching(/^operation {2}lines 2 to 8 {2}tool 7 {2}looks like keyway, lines 7 to 8 {2}3 moves {2}[\d.]+ s, without 2 moves whose time is not known$/),
      expect.stringMatching(/^operation {2}lines 9 to 11 {2}tool 8 {2}1 moves/),
    ]);
    expect(lines.at(-1)).toMatch(/^total/);
  });

  it('refuses no file and two files', () => {
    expectRefused(['moves'], 'moves needs one FILE');
    expectRefused(['moves', quiet, good], 'moves needs one FILE');
  });
});

describe('the card', () => {
  it.each<[string, string, RegExp]>([
    ['a wrong key', inventedCardText.replace('"units"', '"unit"'), /bad\.machine\.json:4 "unit" is not a key of a machine card\. Allowed: name, units/],
    ['broken JSON', '{ "name": "M"\n "units": "mm" }', /bad\.machine\.json:2 The card is not valid JSON here: comma expected/],
    ['a figure out of range', '{ "name": "M", "decimals": 9 }', /bad\.machine\.json:1 decimals: 9 is not allowed: it must be at most 6/],
  ])('is refused with its line: %s', (_name, text, message) => expectRefused(['check', quiet, '--card', file('bad.machine.json', text)], message));

  it('is refused when it cannot be read', () => expectRefused(['check', quiet, '--card', `${folder}/no.machine.json`], /no\.machine\.json cannot be read: ENOENT/));
  it('may begin with a byte order mark', () => expect(run('check', quiet, '--card', file('marked.machine.json', `\ufeff${inventedCardText}`)).code).toBe(0));
  it('needs a file', () => expectRefused(['check', quiet, '--card'], /card/));
});

describe('the command line itself', () => {
  it('says its verbs and its processes when asked', () => {
    const { code, stdout, stderr } = run('--help');
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    for (const word of ['explain FILE LINE COLUMN', 'check FILE', 'compute PROCESS', 'compose PROCESS', 'moves FILE', '--card FILE', '--json', 'hobbing', 'keyway']) expect(stdout).toContain(word);
  });

  it('says the same on stderr, with exit code 2, where no verb is given', () => {
    const { code, stdout, stderr } = run();
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toContain('explain FILE LINE COLUMN');
  });

  it.each<[string, string[], RegExp]>([
    ['an unknown verb', ['mill'], /"mill" is not a verb: it must be explain, check, compute, compose, moves/],
    ['a name of every object', ['toString'], /"toString" is not a verb/],
    ['an unknown option', ['check', quiet, '--fast'], /Unknown option '--fast'/],
  ])('refuses %s', (_name, words, message) => expectRefused(words, message));
});
