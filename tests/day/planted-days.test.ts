import { expect, it } from 'vitest';
import { VirtualDay } from '#tests/support/day.ts';
import { CAUSE_OF, type Planted, plantedSource } from '#tests/support/planted-day.ts';

/** The trial's part `causes` has many more of each; here one of each way in which evidence comes in. */
it.each<[Planted, number]>([
  ['line', 1],
  ['cross-connection', 1],
  ['slipped', 3],
])(
  'a whole day with trouble planted (%s) names it first',
  async (planted, seed) => {
    const { result } = await new VirtualDay(plantedSource(seed, planted)).run();
    expect(result.diagnosis!.causes[0]!.cause).toBe(CAUSE_OF[planted]);
  },
  60_000,
);

it('a clean day names none', async () => {
  const { result } = await new VirtualDay(plantedSource(1, null)).run();
  expect(result.diagnosis!.causes).toEqual([]);
}, 60_000);
