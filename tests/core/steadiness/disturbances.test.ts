import { describe, expect, it } from 'vitest';
import { createRandom } from '#core/numerics/random.ts';
import { disturbedDay } from '../../support/disturbed-day.ts';
import { simulatedHeel } from '../../support/simulated-heel.ts';
import { type WatchedHeel, watchedHeel } from '../../support/watched-heel.ts';

/** A day whose first state has been read, so that it has taught its roll; state 1 runs since 60 s. */
function taughtDay(seed: number) {
  const roll = simulatedHeel({ seed, lengthS: 600, rollDeg: 0.06, slowDeg: 0.002, noiseDeg: 0 });
  const random = createRandom(seed, 'noise');
  const heel = (_instrument: string, atS: number) =>
    roll[Math.round(atS * 10) - 1]! + random.normal(0.003);
  const day = watchedHeel();
  day.feed(100, heel);
  day.watch.takeReading(100.5);
  day.watch.beginState(100);
  day.feed(50, heel);
  return { day, heel };
}

const verdictAt = (day: WatchedHeel, atS: number) =>
  day.pictures.find((one) => one.atS >= atS)!.picture;

describe('disturbances', () => {
  it('finds a wake on all instruments, does not use it, says so, and goes on after it', () => {
    const { day, heel } = taughtDay(1);
    // Wake of a boat: a burst of forced roll, long waves first, half a degree, 15 s
    const wake = (atS: number) => {
      const s = atS - 155;
      if (s < 0 || s > 15) return 0;
      return 0.5 * Math.sin((Math.PI * s) / 15) * Math.sin(2 * Math.PI * (0.3 + 0.006 * s) * s);
    };
    day.feed(60, (instrument, atS) => heel(instrument, atS) + wake(atS));
    const during = verdictAt(day, 163);
    expect(during.joined).toMatchObject({ verdict: 'disturbed', readable: false });
    expect(during.joined.reason).toMatch(/(wake|gust), both instruments/);
    expect(during.notUsed.at(-1)).toMatchObject({ instruments: null });
    const [wakeFound, ...others] = day.watch.finished();
    expect(others).toEqual([]);
    expect(wakeFound!.fromS).toBeGreaterThan(150);
    expect(wakeFound!.fromS).toBeLessThan(161);
    expect(wakeFound!.toS - wakeFound!.fromS).toBeGreaterThan(8);
    expect(wakeFound!.evidence).toMatch(/^(waves from outside|motion out of step)/);
    day.feed(40, heel);
    const after = day.pictures.at(-1)!.picture.joined;
    expect(after.verdict).toBe('steady');
    expect(Math.abs(after.estimate!.heelDeg - 1.25)).toBeLessThan(0.02);
  });

  it('finds a lasting step, and then counts from the new heel only', () => {
    const { day, heel } = taughtDay(2);
    day.feed(150, (instrument, atS) => heel(instrument, atS) + (atS > 160 ? 0.3 : 0));
    const finished = day.watch.finished();
    // The heel is shifted as if there were no inertia, which no vessel does: any lasting change will do.
    expect(finished.map(({ kind }) => kind)).toContainEqual(
      expect.stringMatching(/^(step|moved|wind)$/),
    );
    const { joined } = day.pictures.at(-1)!.picture;
    expect(joined.verdict).toBe('steady');
    expect(Math.abs(joined.estimate!.heelDeg - 1.55)).toBeLessThan(0.03);
    expect(verdictAt(day, 163).joined.verdict).toBe('disturbed');
  });

  it('lays a knock to the one instrument that shows it; the other goes on', () => {
    const { day, heel } = taughtDay(3);
    day.feed(30, (instrument, atS) => {
      const knock = instrument === 'aft' && atS > 155 && atS < 156.5 ? 0.4 : 0;
      return heel(instrument, atS) + knock;
    });
    const during = verdictAt(day, 157);
    expect(during.instruments.find(({ instrument }) => instrument === 'aft')).toMatchObject({
      verdict: 'disturbed',
      reason: 'knock, this instrument only',
    });
    expect(during.instruments.find(({ instrument }) => instrument === 'fore')!.verdict).not.toBe(
      'disturbed',
    );
    expect(during.joined.verdict).not.toBe('disturbed');
    const finished = day.watch.finished();
    expect(finished).toHaveLength(1);
    expect(finished[0]).toMatchObject({ kind: 'knock', instruments: ['aft'] });
    expect(finished[0]!.toS - finished[0]!.fromS).toBeGreaterThanOrEqual(3);
    expect(finished[0]!.evidence).toMatch(/^Aft alone/);
  });

  it('hears silence at once, of one and of all, and how long it has lasted', () => {
    const { day, heel } = taughtDay(4);
    day.feed(6, (instrument, atS) => (instrument === 'aft' ? undefined : heel(instrument, atS)));
    const one = day.pictures.at(-1)!.picture;
    expect(one.instruments[1]).toMatchObject({ verdict: 'silent' });
    expect(one.instruments[1]!.reason).toMatch(/^silent for [67] s$/);
    expect(one.joined.verdict).not.toBe('silent');
    expect(day.watch.picture(day.nowS + 4).joined).toMatchObject({
      verdict: 'silent',
      readable: false,
    });
    // Only late so far: it is silence in the record when samples go on after a gap.
    day.feed(4, () => undefined);
    day.feed(20, heel);
    const back = day.watch.finished();
    expect(back.map(({ kind }) => kind)).toEqual(['silent', 'silent']);
    expect(day.pictures.at(-1)!.picture.instruments[1]!.verdict).not.toBe('silent');
  });

  it("takes one instrument's backlog that comes whole before another's for no silence", () => {
    const { day, heel } = taughtDay(4);
    const fromTenth = Math.round(day.nowS * 10) + 1;
    // After a cut: a minute and a half of the one stream, then the same time of the other.
    for (const instrument of ['fore', 'aft'])
      for (let tenth = fromTenth; tenth < fromTenth + 900; tenth += 1)
        day.watch.push(instrument, tenth / 10, heel(instrument, tenth / 10));
    day.nowS += 90;
    day.feed(10, heel);
    expect(day.watch.finished()).toEqual([]);
    const { joined, instruments } = day.pictures.at(-1)!.picture;
    expect(joined).toMatchObject({ verdict: 'steady', readable: true });
    for (const { verdict } of instruments) expect(verdict).toBe('steady');
  });

  it('takes missing values for silence too', () => {
    const { day, heel } = taughtDay(5);
    day.feed(6, (instrument, atS) => (instrument === 'aft' ? null : heel(instrument, atS)));
    expect(day.pictures.at(-1)!.picture.instruments[1]!.verdict).toBe('silent');
  });

  it('never calls a frozen value steady, however still', () => {
    const day = watchedHeel();
    day.feed(150, () => 1.234);
    const verdicts = new Set(day.pictures.map(({ picture }) => picture.joined.verdict));
    expect(verdicts.has('steady')).toBe(false);
    expect(day.pictures.at(-1)!.picture.joined).toMatchObject({ verdict: 'disturbed' });
    expect(day.pictures.at(-1)!.picture.joined.reason).toMatch(/^stuck value for 1\d\d s$/);
  });

  it('names an instrument at the end of its range', () => {
    const { day, heel } = taughtDay(6);
    day.feed(5, (instrument, atS) => (instrument === 'fore' ? 30 : heel(instrument, atS)));
    const fore = day.pictures.at(-1)!.picture.instruments[0]!;
    expect(fore.verdict).toBe('disturbed');
    expect(fore.reason).toMatch(/end of its range|stuck/);
  });

  it('lets a disturbance word stand for at least 3 s', () => {
    for (let seed = 30; seed < 36; seed++) {
      const { day, heel } = taughtDay(seed);
      day.feed(60, (instrument, atS) => heel(instrument, atS) + (atS > 160 && atS < 162 ? 0.5 : 0));
      const verdicts = day.pictures.map(({ picture }) => picture.joined.verdict);
      const runs = verdicts.join(' ').match(/(disturbed ?)+/g) ?? [];
      for (const run of runs) expect(run.trim().split(' ').length).toBeGreaterThanOrEqual(6);
    }
  });

  it('turns to the others when the last instrument held for sound stands alone against them', () => {
    // Seed 1127 of the trial: the after one drifts by half a degree and had two honest ones put aside.
    const [, drifting] = disturbedDay(1127);
    expect(drifting).toMatchObject({ kind: 'drift', instrument: 'aft', called: 'drift' });
    expect(drifting!.reading!.instruments.map(({ instrument }) => instrument)).toEqual([
      'fore',
      'mast',
    ]);
    expect(Math.min(drifting!.below!, 1 - drifting!.below!)).toBeGreaterThan(0.001);
  });

  it('only tells of an engine that all feel, and goes on counting', () => {
    const { day, heel } = taughtDay(12);
    const shake = (rmsDeg: number, mostDeg = 2) => {
      const toS = Math.round(day.nowS);
      for (const { instrument } of day.pictures[0]!.picture.instruments)
        day.watch.shaken(instrument, { toS, rmsDeg, frequencyHz: 17, mostDeg });
    };
    for (let k = 0; k < 25; k++) {
      shake(0.02);
      day.feed(1, heel);
    }
    for (let k = 0; k < 10; k++) {
      shake(0.6);
      day.feed(1, heel);
    }
    const told = day.pictures.at(-1)!.picture;
    expect(told.joined.verdict).toBe('steady');
    for (const { reason } of told.instruments) expect(reason).toMatch(/shakes 0\.60° from sample/);
    expect(day.watch.finished()).toEqual([]);
    for (let k = 0; k < 5; k++) {
      shake(6, 30);
      day.feed(1, heel);
    }
    const spoilt = day.pictures.at(-1)!.picture;
    expect(spoilt.joined).toMatchObject({ verdict: 'disturbed', readable: false });
    expect(spoilt.notUsed.map(({ kind }) => kind)).toEqual(['vibration', 'vibration']);
    expect(spoilt.notUsed[0]!.evidence).toMatch(/^Fore shakes to 30°, the end of its range/);
    for (let k = 0; k < 8; k++) {
      shake(0.02);
      day.feed(1, heel);
    }
    expect(day.pictures.at(-1)!.picture.joined.verdict).not.toBe('disturbed');
    expect(day.watch.finished()).toHaveLength(2);
  });
});
