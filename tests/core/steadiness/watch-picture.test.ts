import { describe, expect, it } from 'vitest';
import { NotUsedStretches } from '#core/steadiness/not-used.ts';
import { Track } from '#core/steadiness/track.ts';
import { drawPicture, leadingParts, partsOf, periodOf } from '#core/steadiness/watch-picture.ts';
import { simulatedHeel } from '../../support/simulated-heel.ts';

function trackOf(instrument: string, settlingS: number, refused: string | null = null): Track {
  const track = new Track({ instrument, label: instrument, settlingS, refused });
  track.beginState(0);
  simulatedHeel({ seed: 1, lengthS: 90, rollDeg: 0.05 }).forEach((heel, k) => {
    track.push((k + 1) / 10, heel);
  });
  return track;
}

const scene = (tracks: readonly Track[], nowS = 90.5) => ({
  nowS,
  tracks,
  stretches: new NotUsedStretches(),
  accuracy: { targetStandardErrorDeg: 0.006, bestAfterS: 90, worstStandardErrorDeg: 0.03 },
  zeroDeg: new Map<string, number>(),
  memory: { steady: false, outOfReach: false },
});

const begun = (kind: string, instrument: string | null) => ({
  kind,
  fromS: 85,
  noticedS: 86,
  instrument,
  evidence: 'seen',
});

describe('picture of the watch', () => {
  it('leads by the quick instruments where there are any, and leaves out refused ones', () => {
    const [fore, tube, spare] = [
      trackOf('fore', 1),
      trackOf('tube', 33),
      trackOf('spare', 1, 'no'),
    ];
    const parts = partsOf([tube!, fore!, spare!], new NotUsedStretches());
    expect(parts.map(({ instrument }) => instrument)).toEqual(['tube', 'fore']);
    expect(leadingParts(parts).map(({ instrument }) => instrument)).toEqual(['fore']);
    expect(periodOf(parts)!.track).toBe(fore);
    expect(leadingParts(parts.slice(0, 1)).map(({ instrument }) => instrument)).toEqual(['tube']);
    expect(periodOf([])).toBeNull();
  });

  it('is steady with figures in its reason, and readable only then', () => {
    const picture = drawPicture(scene([trackOf('fore', 1)]));
    expect(picture.joined).toMatchObject({ verdict: 'steady', readable: true, whyNot: null });
    expect(picture.joined.reason).toMatch(/^±0\.0\d\d° over \d\d s$/);
    expect(picture.joined.rollPeriodS).toBeCloseTo(4.7, 0);
  });

  it('puts the vessel before the instrument, and moving a weight before all', () => {
    const tracks = [trackOf('fore', 1), trackOf('aft', 1), trackOf('mid', 1)];
    const own = scene(tracks);
    own.stretches.begin(begun('knock', 'aft'));
    expect(drawPicture(own).joined.verdict).toBe('steady');
    expect(drawPicture(own).instruments[1]!.reason).toBe('knock, this instrument only');
    const vessel = scene(tracks);
    vessel.stretches.begin(begun('wake', null));
    const { joined, instruments } = drawPicture(vessel);
    expect(joined).toMatchObject({ verdict: 'disturbed', reason: 'wake, all three instruments' });
    expect(joined.readable).toBe(false);
    expect(instruments.every(({ verdict }) => verdict === 'disturbed')).toBe(true);
    const carrying = scene(tracks);
    carrying.stretches.begin(begun('carrying', null));
    expect(drawPicture(carrying).joined).toMatchObject({
      verdict: 'settling',
      reason: 'weight is being moved',
      estimate: null,
    });
  });

  it('is disturbed when every instrument is, each in its own way', () => {
    const all = scene([trackOf('fore', 1)]);
    all.stretches.begin(begun('stuck', 'fore'));
    expect(drawPicture(all).joined).toMatchObject({
      verdict: 'disturbed',
      reason: 'stuck value for 6 s',
    });
  });
});
