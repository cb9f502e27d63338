import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { turnedPathFigures } from '../../../server/src/trade/path-figures.ts';
import { leadOfTurn, pathOnTurningWork, type TurnedMove } from '../../../server/src/trade/turned-path.ts';

const still: TurnedMove = { fromRadius: 15, toRadius: 15, axialLength: 0, turnDegrees: 0 };

/** The same way in many straight pieces through space: a second computation. */
function pathInPieces({ fromRadius, toRadius, axialLength, turnDegrees }: TurnedMove): number {
  const pieces = 20_000;
  const at = (share: number): [x: number, y: number, z: number] => {
    const radius = fromRadius + (toRadius - fromRadius) * share;
    const angle = (turnDegrees * share * Math.PI) / 180;
    return [radius * Math.cos(angle), radius * Math.sin(angle), axialLength * share];
  };
  let sum = 0;
  for (let piece = 0; piece < pieces; piece++) {
    const [from, to] = [at(piece / pieces), at((piece + 1) / pieces)];
    sum += Math.hypot(to[0] - from[0], to[1] - from[1], to[2] - from[2]);
  }
  return sum;
}

describe('the path on work that C turns', () => {
  it('a helix on diameter 30 with a lead of 300 over 50 is 52.41 long [general turning relations: path per mm = sqrt(1 + (pi D / lead)^2), seen in source]', () => {
    expect(leadOfTurn(50, 60)).toBe(300);
    expect(pathOnTurningWork({ ...still, axialLength: 50, turnDegrees: 60 }).toFixed(2)).toBe('52.41');
  });

  it('an arc of 1 on diameter 40 is a turn of 114.5916 / D degrees [wrapping on a cylinder, derived]', () => {
    expect(pathOnTurningWork({ ...still, fromRadius: 20, toRadius: 20, turnDegrees: 114.5916 / 40 }).toFixed(5)).toBe('1.00000');
  });

  it('a turn of the spiral r = angle is 21.25629 long [(x sqrt(1 + x^2) + arsinh x) / 2 at x = 2 pi: calculus textbooks, from memory]', () => {
    expect(pathOnTurningWork({ fromRadius: 0, toRadius: 2 * Math.PI, axialLength: 0, turnDegrees: 360 }).toFixed(5)).toBe('21.25629');
  });

  it('agrees with the way in small pieces, through the centre too [second computation, derived]', () => {
    const radius = fc.double({ min: -50, max: 50, noNaN: true });
    const move = fc.record({ fromRadius: radius, toRadius: radius, axialLength: fc.double({ min: -100, max: 100, noNaN: true }), turnDegrees: fc.double({ min: -720, max: 720, noNaN: true }) });
    fc.assert(fc.property(move, (each) => {
      const inPieces = pathInPieces(each);
      expect(Math.abs(pathOnTurningWork(each) - inPieces)).toBeLessThanOrEqual(1e-4 * Math.max(1, inPieces));
    }), { numRuns: 60 });
  });

  it('is the straight way where nothing turns', () => {
    expect(pathOnTurningWork({ ...still, toRadius: 18, axialLength: 4 })).toBe(5);
    expect(leadOfTurn(5, 0)).toBeNaN();
  });

  it('as figures: lead only along the axis, feed only with a time', () => {
    const ids = (move: Partial<TurnedMove>, seconds?: number) => turnedPathFigures({ ...still, turnDegrees: 90, ...move }, seconds, 'mm').map(({ id }) => id);
    expect(ids({ axialLength: 5 }, 2)).toEqual(['helixLead', 'workPath', 'workFeed']);
    expect(ids({}, 2)).toEqual(['workPath', 'workFeed']);
    expect(ids({ axialLength: 5 })).toEqual(['helixLead', 'workPath']);
  });
});
