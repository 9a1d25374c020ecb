import { describe, expect, it } from 'vitest';
import { FAULTS } from '#core/fault/fault.ts';
import { faultsTold } from '#ui/sensors/faults.ts';
import { FakeDay } from '../../support/fake-day.ts';

describe('faults in plain words', () => {
  it('tells one kind at one place once, newest kind first, always with what to do', () => {
    const day = new FakeDay();
    const fault = (code: 'bus-no-answer' | 'board-lost', found: string) =>
      day.write(
        'stream-fault',
        {
          type: 'stream-fault',
          stream: 'station-a/board-fore/1',
          number: 1,
          v: 1,
          code,
          where: 'board-fore',
          found,
          stationS: 1,
        },
        'device',
      );
    fault('bus-no-answer', 'first');
    fault('board-lost', 'gone');
    fault('bus-no-answer', 'second');
    const told = faultsTold(day.session);
    expect(told.map((each) => [each.found, each.times])).toEqual([
      ['second', 2],
      ['gone', 1],
    ]);
    expect(told[0]!.remedy).toBe(FAULTS['bus-no-answer'].remedy);
  });
});
