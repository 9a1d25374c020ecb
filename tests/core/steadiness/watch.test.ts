import { describe, expect, it } from 'vitest';
import { createRandom } from '#core/numerics/random.ts';
import { createWatch } from '#core/steadiness/watch.ts';
import type { WatchedInstrument } from '#core/steadiness/watch-types.ts';
import { simulatedHeel } from '../../support/simulated-heel.ts';
import { type WatchedHeel, watchedHeel } from '../../support/watched-heel.ts';

const DAY_S = 1500;

/** A quiet day's heel about zero, the same roll for every instrument, each with its own noise. */
function quietDay(seed: number, rollDeg = 0.08, slowDeg = 0.003) {
  const roll = simulatedHeel({ seed, lengthS: DAY_S, meanDeg: 0, rollDeg, slowDeg, noiseDeg: 0 });
  const random = createRandom(seed, 'instruments');
  return (_instrument: string, atS: number) =>
    roll[Math.round(atS * 10) - 1]! + random.normal(0.003);
}

/** Feeds until a reading is offered; the seconds it took. */
function untilReadable(
  day: WatchedHeel,
  heel: (instrument: string, atS: number) => number,
): number {
  const fromS = day.nowS;
  while (day.nowS < fromS + 200) {
    day.feed(0.5, heel);
    if (day.pictures.at(-1)!.picture.joined.readable) return day.nowS - fromS;
  }
  throw new Error(`not readable: ${day.pictures.at(-1)!.picture.joined.reason}`);
}

describe('steadiness watch', () => {
  it('offers a reading after the zero and each weight, within 20 to 100 s, near the truth', () => {
    const day = watchedHeel();
    const roll = quietDay(1);
    let meanDeg = 0.4;
    const heel = (instrument: string, atS: number) =>
      meanDeg + (instrument === 'fore' ? 0.03 : -0.02) + roll(instrument, atS);
    day.watch.beginState(0);
    for (let state = 0; state < 5; state++) {
      if (state > 0) {
        day.watch.carrying(day.nowS);
        expect(day.watch.picture(day.nowS).joined).toMatchObject({
          verdict: 'settling',
          reason: 'weight is being moved',
          readable: false,
        });
        day.feed(20, heel);
        meanDeg += 0.9;
        day.watch.beginState(day.nowS);
      }
      const tookS = untilReadable(day, heel);
      expect(tookS).toBeGreaterThan(5 * 4.7 * 0.85);
      expect(tookS).toBeLessThan(100);
      const reading = day.watch.takeReading(day.nowS + 0.5);
      const fore = reading.instruments.find(({ instrument }) => instrument === 'fore')!;
      expect(Math.abs(fore.heelDeg - meanDeg - 0.03)).toBeLessThan(5 * fore.standardErrorDeg);
      expect(reading.joined.standardErrorDeg).toBeLessThan(0.0095);
      expect(reading.joined.degreesOfFreedom).toBeGreaterThan(1);
      expect(reading.rollPeriodS).toBeCloseTo(4.7, 0);
      expect(reading.countedS).toBeLessThanOrEqual(reading.toS - reading.fromS + 0.4);
      expect(reading.fromS).toBeGreaterThan(day.nowS - tookS - 1);
    }
    expect(day.watch.finished()).toEqual([]);
  });

  it('refuses a reading before its time, in the same words as the picture', () => {
    const day = watchedHeel();
    day.feed(10, quietDay(2));
    const { joined } = day.pictures.at(-1)!.picture;
    expect(joined.readable).toBe(false);
    expect(joined.whyNot).toMatch(/^\d+ s more$/);
    expect(() => day.watch.takeReading(10.5)).toThrow(/act-not-steady.* s more/);
  });

  it('keeps its word: once steady on a quiet day it stays steady', () => {
    let changes = 0;
    for (let seed = 10; seed < 12; seed++) {
      const day = watchedHeel();
      const heel = quietDay(seed);
      untilReadable(day, heel);
      day.watch.takeReading(day.nowS + 0.5);
      day.watch.beginState(day.nowS);
      day.feed(300, heel);
      const verdicts = day.pictures.map(({ picture }) => picture.joined.verdict);
      const last = verdicts.slice(verdicts.lastIndexOf('settling'));
      changes += last.filter((verdict, k) => k > 0 && verdict !== last[k - 1]).length - 1;
    }
    expect(changes).toBe(0);
  });

  it('rejects hardly anything of a quiet day: at most one in 20 minutes', () => {
    let rejections = 0;
    const days = 3;
    for (let seed = 20; seed < 20 + days; seed++) {
      const day = watchedHeel();
      const heel = quietDay(seed, 0.05 + 0.02 * (seed % 5));
      untilReadable(day, heel);
      day.watch.takeReading(day.nowS + 0.5);
      day.feed(1200, heel);
      rejections += day.watch.finished().length;
    }
    console.log(`rejections in ${days * 20} quiet minutes: ${rejections}`);
    expect(rejections).toBeLessThanOrEqual(days);
  });

  it('joins instruments: roll is counted once, noise shrinks, a slow one adds nothing', () => {
    const instrument = (name: string, settlingS: number): WatchedInstrument => ({
      instrument: name,
      label: name,
      settlingS,
      refused: null,
    });
    const day = watchedHeel({
      instruments: [instrument('fore', 1), instrument('aft', 1), instrument('tube', 33)],
    });
    untilReadable(day, quietDay(3));
    const reading = day.watch.takeReading(day.nowS + 0.5);
    const [fore, aft, tube] = reading.instruments;
    const mean = (fore!.standardErrorDeg + aft!.standardErrorDeg) / 2;
    expect(reading.joined.standardErrorDeg / mean).toBeGreaterThan(0.9);
    expect(reading.joined.standardErrorDeg / mean).toBeLessThanOrEqual(1.0001);
    expect(reading.joined.heelDeg).toBeCloseTo((fore!.heelDeg + aft!.heelDeg) / 2, 9);
    expect(tube!.standardErrorDeg).toBeGreaterThan(0);
    // Three of its periods after its own settling
    expect(reading.toS).toBeGreaterThan(33 + 3 * 4.7 - 2);
  });

  /** A wake over ten seconds of a quiet day, read until it has ended. */
  function wake(seed: number) {
    const day = watchedHeel();
    const quiet = quietDay(seed);
    untilReadable(day, quiet);
    day.watch.takeReading(day.nowS + 0.5);
    day.watch.beginState(day.nowS);
    const beganS = day.nowS;
    const heel = (name: string, atS: number) => {
      const s = atS - beganS - 40;
      return quiet(name, atS) + (s > 0 && s < 10 ? 0.5 * Math.sin(2.1 * s) : 0);
    };
    day.feed(75, heel);
    return { day, heel, beganS, found: [...day.watch.finished()] };
  }

  it('counts rejected time that a person answers for, and draws it no longer as left out', () => {
    const { day, beganS, found } = wake(5);
    const [stretch] = found;
    expect(found.map(({ instruments }) => instruments)).toEqual([null]);
    const before = day.watch.picture(day.nowS).joined;
    day.watch.overrule(stretch!);
    const after = day.watch.picture(day.nowS);
    const lengthS = stretch!.toS - stretch!.fromS;
    expect(after.joined.countedS - before.countedS).toBeGreaterThan(lengthS - 1);
    expect(after.joined.countedS - before.countedS).toBeLessThan(lengthS + 1);
    expect(after.joined.countedS).toBeLessThan(day.nowS - beganS);
    expect(after.notUsed).toEqual([]);
    // The wake is in the estimate now, and the estimate says so.
    expect(after.joined.estimate!.standardErrorDeg).not.toBe(before.estimate!.standardErrorDeg);
    day.watch.beginState(day.nowS);
    expect(day.watch.picture(day.nowS).joined.countedS).toBe(0);
  });

  it('leaves out what something else still stands against, and what was before the state', () => {
    const { day, found } = wake(6);
    const [stretch] = found;
    const before = day.watch.picture(day.nowS).joined.countedS;
    day.watch.overrule({ ...stretch!, instruments: ['aft'] });
    expect(day.watch.picture(day.nowS).joined.countedS).toBe(before);
    day.watch.overrule({ fromS: 0, toS: 30, instruments: null });
    expect(day.watch.picture(day.nowS).joined.countedS).toBe(before);
  });

  it('shows a refused instrument but does not use it', () => {
    const day = watchedHeel({
      instruments: [
        { instrument: 'fore', label: 'Fore', settlingS: 1, refused: null },
        { instrument: 'aft', label: 'Aft', settlingS: 1, refused: 'no certificate' },
      ],
    });
    const heel = quietDay(4);
    untilReadable(day, (name, atS) => heel(name, atS) + (name === 'aft' ? 5 : 0));
    const { picture } = day.pictures.at(-1)!;
    expect(picture.instruments[1]).toMatchObject({ refused: 'no certificate' });
    expect(picture.instruments[1]!.estimate).not.toBeNull();
    const reading = day.watch.takeReading(day.nowS + 0.5);
    expect(reading.instruments.map(({ instrument }) => instrument)).toEqual(['fore']);
    expect(Math.abs(reading.joined.heelDeg)).toBeLessThan(0.1);
  });

  it('widens and does not block when people walk steadily from the first second', () => {
    // People who never stand still: every six seconds elsewhere, up to .03 degree either way.
    const day = watchedHeel();
    const quiet = quietDay(6);
    const people = createRandom(6, 'people');
    let [to, place] = [0, 0];
    const walked = Array.from({ length: 10 * DAY_S }, (_, k) => {
      if (k % 60 === 0) to = people.between(-0.03, 0.03);
      place += (to - place) / 15;
      return place;
    });
    const heel = (instrument: string, atS: number) =>
      quiet(instrument, atS) + walked[Math.round(atS * 10) - 1]!;
    expect(untilReadable(day, heel)).toBeLessThan(200);
    const reading = day.watch.takeReading(day.nowS + 0.5);
    const still = watchedHeel();
    untilReadable(still, quiet);
    const { joined } = still.watch.takeReading(still.nowS + 0.5);
    expect(Math.abs(reading.joined.heelDeg)).toBeLessThan(4 * reading.joined.standardErrorDeg);
    expect(reading.countedS + 1).toBeGreaterThan(still.nowS / 4);
    expect(reading.joined.standardErrorDeg).toBeGreaterThan(0.9 * joined.standardErrorDeg);
  });

  it('gives a sensor aloft, which sees more roll, the same mean as one low down', () => {
    const instruments = ['low', 'mast'].map((instrument) => ({
      ...{ instrument, label: instrument, settlingS: 1, refused: null },
    }));
    const day = watchedHeel({ instruments });
    const quiet = quietDay(7);
    // h w^2 / g of 3 m at 4.7 s: 0.55 more of every swing, and the same rest.
    const heel = (instrument: string, atS: number) =>
      (instrument === 'mast' ? 1.55 : 1) * quiet(instrument, atS);
    untilReadable(day, heel);
    const { instruments: read } = day.watch.takeReading(day.nowS + 0.5);
    const [low, mast] = [read[0]!, read[1]!];
    expect(mast.standardErrorDeg).toBeGreaterThan(1.1 * low.standardErrorDeg);
    expect(Math.abs(mast.heelDeg - low.heelDeg)).toBeLessThan(2 * mast.standardErrorDeg);
    expect(day.watch.finished()).toEqual([]);
  });

  it('says where the wind makes the accuracy unreachable, and offers the best after a stated time', () => {
    const day = watchedHeel();
    const heel = quietDay(5, 0.3, 0.02);
    const tookS = untilReadable(day, heel);
    expect(tookS).toBeGreaterThan(85);
    const reasons = day.pictures.map(({ picture }) => picture.joined.reason);
    expect(reasons.some((reason) => /at best, offered when 90 s are counted/.test(reason))).toBe(
      true,
    );
    expect(reasons.at(-1)).toMatch(/the best this wind and swell allow/);
  });

  it('is the same however the samples are grouped, and refuses what is no sample', () => {
    const watch = createWatch({
      instruments: [{ instrument: 'fore', label: 'Fore', settlingS: 0, refused: null }],
    });
    expect(() => watch.push('mast', 1, 0)).toThrow(/input-shape/);
    expect(() => watch.push('fore', Number.NaN, 0)).toThrow(/input-not-finite/);
    expect(() => watch.push('fore', 1, Number.POSITIVE_INFINITY)).toThrow(/input-not-finite/);
    expect(watch.picture(1).joined).toMatchObject({
      verdict: 'silent',
      reason: 'nothing received yet',
    });
    expect(createWatch({ instruments: [] }).picture(1).joined).toMatchObject({
      verdict: 'silent',
      readable: false,
    });
  });

  describe('is told by samples alone', () => {
    /** A day told in the same order, with whatever is asked of the watch between two samples. */
    function told(ask: (watch: WatchedHeel['watch'], atS: number, random: () => number) => void) {
      const roll = quietDay(31);
      const drawn = createRandom(5, 'asked');
      const watch = createWatch({
        instruments: ['fore', 'aft'].map((instrument) => ({
          ...{ instrument, label: instrument, settlingS: 1, refused: null },
        })),
      });
      const found: unknown[] = [];
      watch.beginState(0);
      for (let tenth = 1; tenth <= 1200; tenth++) {
        const atS = tenth / 10;
        // Both come late by some seconds once, and the after one is silent for four.
        const silent = tenth > 700 && tenth < 740;
        watch.push('fore', atS, roll('fore', atS));
        if (!silent) watch.push('aft', atS, roll('aft', atS));
        ask(watch, atS, () => drawn.uniform());
      }
      found.push(...watch.finished());
      return { found, reading: watch.takeReading(120.5) };
    }

    it('so that no picture, however late, changes what is estimated or rejected', () => {
      const unasked = told(() => {});
      const asked = told((watch, atS, random) => {
        if (random() < 0.3) watch.picture(atS + 6 * random() ** 4);
      });
      expect(unasked.found).toHaveLength(1);
      expect(asked).toEqual(unasked);
    });

    it('and a reading that was not recorded leaves it as it was', () => {
      const unasked = told(() => {});
      let taken = 0;
      const asked = told((watch, atS) => {
        if (atS < 40 || Math.round(atS * 10) % 70 !== 0 || !watch.picture(atS).joined.readable)
          return;
        expect(watch.reading(atS).joined.heelDeg).toBeCloseTo(0, 1);
        taken += 1;
      });
      expect(taken).toBeGreaterThan(3);
      expect(asked).toEqual(unasked);
    });

    it('and an accepted one teaches the day the same as one taken', () => {
      const next = (accept: boolean) => {
        const day = watchedHeel();
        const roll = quietDay(8);
        untilReadable(day, roll);
        if (accept) {
          day.watch.reading(day.nowS);
          day.watch.accept();
        } else day.watch.takeReading(day.nowS);
        day.watch.carrying(day.nowS);
        day.watch.beginState(day.nowS);
        untilReadable(day, roll);
        return day.watch.takeReading(day.nowS);
      };
      expect(next(true)).toEqual(next(false));
    });

    it('shows silence by the time it is asked at, and that only', () => {
      const day = watchedHeel();
      untilReadable(day, quietDay(9));
      expect(day.watch.picture(day.nowS + 2).joined.verdict).toBe('steady');
      const late = day.watch.picture(day.nowS + 7);
      expect(late.joined).toMatchObject({ verdict: 'silent', readable: false });
      expect(late.notUsed.at(-1)).toMatchObject({ kind: 'silent', toS: day.nowS + 7 });
      expect(() => day.watch.takeReading(day.nowS + 7)).toThrow(/silent for 7 s/);
      expect(day.watch.picture(day.nowS + 2).joined.verdict).toBe('steady');
    });
  });

  describe('samples that come wrong', () => {
    /** The reading of the first state, when each watch was pushed what `arrives` makes of a sample. */
    const readAfter = (arrives: (atS: number, heelDeg: number) => [number, number | null][]) => {
      const roll = quietDay(12);
      const { watch } = watchedHeel();
      watch.beginState(0);
      for (let tenth = 1; tenth <= 1200; tenth++) {
        for (const instrument of ['fore', 'aft']) {
          for (const [atS, heelDeg] of arrives(tenth / 10, roll(instrument, tenth / 10))) {
            watch.push(instrument, atS, heelDeg);
          }
        }
      }
      return watch.takeReading(120.5);
    };
    const sound = () => readAfter((atS, heelDeg) => [[atS, heelDeg]]);

    it('reads the same to 1e-9 when samples come doubled, or again seconds late with another value', () => {
      const again = readAfter((atS, heelDeg) => [
        [atS, heelDeg],
        ...(atS > 5 && Math.round(atS * 10) % 7 === 0
          ? ([[atS - 3, heelDeg + 0.4]] as [number, number][])
          : []),
      ]);
      expect(again.joined.heelDeg).toBeCloseTo(sound().joined.heelDeg, 9);
      expect(again.joined.standardErrorDeg).toBeCloseTo(sound().joined.standardErrorDeg, 9);
    });

    it('loses to a gap no more than the time it lasted', () => {
      const gappy = readAfter((atS, heelDeg) => (atS > 60 && atS <= 61.2 ? [] : [[atS, heelDeg]]));
      const whole = sound();
      expect(whole.countedS - gappy.countedS).toBeLessThan(2);
      const apartDeg = Math.abs(gappy.joined.heelDeg - whole.joined.heelDeg);
      expect(apartDeg).toBeLessThan(whole.joined.standardErrorDeg / 2);
    });

    it('is not disturbed by a sample that comes twice at the same time', () => {
      const twice = readAfter((atS, heelDeg) => [
        [atS, heelDeg],
        [atS, heelDeg + 0.3],
      ]);
      expect(twice.joined.heelDeg).toBeCloseTo(sound().joined.heelDeg, 9);
    });

    it('reads on after the clock of the samples jumped ahead, from what came on either side', () => {
      for (const jumpS of [7, 30, 400]) {
        const roll = quietDay(12);
        const { watch } = watchedHeel();
        watch.beginState(0);
        for (let tenth = 1; tenth <= 2400; tenth++) {
          const atS = tenth / 10 + (tenth > 600 ? jumpS : 0);
          for (const instrument of ['fore', 'aft'])
            watch.push(instrument, atS, roll(instrument, tenth / 10));
        }
        const { joined } = watch.takeReading(240.5 + jumpS);
        expect(Math.abs(joined.heelDeg)).toBeLessThan(5 * joined.standardErrorDeg);
        expect(joined.standardErrorDeg).toBeLessThan(0.0095);
      }
    });

    it('passes over a clock that jumped back until it has caught up', () => {
      const back = readAfter((atS, heelDeg) =>
        atS > 60 && atS <= 70 ? [[atS - 10, heelDeg + 0.2]] : [[atS, heelDeg]],
      );
      const gap = readAfter((atS, heelDeg) => (atS > 60 && atS <= 70 ? [] : [[atS, heelDeg]]));
      expect(back.joined.heelDeg).toBeCloseTo(gap.joined.heelDeg, 9);
    });
  });
});
