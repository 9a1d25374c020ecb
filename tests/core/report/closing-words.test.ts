import { expect, it } from 'vitest';
import { CLOSING_WORDS } from '#core/report/closing-words.ts';

it('says every finding in other words than its name', () => {
  for (const [cause, words] of Object.entries(CLOSING_WORDS)) {
    expect(words).not.toBe(cause);
    expect(words.length).toBeGreaterThan(10);
  }
});
