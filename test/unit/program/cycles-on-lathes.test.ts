/**
 * Fixed cycles as turning centres have them: along Z in ZX, with C turning to the hole. What the
 * machine does is data of invented machines; places and turns follow from it (derived).
 */
import { describe, expect, it } from 'vitest';
import { machineCardSchema, type MachineCard } from '../../../server/src/machine/card.ts';
import { dialectOf } from '../../../server/src/machine/dialect.ts';
import { openStandardCard } from '../../../server/src/machine/open-standard.ts';
import { readProgram } from '../../../server/src/program/index.ts';

function cardOf(change: object = {}): MachineCard {
  return machineCardSchema.parse({
    name: 'Invented for tests', units: 'mm', plane: 18, cycleReturn: 'retract', rapids: { x: 10_000, z: 10_000, c: 36_000 },
    codes: { workAxisOn: 'M191', workAxisOff: 'M192', drivenStart: 'M123 S{rpm}', drivenStop: 'M125' }, ...change,
  });
}

function problems(text: string, card: MachineCard): string[] {
  return readProgram(text, dialectOf(card)).problems().filter(({ rule }) => rule.startsWith('cycle')).map(({ line, rule, severity, message }) => `${line + 1} ${severity} ${rule} ${message}`);
}

/** Where each move of a line ends. */
function ends(text: string, line: number, card: MachineCard): Array<readonly [kind: string, x: number | undefined, z: number | undefined, c: number | undefined]> {
  return [...readProgram(text, dialectOf(card)).moves()].filter((move) => move.line === line - 1).map(({ kind, end }) => [kind, end.X, end.Z, end.C]);
}

const CENTRE_HOLE = 'G97 S900 M03\nG00 X0. Z5.\nG83 X0. Z-20. R2. Q11. F0.2\nG80\nG00 Z50.\nM30';
const HOLES = 'M123 S2000\nM191\nG94\nG00 X80. Z5. C0.\nG81 X80. Z-10. R2. C30. F200.\nC90.\nG80\nM30';

describe('the axis of a cycle in ZX', () => {
  it('is Z where the card says so', () => {
    const card = cardOf({ cycleAxisInZX: 'Z' });
    expect(problems(CENTRE_HOLE, card)).toEqual([]);
    expect(ends(CENTRE_HOLE, 3, card).filter(([kind]) => kind === 'feed').map(([, , z]) => z)).toEqual([-9, -20]);
  });

  it('is pointed out with the key of the card where the card leaves it open, and the places are not known then', () => {
    expect(problems(CENTRE_HOLE, cardOf())).toEqual([expect.stringMatching(/^3 warning cycle-axis G83 drills along Y .*machine card \(cycleAxisInZX\)/)]);
    expect(readProgram(CENTRE_HOLE, dialectOf(cardOf())).stateBefore(3).position.Z).toBeUndefined();
  });

  it('stays Y for a cycle that has Y, and in the other planes it is what stands on them', () => {
    expect(problems('M03 S500\nG00 X10. Y5. Z0.\nG81 X10. Z-5. Y-9. R2. F0.1\nG80\nM30', cardOf())).toEqual([]);
    const across = 'G19\nM123 S500\nG94\nG00 X60. Y0. Z-5.\nG81 X20. R50. F100.\nG80\nM30';
    expect(ends(across, 5, cardOf({ cycleAxisInZX: 'Z' })).at(-2)).toEqual(['feed', 20, -5, undefined]);
  });

  it('is Y where the card says so, and a depth along Y is missed then', () => {
    expect(problems(CENTRE_HOLE, cardOf({ cycleAxisInZX: 'Y' }))).toEqual([expect.stringMatching(/^3 error cycle-words G83 needs Y, the depth in the plane of G18/)]);
  });

  it('is judged by the travel of that axis', () => {
    const card = cardOf({ cycleAxisInZX: 'Z', limits: { z: [-15, 100] } });
    expect(readProgram(CENTRE_HOLE, dialectOf(card)).problems().map(({ line, rule }) => [line + 1, rule])).toContainEqual([3, 'place-beyond-machine']);
  });
});

describe('C on the line of a cycle', () => {
  const turns = cardOf({ cycleAxisInZX: 'Z', cyclesTurnC: true });

  it('turns to the hole before it where the card says so, and each further C word makes a hole', () => {
    expect(problems(HOLES, turns)).toEqual([]);
    const first = ends(HOLES, 5, turns);
    expect(first[0]).toEqual(['rapid', 80, 5, 30]);
    expect(first.slice(1).every(([, , , c]) => c === 30)).toBe(true);
    expect(ends(HOLES, 6, turns)).toEqual([['rapid', 80, 2, 90], ['feed', 80, -10, 90], ['rapid', 80, 2, 90]]);
  });

  it('counts on with G91, once for each repeat', () => {
    const text = 'M123 S2000\nM191\nG94\nG00 X80. Z5. C0.\nG91 G81 Z-12. R-3. C30. L3 F200.\nG80\nM30';
    expect(ends(text, 5, turns).filter(([kind]) => kind === 'feed').map(([, , , c]) => c)).toEqual([30, 60, 90]);
  });

  it('is pointed out where the card leaves it open, and where C stands is not known then', () => {
    const open = cardOf({ cycleAxisInZX: 'Z' });
    expect(problems(HOLES, open)[0]).toMatch(/^5 warning cycle-axis G81 turns C, .*machine card \(cyclesTurnC\)/);
    expect(readProgram(HOLES, dialectOf(open)).stateBefore(6).position.C).toBeUndefined();
  });

  it('stays an error on machines without such an axis, and for A and B', () => {
    expect(problems('G17 M03 S500\nG00 X0 Y0 Z5 C0 B0\nG81 Z-5 R2 C30 F100\nG80\nM30', openStandardCard)).toEqual([expect.stringMatching(/^3 error cycle-words G81 must not move a rotary axis/)]);
    expect(problems(HOLES.replaceAll('C', 'B'), turns)[0]).toMatch(/^5 error cycle-words/);
  });
});

describe('a drill in the middle of the work', () => {
  const card = cardOf({ cycleAxisInZX: 'Z' });
  const rules = (text: string): string[] => readProgram(text, dialectOf(card)).problems().filter(({ rule }) => rule === 'cutting-speed-in-force').map(({ line, message }) => `${line + 1} ${message}`);

  it('is warned of under constant cutting speed', () => {
    expect(rules(CENTRE_HOLE.replace('G97 S900', 'G96 S90'))).toEqual([expect.stringMatching(/^3 G83 at X0 while the cutting speed is constant/)]);
  });

  it('is not under G97, off the middle, or with the driven tool', () => {
    expect(rules(CENTRE_HOLE)).toEqual([]);
    expect(rules(CENTRE_HOLE.replace('G97 S900', 'G96 S90').replaceAll('X0.', 'X40.'))).toEqual([]);
    expect(rules(CENTRE_HOLE.replace('G97 S900', 'M123 S2000\nG96 S90'))).toEqual([]);
  });
});

it('says how R is read where a cycle across the work has it below its depth', () => {
  const text = 'G19\nM123 S500\nG94\nG00 X60. Y0. Z-5.\nG81 X40. R25. F100.\nG80\nM30';
  expect(problems(text, cardOf())).toEqual([expect.stringMatching(/^5 error cycle-words G81 has its retract level at X25, below .* R is read as X words are, on the diameter\.$/)]);
});

describe('what must turn', () => {
  const sync = cardOf({ codes: { drivenStart: 'M123 S{rpm}', drivenStop: 'M125', syncOn: 'G137 P{starts} Q{teeth}', syncOff: 'G138' } });
  const marks = (text: string, card: MachineCard): string[] => readProgram(text, dialectOf(card)).problems().filter(({ rule }) => ['feed-without-spindle', 'not-integer'].includes(rule)).map(({ line, rule, message }) => `${line + 1} ${rule} ${message}`);
  const drilled = 'G17 G94\nG00 X40. Y0. Z5.\nG81 Z-10. R2. F100.\nX50.\nG80\nM30';

  it('for a fixed cycle is a spindle or the driven tool, with any feed', () => {
    expect(marks(drilled, sync)).toEqual(['3 feed-without-spindle G81 drills, but neither a spindle nor a driven tool turns.']);
    expect(marks(`M123 S900\n${drilled}`, sync)).toEqual([]);
    expect(marks(`S900 M03\n${drilled}`, sync)).toEqual([]);
  });

  it('is not judged where the card does not say what starts a driven tool', () => {
    expect(marks(drilled, cardOf({ codes: {} }))).toEqual([]);
  });

  it('in step with the work is the hob', () => {
    expect(marks('G94\nG137 P1 Q30\nG00 X40. Z5.\nG01 Z-10. F20.\nM30', sync)).toEqual(['4 feed-without-spindle Hob and work run in step, but the driven tool does not turn.']);
    expect(marks('G94\nG137 P1 Q30\nM123 S300\nG00 X40. Z5.\nG01 Z-10. F20.\nM30', sync)).toEqual([]);
    const byItself = cardOf({ codes: { drivenStart: 'M123 S{rpm}', syncOn: 'G137 P{starts} Q{teeth} S{rpm}' } });
    expect(marks('G94\nG137 P1 Q30 S300\nG01 Z-10. F20.\nM30', byItself)).toEqual([]);
  });

  it('starts and teeth are counted in whole numbers, of either sign', () => {
    expect(marks('G137 P0 Q2.4\nM30', sync)).toEqual([
      '1 not-integer P0: the number of starts must be a whole number, and not 0.', '1 not-integer Q2.4: the number of teeth must be a whole number, and not 0.',
    ]);
    expect(marks('G137 P2 Q-31.\nG138\nG137 P#1 Q30\nM30', sync)).toEqual([]);
  });
});

describe('the same hole again', () => {
  const card = cardOf({ cycleAxisInZX: 'Z', cyclesTurnC: true });
  const again = (text: string): string[] => problems(`M123 S2000\nM191\nG94\nG00 X80. Z5. C0.\nG81 X80. Z-10. R2. F200.\n${text}\nG80\nM30`, card);

  it('is pointed out: a C word has made its hole already', () => {
    expect(again('C60.\nX80.')).toEqual(['7 warning cycle-again G81 is in force, so this line makes the hole before it once more; G80 ends the cycle.']);
    expect(again('C0.')).toEqual([expect.stringMatching(/^6 warning cycle-again/)]);
    expect(again('G91 X0.')).toEqual([expect.stringMatching(/^6 warning cycle-again/)]);
  });

  it('is not, where place, turn or depth is another, or the cycle stands there again', () => {
    expect(again('C60.\nX60.\nX60. C90.\nX60. Z-15.\nX60. R1.\nG81 X60.')).toEqual([]);
  });
});

it('levels that are wrong are told where they are given', () => {
  expect(problems('M123 S500\nG94\nG00 X60. Z5. C0.\nG81 X60. Z-5. R-9. F100.\nX50.\nX40. R-8.\nG80\nM30', cardOf({ cycleAxisInZX: 'Z' })).map((told) => told.slice(0, 19))).toEqual(['4 error cycle-words', '6 error cycle-words']);
});

describe('a tap', () => {
  const card = cardOf({ cycleAxisInZX: 'Z' });
  const leads = (text: string): string[] => readProgram(`${text}\nG80\nM30`, dialectOf(card)).problems().filter(({ rule }) => rule === 'thread-lead').map(({ line, message }) => `${line + 1} ${message}`);

  // The finest pitch of ISO 1501 is 0.08 mm (from memory).
  it('whose feed a minute makes next to no lead is pointed out', () => {
    expect(leads('G94 S500 M03\nG00 X0. Z5.\nG84 Z-18. R4. F1.5')).toEqual([expect.stringMatching(/^3 G84: F1\.5 a minute at 500 rev\/min makes a lead of 0\.0030 mm, which no tap has/)]);
    expect(leads('G20 G94 M123 S600\nG00 X0. Z5.\nG84 Z-1. R.4 F0.05\nX1.')).toHaveLength(1);
  });

  it('is not with a feed that makes one, a feed a revolution, or a speed that is not known', () => {
    expect(leads('G94 S500 M03\nG00 X0. Z5.\nG84 Z-18. R4. F750')).toEqual([]);
    expect(leads('G20 G94 S500 M03\nG00 X0. Z5.\nG84 Z-1. R.4 F31.25')).toEqual([]);
    expect(leads('G95 S500 M03\nG00 X0. Z5.\nG84 Z-18. R4. F1.5')).toEqual([]);
    expect(leads('G94 M03\nG00 X0. Z5.\nG84 Z-18. R4. F1.5')).toEqual([]);
  });
});
