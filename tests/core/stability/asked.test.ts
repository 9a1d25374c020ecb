import { describe, expect, it } from 'vitest';
import { acrossOf, leversOf, stopRad } from '#core/stability/asked.ts';
import { leversAt, madeEvidence } from '../../support/made-evidence.ts';

describe('a condition seen from one side', () => {
  const [starboard, port] = [
    leversAt({ 0: 0, 30: 0.3, 60: 0.2 }),
    leversAt({ 0: 0, 30: 0.2, 60: 0.1 }),
  ];
  const evidence = madeEvidence({
    levers: starboard,
    downfloodingRad: (side, opened) =>
      side === 'port' ? (opened === 'weathertight' ? null : 0.7) : 0.9,
  });
  const both = { ...evidence, levers: (side: string) => (side === 'port' ? port : starboard) };

  it('has the levers of that side, and across', () => {
    expect(leversOf({ evidence: both, side: 'port', method: 'exact' })).toBe(port);
    expect(acrossOf({ evidence: both, side: 'port', method: 'exact' })).toBe(starboard);
    expect(acrossOf({ evidence: both, side: 'starboard', method: 'exact' })).toBe(port);
  });

  it('stops where openings of that state flood, or not at all', () => {
    const asked = { evidence, side: 'port', method: 'exact' } as const;
    expect(stopRad(asked, 'open-at-sea')).toBe(0.7);
    expect(stopRad(asked, 'weathertight')).toBeNull();
    expect(stopRad(asked, null)).toBeNull();
  });
});
