import { describe, expect, it } from 'vitest';
import { readLine } from '#core/record/read-line.ts';
import { foldLines } from '#core/session/fold.ts';
import { overrulingRefusal, stateSinceS } from '#core/session/fold-overruled.ts';
import type { SessionState } from '#core/session/session.ts';
import { fourStates } from '#tests/support/four-states.ts';
import { type RecordLines, readingBody } from '#tests/support/record-lines.ts';

const folded = (record: RecordLines): SessionState =>
  foldLines(record.lines.map((bytes) => readLine(bytes, 'test').line));

function awaitingReading(): RecordLines {
  const { record, readings } = fourStates(1);
  record.add('reading-voided', { line: readings[1]!, reason: 'a wake' });
  return record;
}

function disturbed(record: RecordLines, kind = 'wake', agoS = 0): number {
  const toS = record.nowS - agoS;
  return record.add(
    'disturbance',
    { fromS: toS - 5, toS, kind, instruments: null, evidence: 'e' },
    'receiver',
  );
}

describe('an overruling', () => {
  it('puts a voided reading back, which the day then no longer waits for', () => {
    const { record, readings } = fourStates();
    const before = folded(record);
    const voiding = record.add('reading-voided', { line: readings[3]!, reason: 'a wake' });
    expect(folded(record).awaits).toBe('reading');
    const line = record.add('overruled', { line: voiding, reason: 'the wake came after' });
    const after = folded(record);
    expect(after.awaits).toBe(before.awaits);
    expect(after.states[3]).toMatchObject({
      reading: before.states[3]!.reading,
      readingWritten: { line: readings[3] },
      voided: [],
      putBack: [
        { reason: 'a wake', putBack: { reason: 'the wake came after', written: { line } } },
      ],
    });
  });

  it('does not put a reading back beside another, nor twice', () => {
    const { record, readings } = fourStates();
    const voiding = record.add('reading-voided', { line: readings[3]!, reason: 'a wake' });
    const anew = record.add('reading', readingBody(3));
    expect(overrulingRefusal(folded(record), voiding)?.report).toMatchObject({
      code: 'overruling-unfit',
      found: `state 3 is read by line ${anew}: void that first`,
    });
    record.add('reading-voided', { line: anew, reason: 'worse' });
    record.add('overruled', { line: voiding, reason: 'the first was better' });
    expect(folded(record).states[3]!.readingWritten?.line).toBe(readings[3]);
    record.add('overruled', { line: voiding, reason: 'again' });
    expect(() => folded(record)).toThrow(/record-line.*nothing stands there/);
  });

  it('lets rejected time of the awaited reading count, and no other', () => {
    const record = awaitingReading();
    record.nowS += 20;
    const line = disturbed(record);
    const silent = disturbed(record, 'silent');
    const long = disturbed(record, 'wake', 60);
    const session = folded(record);
    expect(overrulingRefusal(session, line)).toBeNull();
    expect(overrulingRefusal(session, silent)?.report.found).toMatch(/nothing was measured/);
    expect(overrulingRefusal(session, long)?.report.found).toMatch(/no reading to be taken now/);
    expect(overrulingRefusal(session, 0)?.report.found).toMatch(/nothing stands there/);
    record.add('overruled', { line, reason: 'a dinghy, no wake' });
    const after = folded(record);
    expect(after.disturbances.map(({ overruled }) => overruled?.reason ?? null)).toEqual([
      'a dinghy, no wake',
      null,
      null,
    ]);
    expect(overrulingRefusal(after, line)?.report.found).toMatch(/counts already/);
    record.add('reading', readingBody(1));
    const late = disturbed(record);
    expect(overrulingRefusal(folded(record), late)?.report.found).toMatch(/no reading to be taken/);
  });

  it('counts time from the landing, the opening, the voiding or the new certificate', () => {
    expect(stateSinceS(folded(fourStates(1).record))).toBe(10);
    expect(stateSinceS(folded(fourStates(0).record))).toBe(2);
    const record = awaitingReading();
    expect(stateSinceS(folded(record))).toBe(record.nowS);
  });

  it('is made at the desk too, of voidings; rejected time is then past', () => {
    const { record, readings } = fourStates();
    const line = disturbed(record);
    record.add('test-closed', { reason: 'done' });
    const voiding = record.add('reading-voided', { line: readings[2]!, reason: 'at the desk' });
    expect(folded(record).awaits).toBe('nothing');
    expect(overrulingRefusal(folded(record), line)).not.toBeNull();
    record.add('overruled', { line: voiding, reason: 'no, it stands' });
    expect(folded(record).states[2]!.reading).not.toBeNull();
  });
});
