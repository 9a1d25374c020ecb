import { describe, expect, it } from 'vitest';
import { changesOf, fieldChanges } from '#core/session/changes.ts';
import { TEST_BODY } from '#tests/support/record-lines.ts';
import { aDay } from './a-day.ts';

describe('what changed earlier lines', () => {
  it('is nothing on a plain day, and names each certificate by its successor', () => {
    const day = aDay({ states: 1 });
    expect(changesOf(day)).toEqual([]);
    const [first, ...others] = day.certificates;
    const numbered = (number: string) => ({ ...first!, number });
    const at = day.states[0]!.readingWritten!;
    const after = {
      ...day,
      certificates: [numbered('3'), ...others],
      replacedCertificates: ['1', '2'].map((number, k) => ({
        certificate: numbered(number),
        written: { ...at, line: 20 + k },
        reason: 'again',
      })),
    };
    expect(changesOf(after).map(({ what }) => what)).toEqual([
      'certificate 1 of fore replaced by 2',
      'certificate 2 of fore replaced by 3',
    ]);
  });

  it('says a field in words with its values as written', () => {
    expect(
      fieldChanges({ kind: 'test-opened', body: TEST_BODY }, [
        { field: ['particulars', 'beamM'], was: 5, is: 5.25 },
      ]),
    ).toEqual([{ field: 'beam, m', was: 5, is: 5.25 }]);
  });
});
