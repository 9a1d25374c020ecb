import { describe, expect, it } from 'vitest';
import { Track } from '#core/steadiness/track.ts';
import { simulatedHeel } from '../../support/simulated-heel.ts';

const tube = { instrument: 'tube', label: 'Water tube', settlingS: 20, refused: null };
const fore = { instrument: 'fore', label: 'Fore', settlingS: 0, refused: null };

function fed(track: Track, lengthS: number, seed = 1, fromS = 0): Track {
  simulatedHeel({ seed, lengthS }).forEach((heel, k) => {
    track.push(fromS + (k + 1) / 10, heel);
  });
  return track;
}

describe('track of one instrument', () => {
  it('counts only after the instrument has settled, and nothing is said under three periods', () => {
    const track = new Track(tube);
    track.beginState(0);
    fed(track, 30);
    expect(track.countedS).toBeGreaterThan(8);
    expect(track.countedS).toBeLessThan(10.5);
    expect(track.settlesInS(5)).toBe(15);
    expect(track.estimate()).toBeNull();
    expect(track.isPrompt).toBe(false);
  });

  it('knows the heel after that, and no longer once it is barred from the beginning', () => {
    const track = new Track(fore);
    track.beginState(0);
    fed(track, 60);
    const estimate = track.estimate()!;
    expect(Math.abs(estimate.heelDeg - 1.25)).toBeLessThan(4 * estimate.standardErrorDeg);
    expect(track.model!.periodS).toBeCloseTo(4.7, 0);
    const { fromS, toS } = track.window()!;
    expect([fromS >= 0.8, toS <= 60]).toEqual([true, true]);
    track.bar(0);
    expect(track.countedS).toBe(0);
    expect(track.estimate()).toBeNull();
    expect(track.window()).toBeNull();
  });

  it('does not count what is barred, and counts again after', () => {
    const track = new Track(fore);
    track.beginState(0);
    fed(track, 40);
    const before = track.countedS;
    track.bar(35);
    expect(track.countedS).toBeCloseTo(before - 5, 0);
    fed(track, 10, 2, 40);
    expect(track.countedS).toBeCloseTo(before - 5, 0);
    track.unbar();
    fed(track, 20, 3, 50);
    expect(track.countedS).toBeCloseTo(before + 15, 0);
  });

  it('keeps what a reading taught for the next state, but none of its heel', () => {
    const track = new Track(fore);
    track.beginState(0);
    expect(track.judge).toBeNull();
    fed(track, 60);
    track.teach();
    track.beginState(60);
    expect(track.estimate()).toBeNull();
    expect(track.countedS).toBe(0);
    expect(track.periodS).toBeCloseTo(4.7, 0);
    expect(track.judge).not.toBeNull();
    track.startOver(70);
    expect(track.judge).toBeNull();
  });

  it('leaves a block with a missing sample out, and is not moved by a sample too late', () => {
    const track = new Track(fore);
    track.beginState(0);
    fed(track, 10);
    const counted = track.countedS;
    track.push(5, 99);
    for (const atS of [10.1, 10.2, 10.3]) track.push(atS, 1.25);
    track.push(10.4, null);
    for (let k = 105; k < 109; k++) track.push(k / 10, 1.25);
    // 10.4 to 10.7 s is one block
    expect(track.lastBlock()).toEqual({ block: 26, heelDeg: Number.NaN });
    expect(track.countedS).toBeCloseTo(counted + 0.4, 9);
    for (let k = 109; k < 112; k++) track.push(k / 10, 1.25);
    expect(track.lastBlock().heelDeg).toBeCloseTo(1.25, 9);
  });
});
