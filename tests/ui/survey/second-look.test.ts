import { expect, it } from 'vitest';
import { marramTest } from '#device/emulated/marram.ts';
import { aDay } from '#tests/core/session/a-day.ts';
import { secondLooks } from '#ui/survey/second-look.ts';
import { entered, surveyOf } from '../../support/entries.ts';

const session = (...rows: ReturnType<typeof entered>[]) => ({
  ...aDay(),
  test: marramTest(),
  survey: surveyOf(rows),
});

it('every mass and every distance of the plan is looked at twice', () => {
  const looks = secondLooks(session());
  expect(looks.map(({ words }) => words).slice(0, 6)).toEqual([
    'Mass of A',
    'Mass of B',
    'Mass of C',
    'Mass of D',
    'Shift 1, A',
    'Shift 2, B',
  ]);
  expect(looks.every(({ second, difference }) => second === null && difference === null)).toBe(
    true,
  );
});

it('names what is further apart than both uncertainties leave, and nothing nearer', () => {
  // A: 0.251 t with 0.15 kg; shift 1: 4.2 m with 4 mm, each times three times the square root of two.
  const weight = (massT: number) => entered('weight', 'A', { massT, by: 'B. Heron' });
  const distance = (distanceM: number) =>
    entered('distance', '1 A', { state: 1, weight: 'A', distanceM, by: 'B. Heron' });
  const large = (...rows: ReturnType<typeof entered>[]) =>
    secondLooks(session(...rows))
      .filter(({ difference }) => difference?.large === true)
      .map(({ words }) => words);
  expect(large(weight(0.2516), distance(4.216))).toEqual([]);
  expect(large(weight(0.2517), distance(4.218))).toEqual(['Mass of A', 'Shift 1, A']);
});
