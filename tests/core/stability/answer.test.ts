import { describe, expect, it } from 'vitest';
import { known, UNKNOWN, unknown } from '#core/stability/answer.ts';

describe('an answer to a clause', () => {
  it('is a figure with what must be known beside it, or why there is none', () => {
    expect(known(0.35)).toEqual({
      known: true,
      value: 0.35,
      note: null,
      atLeast: false,
      fromMemory: false,
    });
    expect(known(90, { note: 'no-rest' })).toMatchObject({ value: 90, note: 'no-rest' });
    expect(unknown('windage-not-given', 'area')).toEqual({
      known: false,
      code: 'windage-not-given',
      detail: 'area',
    });
    for (const words of Object.values(UNKNOWN)) expect(words).toMatch(/^[a-z].*[^.]$/);
  });
});
