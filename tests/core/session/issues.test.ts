import { describe, expect, it } from 'vitest';
import { readLine } from '#core/record/read-line.ts';
import { changesOf } from '#core/session/changes.ts';
import { foldLines } from '#core/session/fold.ts';
import { issuesOfSession, MOST_ISSUES_TOLD } from '#core/session/issues.ts';
import { resultOfSession } from '#core/session/result.ts';
import type { SessionState } from '#core/session/session.ts';
import { sessionOfIssue } from '#core/session/session-of-issue.ts';
import { fourStates, SECOND } from '#tests/support/four-states.ts';
import type { RecordLines } from '#tests/support/record-lines.ts';

const folded = (record: RecordLines): SessionState =>
  foldLines(record.lines.map((bytes) => readLine(bytes, 'test').line));

/** A closed day with every kind of change after it; `after` has the session after each. */
function changedDay() {
  const { record, opened, shifts, readings } = fourStates();
  record.add('test-closed', { reason: 'done' });
  const after = [folded(record)];
  const then = (line: number) => {
    after.push(folded(record));
    return line;
  };
  then(record.add('certificate-replaced', { certificate: SECOND, reason: 'calibrated again' }));
  const massPutRight = then(
    record.add('correction', {
      line: opened,
      changes: [{ field: ['weights', 0, 'massT'], was: 0.25, is: 0.26 }],
      reason: 'wrong slip',
    }),
  );
  then(
    record.add('correction', {
      line: shifts[1]!,
      changes: [{ field: ['moves', 0, 'to', 'yM'], was: 2, is: 2.1 }],
      reason: 'taped again',
    }),
  );
  then(record.add('overruled', { line: massPutRight, reason: 'the slip was right' }));
  const voiding = then(
    record.add('reading-voided', { line: readings[2]!, reason: 'a line was taut' }),
  );
  then(record.add('overruled', { line: voiding, reason: 'it was slack' }));
  return { record, after };
}

describe('the issues of a result', () => {
  const { record, after } = changedDay();
  const session = folded(record);

  it('are one more than the changes, each with what changed, who and why', () => {
    expect(changesOf(session).map(({ kind, what, reason }) => [kind, what, reason])).toEqual([
      ['certificate-replaced', 'certificate C1 of fore replaced by C2', 'calibrated again'],
      ['correction', 'line 1 put right: weight A, mass, t', 'wrong slip'],
      [
        'correction',
        'line 6 put right: weight A, set down to starboard of the centreline, m',
        'taped again',
      ],
      [
        'correction-overruled',
        'correction of line 17 fell away: weight A, mass, t',
        'the slip was right',
      ],
      ['reading-voided', 'reading of line 11, state 2, voided', 'a line was taut'],
      ['reading-put-back', 'reading of line 11, state 2, put back', 'it was slack'],
    ]);
    expect(changesOf(session)[1]!.fields).toEqual([
      { field: 'weight A, mass, t', was: 0.25, is: 0.26 },
    ]);
    expect(resultOfSession(session).issue).toBe(7);
  });

  it('are each the result as it was before the later changes were written', () => {
    for (const [k, then] of after.entries()) {
      const issue = resultOfSession(sessionOfIssue(session, k + 1));
      expect(issue).toEqual(resultOfSession(then));
    }
    expect(issuesOfSession(session).map(({ gmFluidM }) => gmFluidM)).toEqual(
      after.map((then) => resultOfSession(then).gmFluidM),
    );
    // The second certificate shows 0.8 % more heel, so GM is 0.8 % less.
    const [first, second] = issuesOfSession(session);
    expect(second!.gmFluidM!.value / first!.gmFluidM!.value).toBeCloseTo(1.002 / 1.01, 3);
    expect(first!.change).toBeNull();
  });

  it('voided and put back while the test is open, or over rejected time, are told beside', () => {
    const { record: open, readings } = fourStates();
    const voiding = open.add('reading-voided', { line: readings[2]!, reason: 'a wake' });
    const voided = folded(open);
    expect(changesOf(voided)).toEqual([]);
    expect(resultOfSession(voided)).toMatchObject({
      withVoidedPutBack: { readings: 1 },
      withoutOverruled: null,
    });
    open.add('overruled', { line: voiding, reason: 'no' });
    const back = resultOfSession(folded(open));
    expect(back.withVoidedPutBack).toBeNull();
    expect(back.withoutOverruled).toEqual({
      readings: 1,
      gmFluidM: resultOfSession(voided).gmFluidM,
      refused: null,
    });
    const [state, ...others] = voided.states;
    const over = { ...state!, reading: { ...state!.reading!, overruled: [8] } };
    expect(
      resultOfSession({ ...voided, states: [over, ...others] }).withoutOverruled?.readings,
    ).toBe(1);
  });

  it('are told up to a limit: the first and the newest', () => {
    const { record: long, opened } = fourStates();
    for (let k = 0; k < MOST_ISSUES_TOLD + 5; k++)
      long.add('correction', {
        line: opened,
        changes: [{ field: ['at'], was: k === 0 ? 'Kettle Sound' : `${k - 1}`, is: `${k}` }],
        reason: 'r',
      });
    const issues = issuesOfSession(folded(long)).map(({ issue }) => issue);
    expect(issues).toHaveLength(MOST_ISSUES_TOLD);
    expect([issues[0], issues[1], issues.at(-1)]).toEqual([1, 8, MOST_ISSUES_TOLD + 6]);
  });
});
