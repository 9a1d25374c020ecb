import { expect, it } from 'vitest';
import { partTraces } from '#core/report/part-traces.ts';
import { aDay } from '#tests/core/session/a-day.ts';
import { reportedDayOf, textsOf } from '#tests/support/reported-day.ts';

it('draws one figure a state, with a lane for each instrument', () => {
  const figures = partTraces(reportedDayOf(aDay())).filter(({ kind }) => kind === 'figure');
  expect(figures).toHaveLength(9);
  expect(figures[4]).toMatchObject({ caption: 'State 4' });
  expect((figures[4] as { svg: string }).svg.match(/>(fore|aft|tube)</g)).toHaveLength(3);
});

it('says that a record holds no samples', () => {
  const texts = textsOf(partTraces({ ...reportedDayOf(aDay()), traces: [] }));
  expect(texts).toContain('The record holds no samples of an accepted reading.');
});
