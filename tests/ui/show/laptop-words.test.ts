import { describe, expect, it } from 'vitest';
import { LAPTOP_MATTERS } from '#core/record/line.ts';
import { laptopWords } from '#ui/show/laptop-words.ts';

describe('laptopWords', () => {
  it('says of every matter what it is and what to do, in whole sentences', () => {
    for (const matter of LAPTOP_MATTERS) {
      expect(laptopWords(matter).title).toMatch(/^[A-Z].*\.$/);
      expect(laptopWords(matter).remedy).toMatch(/^[A-Z].*\.$/);
    }
    expect(new Set(LAPTOP_MATTERS.map((matter) => laptopWords(matter).title)).size).toBe(6);
  });
});
