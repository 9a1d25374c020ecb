import { describe, expect, it } from 'vitest';
import { keepName, keptName, MOST_NAME_LETTERS } from '#ui/link/person.ts';
import { keptStore } from '../../support/kept-store.ts';

describe('who looks at a screen', () => {
  it('keeps its name for the next visit, one for each role', () => {
    const store = keptStore();
    keepName({ role: 'architect', name: 'E. Thorne' }, store);
    expect(keptName('architect', store)).toBe('E. Thorne');
    expect(keptName('witness', store)).toBe('');
    expect(keptName(null, store)).toBe('');
  });

  it('gives no more letters than a name may have, whatever was kept', () => {
    const store = keptStore();
    keepName({ role: 'witness', name: `  ${'x'.repeat(200)}` }, store);
    expect(keptName('witness', store)).toHaveLength(MOST_NAME_LETTERS);
  });
});
