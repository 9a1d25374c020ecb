import { describe, expect, it } from 'vitest';
import { type CorrectableBody, correctableFields } from '#core/record/correctable.ts';
import { fieldWords } from '#core/record/field-words.ts';
import { PLACE, TEST_BODY } from '#tests/support/record-lines.ts';

describe('a field in words', () => {
  const opening: CorrectableBody = { kind: 'test-opened', body: TEST_BODY };
  it('names the weight, the shift and the unit', () => {
    expect(fieldWords(opening, ['weights', 1, 'massT'])).toBe('weight B, mass, t');
    expect(fieldWords(opening, ['weights', 0, 'at', 'yM'])).toBe(
      'weight A, stands to starboard of the centreline, m',
    );
    expect(fieldWords(opening, ['plan', 1, 'moves', 0, 'to', 'yM'])).toBe(
      'planned shift 2, weight A goes to starboard of the centreline, m',
    );
    const shift: CorrectableBody = {
      kind: 'shift-begun',
      body: {
        state: 1,
        moves: [{ weight: 'A', from: PLACE(-2), to: PLACE(2) }],
        heelingMomentTM: 1,
        predictedHeelDeg: null,
        predictedStandardErrorDeg: null,
      },
    };
    expect(fieldWords(shift, ['moves', 0, 'to', 'zM'])).toBe(
      'weight A, set down over the baseline, m',
    );
  });

  it('has words for every field that can be corrected, all different', () => {
    const words = correctableFields(opening).map(({ field }) => fieldWords(opening, field));
    for (const each of words) expect(each).toMatch(/ |,|KM/);
    expect(new Set(words).size).toBe(words.length);
  });
});
