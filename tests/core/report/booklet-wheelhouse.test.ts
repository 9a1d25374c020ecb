import { expect, it } from 'vitest';
import { bookletWheelhouse } from '#core/report/booklet-wheelhouse.ts';
import { BOX_LOADING } from '#tests/core/stability/box-loading.ts';
import { boxAnswer } from '#tests/support/box-booklet.ts';
import { textsOf } from '#tests/support/reported-day.ts';

it('tells the skipper what to keep shut, in plain words and without a promise', () => {
  const input = {
    ...BOX_LOADING,
    openings: [
      { opening: 'hatch', kept: 'open-at-worst' as const },
      { opening: 'door', kept: 'shut' as const },
    ],
  };
  const text = textsOf(bookletWheelhouse(input, boxAnswer())).join('\n');
  expect(text).toContain('At sea keep shut: door.');
  expect(text).toContain('shut before weather or a turn: hatch.');
  expect(text).not.toMatch(/\bsafe\b|approved/i);
});
