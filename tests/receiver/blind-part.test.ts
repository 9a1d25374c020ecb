import { describe, expect, it } from 'vitest';
import { BlindPart } from '#receiver/blind-part.ts';

const state = { all: () => 'all', blind: () => 'part', states: [0] };
const picture = { whole: () => 'whole', news: () => 'news', blind: () => 'no heel', state: 1 };

describe('what a browser was sent of the sensors', () => {
  it('is counted over all its windows: another one that shows the heel makes a reading not blind', () => {
    const seen = new Set<number>();
    const byEye = new BlindPart(seen, true);
    const other = new BlindPart(seen, false);
    const reading = {
      ...{ state: 1, instrument: 'P', kind: 'pendulum' as const, lengthMm: 2500 },
      ...{ extremesMm: [1], reader: 'R' },
    };
    const act = { kind: 'hand-reading' as const, reading };
    expect([byEye.ofState(state), byEye.ofPicture(picture, true)]).toEqual(['part', 'no heel']);
    expect(byEye.said(act)).toMatchObject({ reading: { blind: true } });
    expect([other.ofState(state), other.ofPicture(picture, true)]).toEqual(['all', 'whole']);
    expect(byEye.said(act)).toMatchObject({ reading: { blind: false } });
  });

  it('leaves every other act as it is', () => {
    const act = { kind: 'begin-shift' as const };
    expect(new BlindPart(new Set(), false).said(act)).toBe(act);
  });
});
