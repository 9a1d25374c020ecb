import { describe, expect, it } from 'vitest';
import { sessionOfIssue } from '#core/session/session-of-issue.ts';
import { aDay } from './a-day.ts';

describe('the session under earlier certificates', () => {
  it('puts back several replacements of one instrument in their order', () => {
    const day = aDay({ states: 1 });
    const [first, ...others] = day.certificates;
    const numbered = (number: string) => ({ ...first!, number });
    const entry = (number: string) => ({
      certificate: numbered(number),
      written: day.states[0]!.readingWritten!,
      reason: 'calibrated again',
    });
    const after = {
      ...day,
      certificates: [numbered('3'), ...others],
      replacedCertificates: [entry('1'), entry('2')],
    };
    const inForce = [1, 2, 3].map((issue) => sessionOfIssue(after, issue).certificates[0]!.number);
    expect(inForce).toEqual(['1', '2', '3']);
    for (const none of [0, 1.5, 4]) expect(() => sessionOfIssue(after, none)).toThrow(RangeError);
  });
});
