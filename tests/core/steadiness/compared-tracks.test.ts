import { describe, expect, it } from 'vitest';
import { createRandom } from '#core/numerics/random.ts';
import { type Alone, ComparedTracks } from '#core/steadiness/compared-tracks.ts';
import { Track } from '#core/steadiness/track.ts';

/** Three instruments of one roll; what the last shows beyond the others, by time. */
function compared(beyond: (atS: number) => number) {
  const tracks = ['fore', 'aft', 'mid'].map(
    (instrument) => new Track({ instrument, label: instrument, settlingS: 0, refused: null }),
  );
  const all = new ComparedTracks();
  const random = createRandom(9);
  const found: { atS: number; alone: Alone }[] = [];
  for (const track of tracks) track.beginState(0);
  for (let tenth = 1; tenth <= 900; tenth++) {
    const atS = tenth / 10;
    tracks.forEach((track, n) => {
      const own = n === 2 ? beyond(atS) : 0;
      track.push(atS, 0.1 * Math.sin(1.3 * atS) + own + random.normal(0.003));
    });
    const alone = all.compare(tracks, () => true, atS);
    if (alone !== null) found.push({ atS, alone });
  }
  return { all, tracks, found };
}

describe('instruments against each other', () => {
  it('finds nothing where all show the same', () => {
    expect(compared(() => 0).found).toEqual([]);
  });

  it('finds the one that was knocked, at once', () => {
    const { found, all, tracks } = compared((atS) => (atS > 40 ? 0.1 : 0));
    expect(found[0]!.alone).toMatchObject({ kind: 'knock', track: tracks[2] });
    expect(found[0]!.atS).toBeLessThan(41.5);
    expect(found[0]!.alone.evidence).toMatch(/^mid alone jumped by 0\.(0[6-9]|1)/);
    expect(all.isOwn(tracks[2]!, 90)).toBe(true);
    expect(all.isApart(tracks[0]!)).toBe(false);
    expect(all.driftWords(tracks[2]!)).toBeNull();
  });

  it('finds the one that drifts by a hundredth of a degree in half a minute', () => {
    const { found, tracks } = compared((atS) => Math.max(0, (atS - 30) * 0.0004));
    expect(found[0]!.alone).toMatchObject({ kind: 'drift', track: tracks[2] });
    expect(found[0]!.alone.evidence).toMatch(/^mid alone has drifted by 0\.0/);
  });

  it('gives the others a moment to feel it too', () => {
    const { all, tracks } = compared(() => 0);
    expect(all.waits(tracks[0]!, 100)).toBe(true);
    expect(all.waits(tracks[0]!, 100.4)).toBe(true);
    expect(all.waits(tracks[0]!, 101.2)).toBe(false);
    expect(all.waits(tracks[0]!, 120)).toBe(true);
    expect(all.quietS(tracks[0]!, 100, 90)).toBe(10);
  });
});
