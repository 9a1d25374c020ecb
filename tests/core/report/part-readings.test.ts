import { expect, it } from 'vitest';
import { partNotUsed, partReadings } from '#core/report/part-readings.ts';
import type { SessionState } from '#core/session/session.ts';
import { aDay, withVoided } from '#tests/core/session/a-day.ts';
import { reportedDayOf, textsOf } from '#tests/support/reported-day.ts';

const written = {
  line: 77,
  wall: '2026-05-04T10:00:00.000Z',
  receiverS: 1,
  author: 'B. Hale',
  role: 'technician',
};

it('has every reading by every instrument with window, rate and estimator, voided ones struck', () => {
  const blocks = partReadings(reportedDayOf(withVoided(aDay({ readingDeg: 0.002 }), 3)));
  const table = blocks.find(
    (block) => block.kind === 'table' && block.columns.some(({ head }) => head === 'Estimator'),
  );
  if (table?.kind !== 'table') throw new Error('no table of readings');
  expect(table.rows).toHaveLength(27);
  expect(table.rows.filter(({ struck }) => struck === true)).toHaveLength(3);
  expect(table.rows[0]!.cells).toContain('0.0 to 60.0');
  expect(table.rows[0]!.cells).toContain('50');
});

it('prints a reading by hand with its rest, and one that gives none', () => {
  const day = aDay();
  const hand = (extremesMm: number[]) => ({
    reading: {
      state: 0,
      instrument: 'pendulum 1',
      kind: 'pendulum' as const,
      lengthMm: 3000,
      extremesMm,
      reader: 'B. Hale',
      blind: true,
    },
    written,
  });
  const states = day.states.with(0, {
    ...day.states[0]!,
    handReadings: [hand([20, 30, 20]), hand([1, 2])],
  });
  const texts = textsOf(partReadings(reportedDayOf({ ...day, states })));
  // (20 + 2 x 30 + 20) / 4
  expect(texts).toContain('25.00');
  expect(texts).toContain('none');
  expect(texts).toContain('yes');
});

it('gives the reason and the person for everything not used', () => {
  const day = withVoided(aDay(), 2);
  const session: SessionState = {
    ...day,
    disturbances: [
      {
        written,
        disturbance: {
          fromS: 10,
          toS: 20.5,
          kind: 'wake',
          instruments: null,
          evidence: 'all three at once',
        },
        overruled: { written, reason: 'nothing passed' },
      },
    ],
  };
  const texts = textsOf(partNotUsed(reportedDayOf(session)));
  expect(texts).toContain('a gust');
  expect(texts).toContain('all: the vessel');
  expect(texts).toContain('nothing passed (B. Hale, 2026-05-04 10:00:00 UTC)');
});

it('takes more than six instruments in further tables', () => {
  const day = reportedDayOf(aDay({ readingDeg: 0.002 }));
  const more = Array.from({ length: 7 }, (_, k) => ({
    ...day.result.instruments[0]!,
    instrument: `i${k}`,
    label: `I${k}`,
  }));
  const blocks = partReadings({ ...day, result: { ...day.result, instruments: more } });
  const heads = blocks.flatMap((block) =>
    block.kind === 'table' ? [block.columns.map(({ head }) => head)] : [],
  );
  expect(heads).toContainEqual(['State', 'I6, °']);
});
