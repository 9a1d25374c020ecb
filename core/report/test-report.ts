import type { HandCheck } from '../session/hand-check.ts';
import type { Attachment, ReportDocument } from './document.ts';
import { partConditions } from './part-conditions.ts';
import { partDay } from './part-day.ts';
import { partFloat } from './part-float.ts';
import { partFront } from './part-front.ts';
import { partHandCheck } from './part-hand-check.ts';
import { partInstruments } from './part-instruments.ts';
import { partDeviations, partLightship } from './part-lightship.ts';
import { partPeople } from './part-people.ts';
import { partNotUsed, partReadings } from './part-readings.ts';
import { partResult } from './part-result.ts';
import { partRoll } from './part-roll.ts';
import { partTraces } from './part-traces.ts';
import { reportMarks } from './report-marks.ts';
import { dayWords } from './report-words.ts';
import type { ReportedDay } from './reported-day.ts';

/** The report of an inclining test, from its record alone. */
export function testReport(
  day: ReportedDay,
  check: HandCheck | null,
  attachments: readonly Attachment[],
): ReportDocument {
  const { session, head, lastWall } = day;
  const { test, testOpened } = session;
  const title = 'Inclining test report';
  return {
    title,
    subject: [test?.vessel, test?.at, testOpened === null ? null : dayWords(testOpened.wall)]
      .filter((part) => part != null && part !== '')
      .join(', '),
    language: 'en',
    wall: lastWall,
    marks: reportMarks(day),
    foot: `Record ${session.record ?? 'none'}, ${head.lines} lines, ends ${head.head.slice(0, 16)}`,
    blocks: [
      ...partFront(day),
      ...partResult(day),
      ...partConditions(day),
      ...partReadings(day),
      ...partNotUsed(day),
      ...partDay(day),
      ...partFloat(day),
      ...partLightship(day),
      ...partInstruments(day),
      ...partRoll(day),
      ...partDeviations(day),
      ...partPeople(day),
      ...partHandCheck(check),
      ...partTraces(day),
    ],
    attachments,
  };
}
