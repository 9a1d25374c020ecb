import { describe, expect, it } from 'vitest';
import { radiansFromDegrees } from '#core/quantity/angle.ts';
import type { Asked } from '#core/stability/asked.ts';
import type { Levers } from '#core/stability/evidence.ts';
import {
  areaAnswer,
  heelReached,
  leverAnswer,
  listAnswer,
  maximumAnswer,
  rangeAnswer,
} from '#core/stability/lever-quantities.ts';
import { leversOf, madeEvidence } from '../../support/made-evidence.ts';

// GZ = 0.4 sin 2h: greatest 0.4 at 45, vanishing at 90, area 0.2 (1 - cos 2h).
const sine = (mostDeg = 90): Levers =>
  leversOf(
    (heel) => 0.4 * Math.sin(2 * heel),
    (heel) => 0.2 * (1 - Math.cos(2 * heel)),
    radiansFromDegrees(mostDeg),
  );

function asked(levers: Levers, floodsDeg: number | null = null): Asked {
  const floods = floodsDeg === null ? null : radiansFromDegrees(floodsDeg);
  return {
    evidence: madeEvidence({ levers, downfloodingRad: () => floods }),
    side: 'starboard',
    method: 'exact',
  };
}

describe('quantities of the righting lever', () => {
  it('areas stop at flooding, and are none where she floods before they begin', () => {
    expect(areaAnswer(asked(sine()), 0, 30, 'open-at-sea')).toMatchObject({
      value: expect.closeTo(0.1, 12),
    });
    expect(areaAnswer(asked(sine(), 30), 0, 40, 'open-at-sea')).toMatchObject({
      value: expect.closeTo(0.1, 12),
    });
    expect(areaAnswer(asked(sine(), 30), 0, 45, null)).toMatchObject({
      value: expect.closeTo(0.2, 12),
    });
    expect(areaAnswer(asked(sine(), 28), 30, 40, 'open-at-sea')).toMatchObject({
      value: 0,
      note: 'floods-before',
    });
    expect(areaAnswer(asked(sine()), 0, 'maximum', null)).toMatchObject({
      value: expect.closeTo(0.2, 7),
    });
  });

  it('are not guessed beyond the heels that are known', () => {
    expect(areaAnswer(asked(sine(35)), 0, 40, null)).toMatchObject({
      known: false,
      code: 'levers-too-short',
    });
    expect(areaAnswer(asked(sine(35), 34), 0, 40, 'open-at-sea')).toMatchObject({ known: true });
    expect(leverAnswer(asked(sine(25)), 30, 90, null)).toMatchObject({ known: false });
    expect(leverAnswer(asked(sine(35)), 30, 90, null)).toMatchObject({
      known: true,
      atLeast: true,
    });
    expect(maximumAnswer(asked(sine(35)), null)).toMatchObject({ atLeast: true });
    expect(rangeAnswer(asked(sine(50)), null)).toMatchObject({
      atLeast: true,
      note: 'positive-to-the-end',
    });
  });

  it('the greatest lever from a heel on', () => {
    expect(leverAnswer(asked(sine()), 30, 90, null)).toMatchObject({
      value: expect.closeTo(0.4, 12),
      atLeast: false,
    });
    expect(leverAnswer(asked(sine()), 60, 90, null)).toMatchObject({
      value: expect.closeTo(0.4 * Math.sin((2 * Math.PI) / 3), 12),
    });
    expect(leverAnswer(asked(sine(), 35), 30, 90, 'open-at-sea')).toMatchObject({
      value: expect.closeTo(0.4 * Math.sin((70 * Math.PI) / 180), 12),
      atLeast: false,
    });
    expect(leverAnswer(asked(sine(), 20), 30, 90, 'open-at-sea')).toMatchObject({
      value: 0,
      note: 'floods-before',
    });
  });

  it('its heel, the range, the list', () => {
    expect(maximumAnswer(asked(sine()), null)).toMatchObject({
      value: expect.closeTo(45, 5),
      atLeast: false,
    });
    expect(maximumAnswer(asked(sine(), 30), 'open-at-sea')).toMatchObject({
      value: expect.closeTo(30, 9),
      atLeast: false,
    });
    const short = leversOf(
      (heel) => 0.3 * Math.sin(3 * heel) - 0.1,
      (heel) => 0.1 * (1 - Math.cos(3 * heel)) - 0.1 * heel,
    );
    const list = (Math.asin(1 / 3) / 3) * (180 / Math.PI);
    expect(listAnswer(asked(short))).toMatchObject({ value: expect.closeTo(list, 10) });
    expect(rangeAnswer(asked(short), null)).toMatchObject({
      value: expect.closeTo(60 - list, 10),
      atLeast: false,
    });
    expect(rangeAnswer(asked(short, 40), 'open-at-sea')).toMatchObject({
      value: expect.closeTo(40, 10),
    });
    const none = leversOf(
      (heel) => -heel,
      (heel) => (-heel * heel) / 2,
    );
    expect(rangeAnswer(asked(none), null)).toMatchObject({ value: 0 });
    expect(listAnswer(asked(none))).toMatchObject({ value: 90, note: 'no-rest' });
    expect(heelReached(null)).toMatchObject({ value: 90, note: 'none-within-reach' });
  });
});
