import { describe, expect, it } from 'vitest';
import { Track } from '#core/steadiness/track.ts';
import { degreesInWords, whatIsSeen } from '#core/steadiness/what-is-seen.ts';

describe('what a judge saw, in words', () => {
  const track = new Track({ instrument: 'fore', label: 'Fore', settlingS: 0, refused: null });

  it('gives small angles a digit more', () => {
    expect([0.3149, -0.0149].map(degreesInWords)).toEqual(['0.31°', '-0.015°']);
  });

  it('says swings of a forced motion, and a heel off its mean', () => {
    expect(whatIsSeen(track, { share: 1, kind: 'wake', blocks: 3 })).toMatch(/^motion out of step/);
    expect(whatIsSeen(track, { share: 1, kind: 'gust', blocks: 3 })).toMatch(
      /^heel lies off its mean/,
    );
  });
});
