import fc from 'fast-check';
import { expect, test } from 'vitest';
import { momentOfPlaces, momentsOfMoves } from '#core/shift/moment.ts';

const place = (yM: number, zM = 2) => ({ xM: 8, yM, zM });
const weights = [
  { weight: 'A', massT: 0.5, at: place(-1.8) },
  { weight: 'B', massT: 0.25, at: place(1.8) },
];

test('half a tonne carried 3.6 m to starboard is 1.8 t.m', () => {
  const moves = [[], [{ weight: 'A', from: place(-1.8), to: place(1.8, 2.4) }]];
  const [before, after] = momentsOfMoves(weights, moves);
  expect(before!.heelingMomentTM).toBe(0);
  expect(after!.heelingMomentTM).toBeCloseTo(1.8, 12);
  expect(after!.verticalMomentTM).toBeCloseTo(0.2, 12);
  expect(after!.moved[1]).toEqual({ yM: 0, zM: 0 });
});

test('law: shifting everything back gives the zero, whatever lay between', () => {
  const ways = fc.array(
    fc.tuple(fc.constantFrom('A', 'B'), fc.double({ min: -3, max: 3, noNaN: true })),
    { maxLength: 12 },
  );
  fc.assert(
    fc.property(ways, (steps) => {
      const at = new Map(weights.map((one) => [one.weight, one.at]));
      const moves = steps.map(([weight, yM]) => {
        const from = at.get(weight)!;
        at.set(weight, place(yM));
        return [{ weight, from, to: place(yM) }];
      });
      const back = weights.map(({ weight, at: home }) => ({
        weight,
        from: at.get(weight)!,
        to: home,
      }));
      const last = momentsOfMoves(weights, [...moves, back]).at(-1)!;
      expect(last.heelingMomentTM).toBe(0);
      expect(last.verticalMomentTM).toBe(0);
    }),
  );
});

test('law: moments of single moves add', () => {
  const both = momentOfPlaces(
    weights,
    new Map([
      ['A', place(0.3)],
      ['B', place(-1)],
    ]),
  );
  const alone = (weight: string, yM: number) =>
    momentOfPlaces(weights, new Map([[weight, place(yM)]])).heelingMomentTM;
  expect(both.heelingMomentTM).toBeCloseTo(alone('A', 0.3) + alone('B', -1), 12);
});

test('a move from where the weight does not stand is refused', () => {
  const wrong = [[{ weight: 'A', from: place(0), to: place(1.8) }]];
  expect(() => momentsOfMoves(weights, wrong)).toThrow(/input-contradiction.*state 0, weight A/);
  const unknown = [[{ weight: 'Z', from: place(0), to: place(1.8) }]];
  expect(() => momentsOfMoves(weights, unknown)).toThrow(/input-contradiction.*no weight Z/);
});
