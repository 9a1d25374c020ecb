import { describe, expect, it } from 'vitest';
import { LAPTOP_MATTERS, type LaptopMatter } from '#core/record/laptop-line.ts';
import { laptopWords } from '#ui/show/laptop-words.ts';

const wordsOf = (matter: LaptopMatter, station: string | null = null) =>
  laptopWords({ matter, station, severity: 'notice', found: '', sinceS: 0 });

describe('laptopWords', () => {
  it('says of every matter what it is and what to do, in whole sentences', () => {
    for (const matter of LAPTOP_MATTERS) {
      expect(wordsOf(matter).title).toMatch(/^[A-Z].*\.$/);
      expect(wordsOf(matter).remedy).toMatch(/^[A-Z].*\.$/);
    }
    expect(new Set(LAPTOP_MATTERS.map((matter) => wordsOf(matter).title)).size).toBe(6);
  });

  it('tells the disk of a board side from that of the laptop', () => {
    expect(wordsOf('disk', 'station-a').title).toBe('A board side has no room for samples.');
    expect(wordsOf('disk').title).toMatch(/^The disk/);
  });
});
