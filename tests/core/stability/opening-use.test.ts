import { expect, test } from 'vitest';
import { OPENING_STATES } from '#core/stability/evidence.ts';
import { isOpenIn, type OpeningUse, openingsKept } from '#core/stability/opening-use.ts';
import { marramHull } from '#device/emulated/marram-hull.ts';

const hull = marramHull();
const openIn = (uses: readonly OpeningUse[]) =>
  openingsKept(hull, uses).map((one) => OPENING_STATES.filter((state) => isOpenIn(one, state)));

test('what nothing closes is open in every state, what is kept shut in none', () => {
  // wheelhouse door and hatch are weathertight in her hull file, the vent is unprotected
  expect(openIn([])).toEqual([[], [...OPENING_STATES], []]);
  expect(
    openIn([
      { opening: 'wheelhouse door', kept: 'open-at-sea' },
      { opening: 'fish hold hatch', kept: 'open-at-worst' },
    ]),
  ).toEqual([['open-at-sea', 'open-at-worst'], [...OPENING_STATES], ['open-at-worst']]);
});

test('a name she does not have, twice one, and a lid that is not there are refused', () => {
  const door = { opening: 'wheelhouse door', kept: 'shut' } as const;
  expect(() => openIn([{ ...door, opening: 'door' }])).toThrow(/loading-unknown/);
  expect(() => openIn([door, door])).toThrow(/stands twice/);
  expect(() => openIn([{ opening: 'engine room vent', kept: 'shut' }])).toThrow(/nothing closes/);
});
