import { expect, it } from 'vitest';
import { appendStopTarget } from '#receiver/stop-target.ts';
import { FakeDay } from '../support/fake-day.ts';

it('is a line when a reading is awaited, and again only when it changed', () => {
  const day = new FakeDay();
  const said: unknown[] = [];
  const record = {
    append: (kind: string, body: unknown) => {
      said.push([kind, body]);
      return 0;
    },
  } as unknown as Parameters<typeof appendStopTarget>[0];
  appendStopTarget(record, day.session);
  expect(said).toHaveLength(1);
  const [, body] = said[0] as [string, NonNullable<typeof day.session.stopTarget>];
  appendStopTarget(record, { ...day.session, stopTarget: body });
  expect(said).toHaveLength(1);
  appendStopTarget(record, {
    ...day.session,
    stopTarget: { ...body, standardErrorDeg: 2 * body.standardErrorDeg },
  });
  expect(said).toHaveLength(2);
  appendStopTarget(record, { ...day.session, awaits: 'shift' });
  expect(said).toHaveLength(2);
});
