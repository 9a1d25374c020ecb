import { describe, expect, it } from 'vitest';
import { SPAIN_FISHING, SPAIN_WIND_AND_ROLL } from '#core/stability/rules/spain-fishing.ts';
import { notMet, verdictsOf } from '../../../support/clause-verdicts.ts';
import { leversAt, type Made, madeEvidence } from '../../../support/made-evidence.ts';

const of = (made: Made) => verdictsOf(SPAIN_FISHING, madeEvidence(made));
const rad = (deg: number) => (deg * Math.PI) / 180;

/** Area to 30 degrees between 0.055 and 0.065 m rad. */
const LITTLE = leversAt({
  0: 0,
  10: 0.09,
  20: 0.16,
  30: 0.22,
  40: 0.28,
  60: 0.25,
  75: 0.15,
  90: 0,
});
/** A roll period over 7 s, where no figure from memory enters. */
const SLOW: Made = {
  levers: LITTLE,
  gmM: 0.36,
  windage: { areaM2: 12, heightOverWaterM: 1.5, leverM: 1.8 },
};

describe('the Spanish set', () => {
  it('asks hatches to flood at 20 degrees or more, taken as open at the worst moment', () => {
    const floods = (deg: number): Made => ({
      downfloodingRad: (_, opened) => rad(opened === 'open-at-worst' ? deg : 60),
    });
    expect(of(floods(20.1))['hatches']).toBe('met');
    expect(notMet(SPAIN_FISHING, madeEvidence(floods(19.9)))).toEqual(['hatches']);
    expect(of({ downfloodingRad: () => null })['hatches']).toBe('met');
  });

  it('asks that the pull of the gear leaves the deck edge dry, where it is pulled', () => {
    const pull = (momentTM: number): Made => ({
      kind: 'leaving-grounds',
      moments: [
        { kind: 'gear-pull', words: 'rope winch', momentTM: () => momentTM, measured: null },
      ],
    });
    expect(of(pull(10))['gear-pull']).toBe('met');
    expect(notMet(SPAIN_FISHING, madeEvidence(pull(20)))).toEqual(['gear-pull']);
    // Pulled over altogether: she finds no rest, and the deck edge never comes under either.
    expect(of({ ...pull(50), deckEdgeRad: () => null })['gear-pull']).toBe('not-met');
    expect(of({ kind: 'leaving-grounds' })['gear-pull']).toBe('not-judged');
    expect(of({})['gear-pull']).toBe('not-asked');
  });

  it('asks of multihulls the area to the maximum, 0.070 at 15 and 0.055 at 30 degrees', () => {
    const multi = { hulls: 'multi' } as const;
    // 0.4 sin-like to 15 degrees: area just over and under .070.
    const to15 = (top: number) =>
      leversAt({
        0: 0,
        5: 0.6 * top,
        10: 0.9 * top,
        15: top,
        20: 0.95 * top,
        30: 0.9 * top,
        40: 0.8 * top,
        60: 0.5 * top,
        90: 0,
      });
    const stiff = of({ vessel: multi, levers: to15(0.45) });
    expect(stiff['area-to-maximum']).toBe('met');
    expect(stiff['heel-of-maximum']).toBe('not-asked');
    expect(notMet(SPAIN_FISHING, madeEvidence({ vessel: multi, levers: to15(0.3) }))).toEqual([
      'area-to-maximum',
    ]);
    expect(of({})['area-to-maximum']).toBe('not-asked');
    expect(of({ vessel: { hulls: null } })['area-to-maximum']).toBe('not-judged');
  });

  it('calls for wind, roll and water on deck where the dynamic stability is little', () => {
    expect(of({})).toMatchObject({ 'wind-and-roll': 'not-asked', 'water-on-deck': 'not-asked' });
    expect(of(SLOW)).toMatchObject({
      'area-0-30': 'met',
      'wind-heel': 'met',
      'wind-and-roll': 'met',
      'water-on-deck': 'not-judged',
    });
    // GM 0.9 m: a period under 7 s, a row from memory.
    expect(of({ ...SLOW, gmM: 0.9 })['wind-and-roll']).toBe('not-judged');
  });

  it('calls for them where nobody knows on which side of 0.065 she is', () => {
    const near = leversAt({
      0: 0,
      10: 0.09,
      20: 0.18,
      30: 0.25,
      40: 0.3,
      60: 0.25,
      75: 0.15,
      90: 0,
    });
    expect(of({ levers: near })['wind-heel']).toBe('not-asked');
    expect(of({ levers: near, kgUncertaintyM: 0.03 })['wind-heel']).not.toBe('not-asked');
  });

  it('refuses a vessel of 12 to 24 m by no other measure, and other trades', () => {
    for (const vessel of [
      { lengthsM: { regulation: 11.9 } },
      { lengthsM: { regulation: 24 } },
      { lengthsM: { overall: 16 } },
      { services: ['workboat'] as const },
      { services: null },
    ])
      expect(new Set(Object.values(of({ vessel })))).toEqual(new Set(['not-judged']));
  });
});

describe('wind and roll by itself', () => {
  // B 6.5 m gives a period over 7 s at GM 0.36 m.
  const judged: Made = {
    ...SLOW,
    vessel: { beamM: 6.5 },
    levers: leversAt({ 0: 0, 10: 0.09, 20: 0.2, 30: 0.3, 40: 0.34, 60: 0.3, 75: 0.15, 90: 0 }),
  };
  const wind = (made: Made) => verdictsOf(SPAIN_WIND_AND_ROLL, madeEvidence(made));

  it('judges where no figure from memory enters', () => {
    expect(wind(judged)).toEqual({ 'wind-heel': 'met', 'wind-and-roll': 'met' });
    expect(wind({ ...judged, gmM: 0.9 })).toEqual({
      'wind-heel': 'met',
      'wind-and-roll': 'not-judged',
    });
  });

  it('has a fail of either clause alone', () => {
    expect(wind({ ...judged, downfloodingRad: () => rad(20) })).toEqual({
      'wind-heel': 'met',
      'wind-and-roll': 'not-met',
    });
    expect(wind({ ...judged, deckEdgeRad: () => rad(1.5) })).toEqual({
      'wind-heel': 'not-met',
      'wind-and-roll': 'met',
    });
    expect(wind({ ...judged, windage: null })).toEqual({
      'wind-heel': 'not-judged',
      'wind-and-roll': 'not-judged',
    });
  });
});
