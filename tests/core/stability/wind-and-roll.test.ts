import { describe, expect, it } from 'vitest';
import { radiansFromDegrees } from '#core/quantity/angle.ts';
import { SPAIN_ROLL, SPAIN_WIND } from '#core/stability/rules/wind-and-roll-tables.ts';
import {
  rollToWindward,
  windAndRollAnswer,
  windHeelAnswer,
  windLever,
} from '#core/stability/wind-and-roll.ts';
import { leversOf, type Made, madeEvidence } from '../../support/made-evidence.ts';

const levers = leversOf(
  (heel) => 0.4 * Math.sin(2 * heel),
  (heel) => 0.2 * (1 - Math.cos(2 * heel)),
);

const asked = (made: Made = {}) => ({
  evidence: madeEvidence({ levers, ...made }),
  side: 'starboard' as const,
  method: 'exact' as const,
});

const whole = {
  kind: 'wind-and-roll',
  wind: SPAIN_WIND,
  gustTimes: 1.5,
  roll: SPAIN_ROLL,
  toDeg: 50,
  stops: 'open-at-sea',
} as const;

describe('wind and roll', () => {
  it('has the wind as P A Z over 1000 g displacement', () => {
    // 386 N/m2 at 2 m; 40 m2, 2.8 m, 60 t.
    const lever = (386 * 40 * 2.8) / (1000 * 9.80665 * 60);
    expect(windLever(asked(), SPAIN_WIND)).toMatchObject({ value: expect.closeTo(lever, 14) });
    expect(windHeelAnswer(asked(), { kind: 'wind-heel', wind: SPAIN_WIND })).toMatchObject({
      value: expect.closeTo((Math.asin(lever / 0.4) / 2) * (180 / Math.PI), 9),
    });
    expect(windLever(asked({ windage: null }), SPAIN_WIND)).toMatchObject({
      code: 'windage-not-given',
    });
  });

  it('has the printed roll to windward', () => {
    // B/d 3.125 (X1 .875), Cb .5 (X2 .82), k 1, OG .6, r = .73 + .6 .6/1.6 = .955.
    const c = 0.373 + 0.023 * 3.125 - (0.043 * 15) / 100;
    const gmM = ((2 * c * 5) / 10) ** 2; // a period of 10 s: s halfway from .093 to .065
    expect(rollToWindward(asked({ gmM }), SPAIN_ROLL)).toMatchObject({
      value: expect.closeTo(109 * 0.875 * 0.82 * Math.sqrt(0.955 * 0.079), 9),
      fromMemory: false,
    });
  });

  it('says that a quick roll rests on a row from memory', () => {
    // GM 0.9 m: 4.6 s.
    expect(rollToWindward(asked(), SPAIN_ROLL)).toMatchObject({
      value: expect.closeTo(109 * 0.875 * 0.82 * Math.sqrt(0.955 * 0.1), 9),
      fromMemory: true,
    });
    expect(windAndRollAnswer(asked(), whole)).toMatchObject({ fromMemory: true });
  });

  it('has keels: printed by their area, sharp bilges, round ones without, or not known', () => {
    const value = (vessel: Made['vessel']) => {
      const answer = rollToWindward(asked({ vessel: vessel! }), SPAIN_ROLL);
      return answer.known ? answer.value : answer.code;
    };
    const bare = value({}) as number;
    expect(value({ bilge: 'sharp' })).toBeCloseTo(0.7 * bare, 10);
    expect(value({ keelAreaM2: 1.3125 })).toBeCloseTo(0.915 * bare, 10); // 1.75: halfway .95 to .88
    expect(value({ bilge: null })).toBe('particulars-not-given');
    expect(value({ keelAreaM2: null })).toBe('particulars-not-given');
    expect(value({ beamM: null })).toBe('particulars-not-given');
  });

  it('compares the areas in closed form', () => {
    const made: Made = { gmM: 0.2, downfloodingRad: () => radiansFromDegrees(48) };
    const wind = windLever(asked(made), SPAIN_WIND);
    const roll = rollToWindward(asked(made), SPAIN_ROLL);
    if (!wind.known || !roll.known) throw new Error('not known');
    const lever = 1.5 * wind.value;
    const start = Math.asin(wind.value / 0.4) / 2 - radiansFromDegrees(roll.value);
    const meet = Math.asin(lever / 0.4) / 2;
    const end = radiansFromDegrees(48);
    const righting = (from: number, to: number) => 0.2 * (Math.cos(2 * from) - Math.cos(2 * to));
    const a = lever * (meet - start) - righting(start, meet);
    const b = righting(meet, end) - lever * (end - meet);
    expect(start).toBeLessThan(0);
    expect(windAndRollAnswer(asked(made), whole)).toMatchObject({
      value: expect.closeTo(b / a, 8),
    });
  });

  it('is nought where a gust leaves no rest or floods her, and not known beyond the levers', () => {
    const storm = { areaM2: 400, heightOverWaterM: 4, leverM: 4 };
    expect(windAndRollAnswer(asked({ windage: storm }), whole)).toMatchObject({
      value: 0,
      note: 'no-rest',
    });
    expect(windAndRollAnswer(asked({ downfloodingRad: () => 0.05 }), whole)).toMatchObject({
      note: 'floods-before',
    });
    const short = leversOf(levers.leverM, (heel) => levers.areaMRad(0, heel), 0.3);
    expect(windAndRollAnswer(asked({ levers: short }), whole)).toMatchObject({
      code: 'levers-too-short',
    });
  });

  it('lets a vessel without GM roll as slowly as the table goes', () => {
    expect(rollToWindward(asked({ gmM: -0.1 }), SPAIN_ROLL)).toMatchObject({
      value: expect.closeTo(109 * 0.875 * 0.82 * Math.sqrt(0.955 * 0.035), 9),
    });
  });
});
