import { Fault } from '../fault/fault.ts';
import type { Line } from '../record/line.ts';
import type { SessionState } from './session.ts';
import { writtenOf } from './written.ts';

/** The marks of the day with one more; marks are numbered without a gap, else `record-line`. */
export function timeMarksAfter(
  { timeMarks, streams }: SessionState,
  line: Extract<Line, { kind: 'time-mark' }>,
): SessionState['timeMarks'] {
  const { mark, words } = line.body;
  if (mark !== timeMarks.length + 1)
    throw new Fault('record-line', `line ${line.n}`, `time mark ${mark} after ${timeMarks.length}`);
  const open = streams.filter((stream) => stream.open);
  return [
    ...timeMarks,
    {
      ...{ mark, words, written: writtenOf(line) },
      streams: open.map(({ stream, samples }) => ({ stream, samples })),
    },
  ];
}
