/** The command line prints a block and the subprogram that it calls as they would stand in a file, and reads both. */
import { describe, expect, it } from 'vitest';
import { callingCard } from '../process/subprogram-cards.ts';
import { run, runForJson, temporaryFiles } from './command-line.ts';

const { file } = temporaryFiles();
const cardFile = file('calling.machine.json', JSON.stringify(callingCard));
const words = ['keyway', 'BORE=30', 'LENGTH=25', 'METHOD=STATIC', 'SPEED=8', 'FEED=0.05'];

describe('compose', () => {
  it('prints both, the subprogram where it goes', () => {
    const { stdout, code } = run('compose', ...words, '--card', cardFile);
    expect(code).toBe(0);
    expect(stdout).toMatch(/ PROGRAM=8000\)\n/);
    expect(stdout).toMatch(/\nN\d+ M898 P8000 L76\n/);
    expect(stdout).toMatch(/\n\(END KEYWAY\)\n\n\(BEHIND THE END OF THE PROGRAM:\)\nO8000\n\(ONE STROKE OF THE KEYWAY BLOCK WITH PROGRAM=8000\)\nG00 U1\.1\n(.*\n){3}M899\n$/);
  });

  it('gives both as data, and no subprogram where there is none', () => {
    const both = runForJson('compose', ...words, '--card', cardFile) as Record<string, string>;
    expect(both['text']).toMatch(/^\(KEYWAY:[^]*\(END KEYWAY\)\n$/);
    expect(both['subprogram']).toMatch(/^O8000\n[^]*M899\n$/);
    expect(runForJson('compose', ...words, 'PROGRAM=0', '--card', cardFile)).not.toHaveProperty('subprogram');
  });
});

describe('a file with both', () => {
  const { text, subprogram } = runForJson('compose', ...words, '--card', cardFile) as { text: string; subprogram: string };
  const whole = file('whole.nc', ['G21 G90 G94 G18', 'G00 X400. Z50.', text, 'G00 Z50.', 'M30', subprogram].join('\n'));

  it('is checked without a finding, and its call makes the moves of 79 strokes', () => {
    expect(run('check', whole, '--card', cardFile)).toMatchObject({ code: 0, stdout: '' });
    const { moves } = runForJson('moves', whole, '--card', cardFile) as { moves: { kind: string; secondary?: boolean }[] };
    expect(moves.filter(({ kind, secondary }) => kind === 'feed' && secondary === undefined)).toHaveLength(79);
  });

  it('is proved', () => expect(run('prove', whole, '--card', cardFile)).toMatchObject({ code: 0, stderr: '' }));
});
