import { describe, expect, it } from 'vitest';
import { ACCURACY_WORDS, besideWords } from '../../../ui/result/agreement.ts';
import { fixed, signed } from '../../../ui/show/figure.ts';

const told = {
  pendulum: 'Pendulum',
  blindStates: 7,
  states: 9,
  varianceRatio: 0.012,
  lower95: 0.003,
  upper95: 0.21,
  slopeDifference: -0.0013,
  slopeUncertainty: 0.002,
  slopesAgree: true,
  answer: 'shown',
} as const;

describe('agreement in words', () => {
  it('says ratio, bounds, slopes and how many were read blind', () => {
    expect(besideWords(told, fixed, signed)).toBe(
      'Beside Pendulum: variance 0.0120 of its, 95 % bounds 0.0030 and 0.21, one-sided; slopes agree (\u22120.13 %); 7 of 9 states read blind.',
    );
    expect(besideWords({ ...told, slopesAgree: false }, fixed, signed)).toContain('do not agree');
    expect(besideWords({ ...told, states: 3, varianceRatio: null }, fixed, signed)).toContain(
      '3 states, five are needed',
    );
  });

  it('has three answers', () => {
    expect(new Set(Object.values(ACCURACY_WORDS)).size).toBe(3);
  });
});
