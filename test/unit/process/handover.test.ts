import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { MachineCard } from '../../../server/src/machine/card.ts';
import { dialectOf } from '../../../server/src/machine/dialect.ts';
import { openStandardCard } from '../../../server/src/machine/open-standard.ts';
import { handover } from '../../../server/src/process/handover.ts';
import { driftOf } from '../../../server/src/process/drift.ts';
import { notesIn } from '../../../server/src/process/program-notes.ts';
import { solveWord } from '../../../server/src/process/solve.ts';
import { readProgram } from '../../../server/src/program/index.ts';
import { checkFigures, figureOf, metric, values } from './figures.ts';
import { composed, numberIn, plainAxes, subCard, subCodes } from './sub-spindle.ts';

const transfer = 'RPM=500 GRIP-Z=-400 RETRACT-Z=0 OVERLAP=10 FEED=300';
const bothSenses = { ...openStandardCard, senses: { workRotation: 1 }, subSpindle: { workRotation: 1 } } as const satisfies MachineCard;

describe('figures of a hand-over', () => {
  checkFigures(handover, [
    { name: 'creep over gap and overlap, then all the way back', source: 'worked out by hand from the picture', standing: 'derived', values: transfer, expected: { creepLength: [15, 9], creepStart: [-385, 9], retractLength: [400, 9], phaseAngle: [0, 9] } },
    { name: 'in over 15, out of the main chuck over 30 and the gap of 5, three pauses', source: 'worked out by hand from the picture', standing: 'derived', values: `${transfer} HELD=30`, expected: { drawOutLength: [35, 9], handOverTime: [13, 9] } },
    { name: 'all the way back at feed where nobody says what the main chuck holds', source: 'worked out by hand from the picture', standing: 'derived', values: transfer, expected: { drawOutLength: [400, 9], handOverTime: [86, 9] } },
    { name: 'a feature at 30 that shall stand at 0: facing spindles count against each other', source: 'worked out by hand from the picture', standing: 'derived', setting: { units: 'mm', card: bothSenses }, values: `${transfer} MAIN-ANGLE=30`, expected: { phaseAngle: [30, 9] } },
    { name: 'drawing the bar out takes its time and shortens the retract', source: 'worked out by hand from the picture', standing: 'derived', values: `${transfer} METHOD=CUT-OFF PULL=60 PAUSE=.5`, expected: { handOverTime: [17, 9], retractLength: [340, 9] } },
    { name: 'a retract alone', source: 'worked out by hand from the picture', standing: 'derived', values: 'METHOD=RETRACT GRIP-Z=-340 RETRACT-Z=0', expected: { retractLength: [340, 9] } },
  ]);
});

describe('the whole block', () => {
  it('that takes the part away', () => {
    expect(composed(handover, `${transfer} HELD=30 MAIN-ANGLE=30 SUB-ANGLE=90`, subCard)).toMatchObject({
      problems: [],
      lines: [
        '(HANDOVER: RPM=500 GRIP-Z=-400 RETRACT-Z=0 OVERLAP=10 FEED=300 HELD=30)', '(+ MAIN-ANGLE=30 SUB-ANGLE=90)',
        '(PROVE BY SIMULATION AND DRY RUN BEFORE CUTTING.)', '(GUARDS, LOCAL CODES AND QUALIFIED PRACTICE DECIDE.)', '(TURRET AND TOOLS CLEAR OF BOTH CHUCKS BEFORE THIS BLOCK)', '(SPINDLES COUPLED AT 500 REV/MIN, PHASE 120.0 DEG, CREEP 15.0)', '(OUT OF THE MAIN CHUCK AT FEED OVER 35.0: 30.0 OF THE PART ARE IN IT)',
        'G94', 'M930', 'G04 P1.0', 'M940 S500 C120.0', 'M950 W-385.0', 'M951 W-400.0 F300.0', 'M931', 'G04 P1.0', 'M920', 'G04 P1.0', 'M951 W-365.0 F300.0', 'M950 W0.0', 'M941', 'M05',
        '(BOTH SPINDLES MUST STAND AFTER M05: THE MACHINE CARD HAS NO OTHER STOP)',
        '(END HANDOVER)',
      ],
    });
  });

  it('that does not know how far the part reaches into the main chuck: no rapid with it at all, and the operator is told', () => {
    const { blocks, comments } = composed(handover, `${transfer} PAUSE=0`, subCard);
    expect(blocks.slice(blocks.indexOf('M920'))).toEqual(['M920', 'M951 W0.0 F300.0', 'M941', 'M05']);
    expect(comments.join(' ')).toContain('OUT OF THE MAIN CHUCK AT FEED ALL THE WAY: HELD IS NOT GIVEN');
    const nearlyAll = composed(handover, `${transfer} PAUSE=0 HELD=396`, subCard).blocks;
    expect(nearlyAll.slice(nearlyAll.indexOf('M920'))).toEqual(['M920', 'M951 W0.0 F300.0', 'M941', 'M05']);
  });

  it('that draws the bar out and holds it for cutting off, and the one that takes the part away then', () => {
    expect(composed(handover, `${transfer} METHOD=CUT-OFF PULL=60 PAUSE=0`, subCard).blocks).toEqual(['G94', 'M930', 'M940 S500 C0.0', 'M950 W-385.0', 'M951 W-400.0 F300.0', 'M931', 'M920', 'M951 W-340.0 F300.0', 'M921']);
    expect(composed(handover, 'METHOD=RETRACT GRIP-Z=-340 RETRACT-Z=0', subCard).blocks).toEqual(['M950 W0.0', 'M941', 'M05']);
  });

  it('goes to the same places where incremental dimensions are in force, and puts them back', () => {
    const blocksOf = (text: string) => handover.compose(values(text), { units: 'mm', card: subCard, modes: { incremental: true, feedPerRevolution: false } }).lines.flatMap((line) => (line.kind === 'block' ? [line.words] : []));
    expect(blocksOf('METHOD=RETRACT GRIP-Z=-340 RETRACT-Z=0')).toEqual(['G90', 'M950 W0.0', 'M941', 'M05', 'G91']);
    const whole = blocksOf(transfer);
    expect([whole[0], whole.at(-1)]).toEqual(['G90', 'G91']);
  });

  it('stops both spindles where it uncouples them, each by its own word', () => {
    const card = { ...subCard, codes: { ...subCard.codes, subStart: 'M960 S{rpm}', subStop: 'M962' } };
    const behindCoupling = (text: string) => {
      const { blocks } = composed(handover, text, card);
      return blocks.slice(blocks.indexOf('M941'));
    };
    expect(behindCoupling(transfer)).toEqual(['M941', 'M05', 'M962']);
    expect(behindCoupling('METHOD=RETRACT GRIP-Z=-340 RETRACT-Z=0')).toEqual(['M941', 'M05', 'M962']);
    expect(composed(handover, `${transfer} METHOD=CUT-OFF`, card).blocks.filter((block) => ['M941', 'M05', 'M962'].includes(block))).toEqual([]);
    expect(composed(handover, transfer, card).comments.join(' ')).toContain('BOTH SPINDLES UNCOUPLED AND STOPPED');
  });

  it('has a hole where the card starts the sub-spindle by a word of its own and does not say how to stop it', () => {
    const card = { ...subCard, codes: { ...subCard.codes, subStart: 'M960 S{rpm}' } };
    const { blocks, problems } = composed(handover, 'METHOD=RETRACT GRIP-Z=-340 RETRACT-Z=0', card);
    expect(blocks).toEqual(['M950 W0.0', 'M941', 'M05', '<subStop>']);
    expect(problems).toEqual([expect.objectContaining({ rule: 'hole', cardKey: 'codes.subStop' })]);
  });

  it('does not call the main spindle stopped where the card has M05 for something else', () => {
    const told = (more: object) => composed(handover, transfer, { ...subCard, codes: { ...subCard.codes, subStart: 'M960 S{rpm}', subStop: 'M962', ...more } }).comments.join(' ');
    expect(told({ drivenStop: 'M05' })).toContain('M05 IS FOR CODES.DRIVENSTOP BY THE MACHINE CARD: BOTH SPINDLES MUST STAND HERE');
    expect(told({ drivenStop: 'M5' })).not.toContain('UNCOUPLED AND STOPPED');
    expect([told({ drivenStop: 'M05 P2' }), told({ workAxisOn: ['M05', 'M881'] })].map((each) => each.includes('UNCOUPLED AND STOPPED'))).toEqual([true, true]);
  });

  it('leaves nothing that a block behind it would have to object to', () => {
    const card = { ...subCard, codes: { ...subCard.codes, subStart: 'M960 S{rpm}', subStop: 'M962' } };
    const { lines } = composed(handover, transfer, card);
    const state = readProgram(['G21 G90 G18 G40', ...lines].join('\n'), dialectOf(card)).stateBefore(lines.length + 1);
    expect([state.leftTurning, state.coupled, state.spindle]).toEqual([undefined, undefined, 'stopped']);
  });
});

describe('what the card does not say', () => {
  it('is a hole in its place, each named', () => {
    const { blocks, problems } = composed(handover, `${transfer} PAUSE=0 HELD=30`, openStandardCard);
    expect(blocks).toEqual(['G94', '<subChuckOpen>', '<spindleSyncOn>', '<subRapid>', '<subFeed>', '<subChuckClose>', '<mainChuckOpen>', '<subFeed>', '<subRapid>', '<spindleSyncOff>', 'M05']);
    expect(problems.map(({ rule, severity, cardKey }) => ({ rule, severity, cardKey }))).toEqual(
      ['subChuckOpen', 'spindleSyncOn', 'subRapid', 'subFeed', 'subChuckClose', 'mainChuckOpen', 'subFeed', 'subRapid', 'spindleSyncOff'].map((code) => ({ rule: 'hole', severity: 'error', cardKey: `codes.${code}` })));
  });

  it('is an error of the program engine at each hole', () => {
    const { lines } = composed(handover, transfer, openStandardCard);
    const holes = readProgram(lines.join('\n'), dialectOf(openStandardCard)).problems().filter(({ rule }) => rule === 'hole');
    expect(holes).toHaveLength(8);
  });

  it.each<[string, MachineCard, string]>([
    ['the sense of the main spindle', { ...subCard, senses: {} }, 'senses.workRotation'],
    ['the sense of the sub-spindle', { ...subCard, subSpindle: { zSense: -1 } }, 'subSpindle.workRotation'],
  ])('%s is an error where the clocking depends on it, and none where it does not', (_name, card, cardKey) => {
    const { lines, problems } = composed(handover, `${transfer} MAIN-ANGLE=30`, card);
    expect(lines).toEqual([]);
    expect(problems).toEqual([expect.objectContaining({ parameter: 'MAIN-ANGLE', cardKey, rule: 'unstated-sense', severity: 'error' })]);
    expect(composed(handover, `${transfer} SUB-ANGLE=30`, card).problems).toEqual([]);
  });

  it('a coupling without {angle}: a warning, and an error where an angle is wanted', () => {
    const card = { ...subCard, codes: { ...subCard.codes, spindleSyncOn: 'M940 S{rpm}' } };
    expect(composed(handover, transfer, card).problems).toEqual([expect.objectContaining({ rule: 'phase-not-held', severity: 'warning' })]);
    const wanted = composed(handover, `${transfer} SUB-ANGLE=30`, card);
    expect(wanted.lines).toEqual([]);
    expect(wanted.problems).toEqual([expect.objectContaining({ parameter: 'SUB-ANGLE', rule: 'bad-value', message: expect.stringMatching(/no \{angle\}: allowed is 0/) as string })]);
  });
});

describe('refusals name the parameter', () => {
  it.each<[string, string, string, RegExp]>([
    ['no speed', 'GRIP-Z=-400 RETRACT-Z=0 FEED=300', 'RPM', /METHOD=RELEASE needs it/],
    ['no feed', 'GRIP-Z=-400 RETRACT-Z=0 RPM=300', 'FEED', /METHOD=RELEASE needs it/],
    ['nowhere to retract', transfer.replace('RETRACT-Z=0', 'RETRACT-Z=-400'), 'RETRACT-Z', /at least 15 away from the grip at -400/],
    ['a pull that is not for cutting off', `${transfer} PULL=5`, 'PULL', /draws no bar out, so it must be 0/],
    ['a length in the main chuck where that lets nothing go', `${transfer} METHOD=CUT-OFF HELD=30`, 'HELD', /does not go with METHOD=CUT-OFF: leave it out/],
    ['the same when the part is off', 'METHOD=RETRACT GRIP-Z=-340 RETRACT-Z=0 HELD=30', 'HELD', /does not go with METHOD=RETRACT/],
    ['a part that is still in the main chuck at the retract place', `${transfer} HELD=401`, 'HELD', /at most 400 \(the part must be out of the chuck/],
    ['a pull beyond the retract place', `${transfer} METHOD=CUT-OFF PULL=500`, 'PULL', /at most 400/],
  ])('%s', (_name, text, parameter, message) => {
    const errors = handover.evaluate(values(text), metric).problems.filter(({ severity }) => severity === 'error');
    expect(errors).toEqual([expect.objectContaining({ parameter, message: expect.stringMatching(message) as string })]);
  });

  it.each<[string, string, string, RegExp]>([
    ['a speed that one spindle does not reach', transfer.replace('RPM=500', 'RPM=4200'), 'RPM', /at most 4000 rev\/min, which both spindles reach/],
    ['a grip place beyond the travel', transfer.replace('GRIP-Z=-400', 'GRIP-Z=-700'), 'GRIP-Z', /from -600 to 0, the travel of the sub-spindle/],
  ])('%s', (_name, text, parameter, message) => {
    const { problems } = composed(handover, text, { ...subCard, subSpindle: { ...plainAxes, travel: [-600, 0] } });
    expect(problems).toEqual([expect.objectContaining({ parameter, rule: 'machine-limit', message: expect.stringMatching(message) as string })]);
  });
});

describe('drift of the way out of the main chuck', () => {
  const raw = values(`${transfer} HELD=30`);
  const setting = { units: 'mm', card: subCard } as const;
  const { lines } = handover.compose(raw, setting);
  const blocks = lines.flatMap((line) => (line.kind === 'block' ? [line.words] : []));
  const wayOut = blocks.findIndex((words) => words.startsWith('M951 W-365'));

  it('is taken into the note as another length held', () => {
    expect(solveWord(handover, raw, setting, { block: wayOut, word: 1 }, -360)[0]).toEqual({ parameter: 'HELD', value: '35' });
  });

  it('is told word by word where an older block draws the part out in rapid', () => {
    const text = composed(handover, `${transfer} HELD=30`, subCard).lines.filter((line) => !line.startsWith('M951 W-365')).join('\n');
    const program = readProgram(text, dialectOf(subCard));
    const note = notesIn(program)[0]!;
    expect(driftOf(program, note, handover.compose(raw, setting)).drift.map(({ kind, wanted }) => `${kind} ${wanted}`)).toEqual(['omitted M951', 'omitted W-365.0', 'omitted F300.0']);
  });
});

const anyTransfer = fc.record({
  METHOD: fc.constantFrom('RELEASE', 'CUT-OFF'), RPM: fc.integer({ min: 1, max: 4000 }).map(String), 'GRIP-Z': fc.integer({ min: -500, max: 500 }).map(String), away: fc.constantFrom(-1, 1), way: fc.integer({ min: 60, max: 300 }),
  OVERLAP: fc.constantFrom('0', '12.5', '30'), FEED: fc.constantFrom('100', '500'), PAUSE: fc.constantFrom('0', '.5'), pull: fc.constantFrom('0', '25.4'), held: fc.constantFrom('', '.5', '20', '60'), 'MAIN-ANGLE': fc.integer({ min: -360, max: 360 }).map(String), 'SUB-ANGLE': fc.integer({ min: -360, max: 360 }).map(String),
}).map(({ away, way, pull, held, ...raw }): Record<string, string> => ({ ...raw, ...(raw.METHOD === 'CUT-OFF' || held === '' ? {} : { HELD: held }), 'RETRACT-Z': String(Number(raw['GRIP-Z']) + away * way), PULL: raw.METHOD === 'CUT-OFF' ? pull : '0' }));

describe('every block', () => {
  it('reads back without an error; one chuck always holds the part; nothing moves in rapid beyond the start of the creep, nor while the part is in the main chuck', () => {
    fc.assert(fc.property(anyTransfer, fc.constantFrom<1 | -1>(1, -1), fc.constantFrom<1 | -1>(1, -1), (raw, main, sub) => {
      const card: MachineCard = { ...subCard, senses: { ...subCard.senses, workRotation: main }, subSpindle: { ...plainAxes, workRotation: sub } };
      const { lines, blocks, problems } = composed(handover, Object.entries(raw).map(([name, value]) => `${name}=${value}`).join(' '), card);
      expect(problems).toEqual([]);
      const program = readProgram(['G21 G90 G18 G40', ...lines, 'M30'].join('\n'), dialectOf(card));
      expect(program.problems().filter(({ severity }) => severity === 'error')).toEqual([]);
      let [mainHolds, subHolds] = [true, false];
      for (const block of blocks) {
        if (block === subCodes.mainChuckOpen) mainHolds = false;
        if (block === subCodes.mainChuckClose) mainHolds = true;
        if (block === subCodes.subChuckOpen) subHolds = false;
        if (block === subCodes.subChuckClose) subHolds = true;
        expect(mainHolds || subHolds, block).toBe(true);
      }
      const creep = blocks.findIndex((block) => block.startsWith('M951'));
      const gap = Math.abs(numberIn(blocks[creep - 1] ?? '', 'W') - numberIn(blocks[creep] ?? '', 'W'));
      expect(gap).toBeCloseTo(Number(raw['OVERLAP']) + 5, 3);
      const [opens, grip] = [blocks.indexOf(subCodes.mainChuckOpen), Number(raw['GRIP-Z'])];
      for (let at = opens + 1; raw['METHOD'] === 'RELEASE' && at < blocks.length; at += 1) {
        if (blocks[at]!.startsWith('M950')) expect(Math.abs(numberIn(blocks.slice(0, at).findLast((block) => block.includes('W')) ?? '', 'W') - grip), blocks[at]).toBeGreaterThanOrEqual(Number(raw['HELD'] ?? Infinity));
      }
      expect(blocks.filter((block) => block.startsWith('M940')).map((block) => numberIn(block, 'C') % 360)).toEqual([expect.closeTo(figureOf(handover.evaluate(raw, { units: 'mm', card }), 'phaseAngle') % 360, 2)]);
    }), { numRuns: 80 });
  });
});

describe('figures', () => {
  it('each word and parameter governs figures that exist', () => {
    const ids = handover.evaluate(values(`${transfer} HELD=30`), metric).quantities.map(({ id }) => id);
    for (const [word, governed] of Object.entries(handover.governs)) expect(governed.filter((id) => !ids.includes(id)), word).toEqual([]);
    expect(Object.keys(handover.fields).filter((name) => (handover.governs[name] ?? []).length === 0)).toEqual([]);
    expect([...handover.keyQuantities].sort()).toEqual([...ids].sort());
  });
});
