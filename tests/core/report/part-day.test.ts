import { expect, it } from 'vitest';
import { partDay, placeWords } from '#core/report/part-day.ts';
import { aDay } from '#tests/core/session/a-day.ts';
import { reportedDayOf, textsOf } from '#tests/support/reported-day.ts';

it('names each weight with its certificate and each move from and to', () => {
  const texts = textsOf(partDay(reportedDayOf(aDay())));
  expect(texts.filter((text) => text === 'W-7')).toHaveLength(4);
  expect(texts).toContain('8, \u22121.8, 2.4');
  expect(texts).toContain('8, 1.8, 2.4');
});

it('says what a day without test, boards and moves has not', () => {
  const texts = textsOf(partDay(reportedDayOf({ ...aDay({ states: 1 }), test: null })));
  expect(texts).toEqual(
    expect.arrayContaining([
      'No weight is stated.',
      'No weight was moved.',
      'No board was connected.',
    ]),
  );
});

it('lists board streams and faults', () => {
  const written = {
    line: 9,
    wall: '2026-05-04T10:00:00.000Z',
    receiverS: 1,
    author: 'dev',
    role: 'device',
  };
  const texts = textsOf(
    partDay(
      reportedDayOf({
        ...aDay(),
        faults: [{ written, code: 'bus-no-answer', where: 'fore', found: 'nothing' }],
        streams: [
          {
            stream: 's',
            board: 'b1',
            boardIsOurs: false,
            port: 'p',
            openedS: 2,
            parts: [],
            open: false,
            reason: null,
            samples: 44718,
            skipped: 3,
          },
        ],
      }),
    ),
  );
  expect(texts).toEqual(
    expect.arrayContaining(['bus-no-answer', 'b1 (named by hand)', '44718', '3']),
  );
  expect(placeWords({ xM: 1, yM: -0.5, zM: 2 })).toBe('1, \u22120.5, 2');
});
