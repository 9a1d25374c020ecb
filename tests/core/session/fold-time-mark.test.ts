import { expect, it } from 'vitest';
import type { Line } from '#core/record/line.ts';
import { EMPTY_SESSION, foldLines } from '#core/session/fold.ts';
import { timeMarksAfter } from '#core/session/fold-time-mark.ts';
import { everyKindRecord } from '#tests/support/every-kind-record.ts';

const lineOf = (mark: number) =>
  ({ n: 7, kind: 'time-mark', body: { mark, words: '' } }) as Extract<Line, { kind: 'time-mark' }>;

it('a mark stands among the samples of every open stream', () => {
  const lines = everyKindRecord(3).lines.map(
    (bytes) => JSON.parse(Buffer.from(bytes).toString()) as Line,
  );
  const at = lines.findIndex(({ kind }) => kind === 'time-mark');
  const before = foldLines(lines.slice(0, at));
  const [mark] = foldLines(lines.slice(0, at + 1)).timeMarks;
  expect(mark).toMatchObject({ mark: 1, words: 'a knock on the rail' });
  expect(mark!.streams).toEqual(before.streams.map(({ stream, samples }) => ({ stream, samples })));
  expect(mark!.streams[0]!.samples).toBeGreaterThan(0);
});

it('marks are numbered without a gap', () => {
  expect(() => timeMarksAfter(EMPTY_SESSION, lineOf(2))).toThrow('record-line');
  const one = timeMarksAfter(EMPTY_SESSION, lineOf(1));
  expect(() => timeMarksAfter({ ...EMPTY_SESSION, timeMarks: one }, lineOf(1))).toThrow(
    'record-line',
  );
  expect(timeMarksAfter({ ...EMPTY_SESSION, timeMarks: one }, lineOf(2))).toHaveLength(2);
});
