import { describe, expect, it } from 'vitest';
import { keepName, personFromAddress } from '#ui/link/person.ts';

function kept() {
  const stored = new Map<string, string>();
  return {
    getItem: (key: string) => stored.get(key) ?? null,
    setItem: (key: string, value: string) => {
      stored.set(key, value);
    },
  };
}

describe('who looks at a screen', () => {
  it('is the architect unless the address says witness', () => {
    expect(personFromAddress('', kept())).toEqual({ role: 'architect', name: 'Architect' });
    expect(personFromAddress('?role=witness', kept()).role).toBe('witness');
    expect(personFromAddress('?role=captain', kept()).role).toBe('architect');
  });

  it('keeps its name for the next visit, one for each role', () => {
    const store = kept();
    keepName({ role: 'architect', name: 'E. Thorne' }, store);
    expect(personFromAddress('', store).name).toBe('E. Thorne');
    expect(personFromAddress('?role=witness', store).name).toBe('Witness');
  });
});
