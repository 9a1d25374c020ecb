import { describe, expect, it } from 'vitest';
import { ADVICE } from '#core/quantity/advice.ts';

describe('what is to be thought over', () => {
  it.each(Object.entries(ADVICE))(
    '%s says what it means, what to do, and on what it rests',
    (code, advice) => {
      expect(code).toMatch(/^[a-z]+(-[a-z]+)+$/);
      // It is put after a place and a figure, so it begins small; the remedy is a sentence of its own.
      expect(advice.means).toMatch(/^[a-z0-9].*[^.]$/);
      expect(advice.remedy).toMatch(/^[A-Z].*\.$/s);
      // A clause that was not read says so; a limit nobody printed is ours and says so.
      if (/IS Code annex/.test(advice.clause)) expect(advice.clause).toMatch(/from memory/);
      expect(advice.clause).not.toBe('');
    },
  );
});
