import { describe, expect, it } from 'vitest';
import { createRandom } from '#core/numerics/random.ts';
import type { HandReading } from '#core/record/reading-line.ts';
import { resultAgreement } from '#core/session/result-agreement.ts';
import type { SessionState } from '#core/session/session.ts';
import { aDay, SENSORS } from './a-day.ts';

/** A pendulum of 2.5 m beside the sensors in every state, read with this scatter. */
function withPendulum(
  day: SessionState,
  scatterMm: number,
  blind?: boolean,
  lengthMm = 2500,
): SessionState {
  const random = createRandom(3, 'pendulum');
  const states = day.states.map((state) => {
    const tangent = Math.tan((state.reading!.joined.heelDeg * Math.PI) / 180);
    const reading: HandReading = {
      state: state.state,
      instrument: 'Pendulum',
      kind: 'pendulum',
      lengthMm,
      extremesMm: [lengthMm * tangent + random.normal(scatterMm)],
      reader: 'M. Tarn',
      ...(blind === undefined ? {} : { blind }),
    };
    return { ...state, handReadings: [{ reading, written: state.readingWritten! }] };
  });
  return { ...day, states };
}

describe('agreement of the instruments of a day', () => {
  it('gives each instrument its offset, slope and scatter against the others', () => {
    const { instruments } = resultAgreement(aDay({ readingDeg: 0.003, scale: { aft: 1.05 } }));
    expect(instruments.map(({ instrument }) => instrument)).toEqual([...SENSORS]);
    const aft = instruments.find(({ instrument }) => instrument === 'aft')!;
    expect(aft.scaleDifference).toBeCloseTo(0.05, 1);
    expect(aft.scatterDeg).toBeLessThan(0.01);
  });

  it('shows that sensors are at least as accurate as a pendulum read coarsely, blind or not', () => {
    const day = withPendulum(aDay({ stateDeg: 0.004, readingDeg: 0.001 }), 4, true);
    const told = resultAgreement(day);
    expect(told.besidePendulums).toHaveLength(SENSORS.length);
    for (const one of told.besidePendulums) {
      expect(one).toMatchObject({ pendulum: 'Pendulum', states: 9, blindStates: 9 });
      expect(one.upper95).toBeLessThan(1);
    }
    expect(told.atLeastAsAccurate.map(({ answer }) => answer)).toEqual(['shown', 'shown', 'shown']);
    const seen = resultAgreement(withPendulum(aDay(), 4, false));
    expect(seen.besidePendulums[0]!.blindStates).toBe(0);
  });

  it('says worse, and not shown without a pendulum', () => {
    const worse = resultAgreement(withPendulum(aDay({ readingDeg: 0.05 }), 0.1));
    expect(worse.atLeastAsAccurate.map(({ answer }) => answer)).not.toContain('shown');
    const none = resultAgreement(aDay());
    expect(none.atLeastAsAccurate.map(({ answer }) => answer)).toEqual([
      'not-shown',
      'not-shown',
      'not-shown',
    ]);
  });

  it('says how many pendulums were used beside what the texts ask', () => {
    const { pendulums } = resultAgreement(withPendulum(aDay(), 1));
    expect(pendulums).toMatchObject({ used: ['Pendulum'], tubes: [] });
    // The last is the length: 2.5 m, and the texts ask for three.
    expect(pendulums.asks.map(({ met }) => met)).toEqual([false, true, true, true, false]);
    const short = resultAgreement(withPendulum(aDay(), 1, true, 800)).pendulums.asks[3]!;
    expect(short.met).toBe(false);
    expect(short.found).toMatch(/^\d+ mm to the lesser side$/);
    const none = resultAgreement(aDay()).pendulums;
    expect(none.used).toEqual([]);
    expect(none.asks.map(({ met }) => met)).toEqual([false, false, false]);
  });

  it('is empty and no fault before there is anything to compare', () => {
    expect(resultAgreement(aDay({ states: 1 })).instruments).toEqual([]);
  });
});
