import { describe, expect, it } from 'vitest';
import { readLine } from '#core/record/read-line.ts';
import { foldLines } from '#core/session/fold.ts';
import type { SessionState } from '#core/session/session.ts';
import { PLACE, RecordLines, readingBody, TEST_BODY } from '#tests/support/record-lines.ts';

function folded(record: RecordLines): SessionState {
  return foldLines(record.lines.map((bytes) => readLine(bytes, 'test').line));
}

function shift(record: RecordLines, state: number, fromM: number, toM: number): void {
  record.add('shift-begun', {
    state,
    moves: [{ weight: 'A', from: PLACE(fromM), to: PLACE(toM) }],
    heelingMomentTM: 0.25 * (toM + 2),
    predictedHeelDeg: null,
    predictedStandardErrorDeg: null,
  });
}

describe('the course of the day', () => {
  it('waits in turn for test, reading, shift, landing, and in the end for nothing', () => {
    const record = new RecordLines();
    const awaited = [folded(record).awaits];
    const then = () => awaited.push(folded(record).awaits);
    record.add('test-opened', TEST_BODY);
    then();
    record.add('reading', readingBody(0));
    then();
    shift(record, 1, -2, 2);
    then();
    record.add('weight-landed', { state: 1, landedS: 10 });
    then();
    record.add('reading', readingBody(1));
    then();
    shift(record, 2, 2, -2);
    record.add('weight-landed', { state: 2, landedS: 20 });
    const last = record.add('reading', readingBody(2));
    then();
    record.add('reading-voided', { line: last, reason: 'rope foul' });
    then();
    record.add('test-closed', { reason: 'done' });
    then();
    expect(awaited).toEqual([
      'test',
      'reading',
      'shift',
      'landing',
      'reading',
      'shift',
      'nothing',
      'reading',
      'nothing',
    ]);
  });

  it('has the weight at its new place only once it has landed', () => {
    const record = new RecordLines();
    record.add('test-opened', TEST_BODY);
    record.add('reading', readingBody(0));
    shift(record, 1, -2, 2);
    expect(folded(record).weightsAt['A']).toEqual(PLACE(-2));
    record.add('weight-landed', { state: 1, landedS: 10 });
    expect(folded(record).weightsAt).toEqual({ A: PLACE(2), B: PLACE(2) });
  });

  it.each<[string, (record: RecordLines) => void]>([
    ['a second test', (record) => record.add('test-opened', TEST_BODY)],
    ['a reading twice', (record) => record.add('reading', readingBody(0))],
    ['a reading of a state to come', (record) => record.add('reading', readingBody(1))],
    ['a state left out', (record) => shift(record, 2, -2, 2)],
    ['a landing of nothing', (record) => record.add('weight-landed', { state: 1, landedS: 1 })],
    [
      'voiding what is no reading',
      (record) => record.add('reading-voided', { line: 1, reason: 'x' }),
    ],
  ])('refuses %s', (_what, add) => {
    const record = new RecordLines();
    record.add('test-opened', TEST_BODY);
    record.add('reading', readingBody(0));
    folded(record);
    add(record);
    expect(() => folded(record)).toThrowError(/^record-line/);
  });

  it('refuses acts before the test is opened and after it is closed', () => {
    const early = new RecordLines();
    early.add('reading', readingBody(0));
    expect(() => folded(early)).toThrowError(/no test is open/);
    const late = new RecordLines();
    late.add('test-opened', TEST_BODY);
    late.add('test-closed', { reason: 'gale' });
    late.add('reading', readingBody(0));
    expect(() => folded(late)).toThrowError(/the test is closed/);
  });
});
