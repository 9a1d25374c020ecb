import { describe, expect, it } from 'vitest';
import { NotUsedStretches } from '#core/steadiness/not-used.ts';
import { OwnFaults, silenceEvidence } from '#core/steadiness/own-faults.ts';
import { Track } from '#core/steadiness/track.ts';

function watched() {
  const track = new Track({ instrument: 'fore', label: 'Fore', settlingS: 0, refused: null });
  const stretches = new NotUsedStretches();
  const faults = new OwnFaults(
    stretches,
    (of, stretch) => stretches.begin({ ...stretch, instrument: of.watched.instrument }),
    (_, stretch, atS) => stretches.end(stretch, atS),
  );
  let tenth = 0;
  const feed = (count: number, heelOf: (atS: number) => number | null) => {
    for (let k = 0; k < count; k++) {
      const atS = ++tenth / 10;
      faults.inspect(track, atS, heelOf(atS), atS);
      track.push(atS, heelOf(atS));
      if (tenth % 4 === 0) faults.review(track, atS, true);
    }
  };
  return { track, stretches, feed, now: () => stretches.of('fore')?.kind ?? null };
}
const rolling = (atS: number) => 0.2 * Math.sin(1.3 * atS) + 0.003 * Math.sin(1e4 * atS);

describe('what is wrong with one instrument', () => {
  it('finds a stuck value, one at its end and a shaking one, and when they are over', () => {
    const { feed, now } = watched();
    feed(150, rolling);
    expect(now()).toBeNull();
    feed(40, () => 0.123);
    expect(now()).toBe('stuck');
    feed(40, rolling);
    expect(now()).toBeNull();
    feed(10, (atS) => 30 + rolling(atS));
    expect(now()).toBe('saturated');
    feed(40, rolling);
    expect(now()).toBeNull();
    feed(40, (atS) => rolling(atS) + 0.1 * Math.sin(1e5 * atS));
    expect(now()).toBe('vibration');
    feed(80, rolling);
    expect(now()).toBeNull();
  });

  it('takes a jump against the others back where it was the beginning of a stuck value', () => {
    const { feed, now, stretches } = watched();
    feed(50, rolling);
    const alone = { kind: 'knock', fromS: 5, noticedS: 5, instrument: 'fore', evidence: 'jumped' };
    stretches.begin(alone);
    feed(40, () => 0.4);
    expect(now()).toBe('stuck');
    expect(alone.evidence).toMatch(/^Fore repeats/);
  });

  it('ends a silence with the next value, and notes one that had not been heard', () => {
    const { feed, now, stretches, track } = watched();
    feed(30, rolling);
    feed(20, () => null);
    feed(1, rolling);
    expect(now()).toBeNull();
    expect(stretches.report().map(({ kind }) => kind)).toEqual(['silent']);
    expect(silenceEvidence(track)).toBe('no value from Fore');
  });
});
