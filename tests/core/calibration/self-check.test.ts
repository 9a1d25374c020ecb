import { describe, expect, it } from 'vitest';
import { type SelfCheckInput, selfChecks } from '#core/calibration/self-check.ts';

const at = (instrument: string, afterDeg: number | null, noiseDeg = 0.003): SelfCheckInput => ({
  instrument,
  beforeDeg: 0,
  beforeErrorDeg: 0.001,
  afterDeg,
  afterErrorDeg: afterDeg === null ? null : 0.001,
  noiseDeg,
  certificateNoiseDeg: 0.003,
});

describe('self-check', () => {
  it('takes off what all show in common, and names the one that did not return', () => {
    const found = selfChecks([at('fore', 0.05), at('aft', 0.05), at('tube', 0.1)]);
    expect(found.map(({ troubles }) => troubles)).toEqual([[], [], ['zero-not-returned']]);
    expect(found[2]!.zeroReturnDeg).toBeCloseTo(0.05, 12);
  });

  it('with two instruments cannot tell the vessel from the instrument', () => {
    const found = selfChecks([at('fore', 0.05), at('aft', 0.05)]);
    expect(found.every(({ troubles }) => troubles.includes('zero-not-returned'))).toBe(true);
  });

  it('tells more noise than the certificate, and far less', () => {
    expect(selfChecks([at('fore', null, 0.007)])[0]!.troubles).toEqual(['noisier']);
    expect(selfChecks([at('fore', null, 0.0001)])[0]!.troubles).toEqual(['too-quiet']);
    expect(selfChecks([at('fore', null)])[0]!).toMatchObject({
      zeroReturnDeg: null,
      noiseRatio: 1,
      troubles: [],
    });
  });
});
