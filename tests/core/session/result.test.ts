import fc from 'fast-check';
import { expect, test } from 'vitest';
import { resultOfSession } from '#core/session/result.ts';
import { aDay, DAY_GM, SENSORS, withVoided } from '#tests/core/session/a-day.ts';

test('a day without scatter gives its GM exactly, and every other figure', () => {
  const result = resultOfSession(aDay());
  expect(result.refused).toBeNull();
  expect(result.headline).toBe('classical');
  expect(result.gmFluidM!.value).toBeCloseTo(DAY_GM, 10);
  expect(result.classical!.kgFluidM!.value).toBeCloseTo(2.9 - DAY_GM, 10);
  expect(result.points).toHaveLength(9);
  expect(result.diagnosis!.verdict).toBe('no trouble seen in the plot');
  // certificates of .15 % each, three of them: .0866 % of GM together
  const scales = result.classical!.budget.filter((row) => row.cause.startsWith('scale of'));
  expect(scales).toHaveLength(3);
  expect(Math.hypot(...scales.map((row) => row.gmMm))).toBeCloseTo(
    (1000 * DAY_GM * 0.0015) / Math.sqrt(3),
    2,
  );
  // displacement: GM goes down as it goes up
  const displacement = result.classical!.budget.find((row) => row.cause === 'displacement')!;
  expect(displacement.gmMm).toBeCloseTo((1000 * DAY_GM * 0.3) / 60, 3);
});

test('the result is plain data: it survives JSON unchanged', () => {
  const result = resultOfSession(aDay({ stateDeg: 0.01, readingDeg: 0.005 }));
  expect(JSON.parse(JSON.stringify(result))).toEqual(result);
});

test('before three states there is no line, and the reason is coded', () => {
  for (const states of [1, 2]) {
    const result = resultOfSession(aDay({ states }));
    expect(result.gmFluidM).toBeNull();
    expect(result.refused!.code).toBe('input-too-few');
    expect(result.statesRead).toBe(states);
  }
  expect(resultOfSession(aDay({ states: 3 })).gmFluidM!.degreesOfFreedom).toBeGreaterThan(0.9);
});

test('a voided reading is out of the line, and back in it beside', () => {
  const day = aDay({ stateDeg: 0.01, readingDeg: 0.003 });
  const whole = resultOfSession(day);
  const less = resultOfSession(withVoided(day, 3));
  expect(less.statesRead).toBe(8);
  expect(less.gmFluidM!.value).not.toBe(whole.gmFluidM!.value);
  expect(less.withVoidedPutBack!.readings).toBe(1);
  expect(less.withVoidedPutBack!.gmFluidM!.value).toBeCloseTo(whole.gmFluidM!.value, 12);
  expect(whole.withVoidedPutBack).toBeNull();
});

test('an uncalibrated instrument is shown with the reason and left out', () => {
  const day = aDay({ scale: { aft: 1.02 } });
  const certificates = day.certificates.filter((one) => one.instrument !== 'aft');
  const result = resultOfSession({ ...day, certificates });
  expect(result.gmFluidM!.value).toBeCloseTo(DAY_GM, 10);
  const aft = result.instruments.find((one) => one.instrument === 'aft')!;
  expect(aft.refused).toBe('no calibration certificate');
  expect(aft.readings).toBe(0);
});

test('a hand-read pendulum stands in the line as one more instrument', () => {
  const day = aDay();
  const states = day.states.map((state) => {
    const restMm = 1500 * (0.002 + state.heelingMomentTM / 54) + 3;
    const reading = {
      state: state.state,
      instrument: 'pendulum',
      kind: 'pendulum' as const,
      lengthMm: 1500,
      extremesMm: [restMm + 4, restMm - 4, restMm + 4],
      reader: 'B. Lund',
    };
    return { ...state, handReadings: [{ reading, written: state.readingWritten! }] };
  });
  const result = resultOfSession({ ...day, states });
  const pendulum = result.instruments.find((one) => one.instrument === 'pendulum')!;
  expect(pendulum).toMatchObject({ readByHand: true, readings: 9, refused: null });
  expect(result.gmFluidM!.value).toBeCloseTo(DAY_GM, 10);
  expect(pendulum.gmAloneM!.value).toBeCloseTo(DAY_GM, 10);
});

test('one instrument of another scale is named', () => {
  const result = resultOfSession(
    aDay({ stateDeg: 0.005, readingDeg: 0.002, scale: { tube: 1.03 } }),
  );
  const shape = result.diagnosis!.shapes.find((one) => one.shape === 'scale of one instrument')!;
  expect(shape.seen).toBe(true);
  expect(shape.words).toContain('tube shows more heel');
});

test('a recorded moment that its moves contradict is refused, not used', () => {
  const day = aDay();
  const states = day.states.with(2, { ...day.states[2]!, heelingMomentTM: 9 });
  expect(resultOfSession({ ...day, states }).refused!.code).toBe('input-contradiction');
});

test('the simulator’s truth stands beside the answer', () => {
  const simulation = {
    seed: 1,
    paceAsked: 1,
    paceHeld: 1,
    disturbances: { wind: false, gusts: false, wakes: false, walking: false, snaggedLine: false },
    truth: { gmFluidM: DAY_GM + 0.001, displacementT: 60 },
  };
  const { truth } = resultOfSession({ ...aDay(), simulation });
  expect(truth!.differenceMm).toBeCloseTo(-1, 6);
  expect(truth!.insideInterval95).toBe(true);
});

test('what no plot can show is listed with its evidence or none', () => {
  const { cannotShow } = resultOfSession(aDay());
  expect(cannotShow.find((one) => one.what.startsWith('all weights'))!.evidence).toContain('W-7');
  expect(cannotShow.find((one) => one.what.startsWith('liquid'))!.evidence).toBe('none');
});

test('an empty session has no result and says so', () => {
  const result = resultOfSession({ ...aDay({ states: 1 }), test: null, states: [] });
  expect(result.gmFluidM).toBeNull();
  expect(result.refused!.code).toBe('input-too-few');
});

test('law: an offset on one instrument changes no GM', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -3, max: 3, noNaN: true }),
      fc.constantFrom(...SENSORS),
      fc.integer({ min: 1, max: 1000 }),
      (offset, instrument, seed) => {
        const wishes = { stateDeg: 0.01, readingDeg: 0.004, seed };
        const plain = resultOfSession(aDay(wishes)).gmFluidM!;
        const moved = resultOfSession(aDay({ ...wishes, offsetDeg: { [instrument]: offset } }));
        // an offset in degrees is one in tangent only to the square of the heel
        expect(Math.abs(moved.gmFluidM!.value / plain.value - 1)).toBeLessThan(3e-3);
      },
    ),
    { numRuns: 25 },
  );
});
