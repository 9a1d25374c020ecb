import type { Kept } from '#ui/link/person.ts';

/** What a browser keeps, in memory. */
export function keptStore(): Kept {
  const stored = new Map<string, string>();
  return {
    getItem: (key) => stored.get(key) ?? null,
    setItem: (key, value) => {
      stored.set(key, value);
    },
    removeItem: (key) => {
      stored.delete(key);
    },
  };
}
