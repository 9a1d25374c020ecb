import { describe, expect, it } from 'vitest';
import { lineActOf, overrulingWords } from '#ui/record/line-acts.ts';
import { FakeDay } from '../../support/fake-day.ts';

describe('what may be done with a line', () => {
  it('is correcting what was entered and overruling what was decided', () => {
    const day = new FakeDay();
    day.goOn(1);
    const { session } = day;
    const reading = session.states[1]!.readingWritten!.line;
    expect(lineActOf(session, session.testOpened!.line)).toBe('correct');
    expect(lineActOf(session, session.states[1]!.begun!.line)).toBe('correct');
    expect(lineActOf(session, reading)).toBeNull();
    day.write('reading-voided', { line: reading, reason: 'gust' }, 'architect');
    const voiding = day.session.lines - 1;
    expect(lineActOf(day.session, voiding)).toBe('overrule');
    expect(overrulingWords(day.session, voiding).title).toBe('Put the reading back');
    expect(overrulingWords(day.session, 1).title).toBe('Let the correction fall away');
    const stretch = { fromS: day.nowS - 5, toS: day.nowS + 5, instruments: null };
    day.write('disturbance', { ...stretch, kind: 'wake', evidence: '' }, 'receiver');
    const wake = day.session.lines - 1;
    expect(lineActOf(day.session, wake)).toBe('overrule');
    expect(overrulingWords(day.session, wake).title).toBe('Count this time after all');
  });
});
