import { describe, expect, it } from 'vitest';
import { readLine } from '#core/record/read-line.ts';
import { foldLines } from '#core/session/fold.ts';
import { nextPlannedMoves, requireAwaits } from '#core/session/order-of-day.ts';
import { PLACE, RecordLines, readingBody, TEST_BODY } from '#tests/support/record-lines.ts';

const folded = (record: RecordLines) =>
  foldLines(record.lines.map((bytes) => readLine(bytes, 'test').line));

describe('the order of the day', () => {
  it('lets through only what is awaited, and says what is', () => {
    const record = new RecordLines();
    record.add('test-opened', TEST_BODY);
    const session = folded(record);
    expect(() => requireAwaits(session, 'reading', 'take-reading')).not.toThrow();
    expect(() => requireAwaits(session, 'shift', 'begin-shift')).toThrowError(
      /^act-not-now.*a reading is to be taken first/,
    );
  });

  it('takes the next shift of the plan from where the weights are now', () => {
    const record = new RecordLines();
    record.add('test-opened', TEST_BODY);
    record.add('reading', readingBody(0));
    expect(nextPlannedMoves(folded(record))).toEqual([
      { weight: 'A', from: PLACE(-2), to: PLACE(2) },
    ]);
    record.add('shift-begun', {
      state: 1,
      moves: [{ weight: 'A', from: PLACE(-2), to: PLACE(2) }],
      heelingMomentTM: 1,
      predictedHeelDeg: null,
      predictedStandardErrorDeg: null,
    });
    record.add('weight-landed', { state: 1, landedS: 10 });
    expect(nextPlannedMoves(folded(record))).toEqual([
      { weight: 'A', from: PLACE(2), to: PLACE(-2) },
    ]);
  });

  it('refuses a plan that names a weight nobody brought, and a shift beyond the plan', () => {
    const unknown = new RecordLines();
    const plan = [{ moves: [{ weight: 'Z', to: PLACE(0) }] }];
    unknown.add('test-opened', { ...TEST_BODY, plan });
    expect(() => nextPlannedMoves(folded(unknown))).toThrowError(/no weight is called Z/);
    const none = new RecordLines();
    none.add('test-opened', { ...TEST_BODY, plan: [] });
    expect(() => nextPlannedMoves(folded(none))).toThrowError(/^act-not-now/);
  });
});
