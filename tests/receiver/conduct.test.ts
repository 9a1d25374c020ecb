import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import type { TakenReading } from '#core/steadiness/watch-types.ts';
import type { Act } from '#core/wire/screen-message.ts';
import { Conduct } from '#receiver/conduct.ts';
import { LineFollowers } from '#receiver/line-followers.ts';
import { RecordFile } from '#receiver/record-file.ts';
import { RollConduct } from '#receiver/roll-conduct.ts';
import type { ScreenPerson } from '#receiver/screens.ts';
import { SimulatedVessel } from '#receiver/simulated-vessel.ts';
import { PLACE, TEST_BODY } from '#tests/support/record-lines.ts';
import { CERTIFICATE } from '#tests/support/station-client.ts';

const ARCHITECT = { name: 'E. Thorne', role: 'architect' } as const;
const TECHNICIAN = { name: 'O. Reyes', role: 'technician' } as const;
const WITNESS = { name: 'P. Lund', role: 'witness' } as const;
const WHO = { author: 'receiver', role: 'receiver' } as const;
const CLOCK = { monotonicS: () => 7, wallMs: () => 1_800_000_000_000 };

function taken(heelDeg: number, instrument = 'fore'): TakenReading {
  const measured = { heelDeg, standardErrorDeg: 0.003, degreesOfFreedom: 8 };
  return {
    fromS: 0,
    toS: 60,
    countedS: 50,
    joined: measured,
    instruments: [{ ...measured, instrument, label: 'Fore', sampleRateHz: 10 }],
    rollPeriodS: 4,
    rollPeriodUncertaintyS: 0.02,
    dampingRatio: 0.03,
  };
}

let folder = '';
let record: RecordFile;
let followers: LineFollowers;
let offered: Promise<TakenReading>;
let conduct: Conduct;

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'conduct-'));
  followers = new LineFollowers();
  record = await RecordFile.open({
    path: join(folder, 'day.hwr'),
    program: 'test',
    follow: (read) => followers.follow(read),
    clock: () => CLOCK,
  });
  record.append('test-opened', TEST_BODY, WHO);
  record.append('certificate', CERTIFICATE, WHO);
  conduct = new Conduct({
    record,
    session: () => followers.session,
    vessel: new SimulatedVessel(CLOCK),
    roll: new RollConduct({
      record,
      session: () => followers.session,
      taken: () => ({ startedLines: 0, afterLines: 0 }),
      look: () => Promise.resolve([]),
    }),
    timeUncertaintyS: () => 0.004,
    takeReading: () => offered,
    checkHull: () => Promise.resolve(),
    temperatureC: () => 20,
    estimator: 'estimator-1',
    headOf: (lines) => followers.heads.of(lines),
  });
});
afterEach(async () => {
  await record.close();
  rmSync(folder, { recursive: true });
});

/** The code an act is refused with, or null. */
async function refusal(act: Act, person: ScreenPerson = ARCHITECT): Promise<string | null> {
  try {
    await conduct.act(act, person);
    return null;
  } catch (error) {
    if (error instanceof Fault) return error.code;
    throw error;
  }
}

const state = (number: number) => followers.session.states[number];

describe('the conduct of the day', () => {
  it('writes a reading with its estimator and certificates, under the name of who took it', async () => {
    offered = Promise.resolve(taken(0.02));
    expect(await refusal({ kind: 'take-reading' })).toBeNull();
    expect(state(0)).toMatchObject({
      reading: {
        state: 0,
        estimator: 'estimator-1',
        instruments: [{ instrument: 'fore', certificate: 'C1' }],
      },
      readingWritten: { author: 'E. Thorne', role: 'architect' },
    });
  });

  it('writes no reading of an instrument without a certificate, or with one that proves too little', async () => {
    offered = Promise.resolve(taken(0.02, 'aft'));
    expect(await refusal({ kind: 'take-reading' })).toBe('instrument-uncalibrated');
    record.append('certificate', { ...CERTIFICATE, number: 'C2', scaleUncertainty: 0.02 }, WHO);
    offered = Promise.resolve(taken(0.02));
    expect(await refusal({ kind: 'take-reading' })).toBe('instrument-uncalibrated');
    expect(state(0)?.reading).toBeNull();
  });

  it('takes one reading at a time, and none once the test was closed meanwhile', async () => {
    let offer: (reading: TakenReading) => void = () => {};
    offered = new Promise((resolve) => {
      offer = resolve;
    });
    const first = refusal({ kind: 'take-reading' });
    expect(await refusal({ kind: 'take-reading' })).toBe('act-not-now');
    expect(await refusal({ kind: 'close-test', reason: 'gale' })).toBeNull();
    offer(taken(0.02));
    expect(await first).toBe('act-not-now');
  });

  it('leaves the day as it is when the heel is not steady', async () => {
    offered = Promise.reject(new Fault('act-not-steady', 'take-reading', 'wake'));
    expect(await refusal({ kind: 'take-reading' })).toBe('act-not-steady');
    offered = Promise.resolve(taken(0.02));
    expect(await refusal({ kind: 'take-reading' })).toBeNull();
  });

  it('predicts a shift before it is made, from the guess of GM and the zero read', async () => {
    offered = Promise.resolve(taken(0.02));
    await refusal({ kind: 'take-reading' });
    expect(await refusal({ kind: 'begin-shift' })).toBeNull();
    // 0.25 t over 4 m; tan(heel) = tan(0.02 deg) + 1 / (46 * 0.9), by hand.
    const expectedDeg =
      (Math.atan(Math.tan((0.02 * Math.PI) / 180) + 1 / (46 * 0.9)) * 180) / Math.PI;
    expect(state(1)?.heelingMomentTM).toBeCloseTo(1, 12);
    expect(state(1)?.predictedHeelDeg).toBeCloseTo(expectedDeg, 9);
    expect(await refusal({ kind: 'weight-landed' })).toBeNull();
    expect(followers.session.weightsAt['A']).toEqual(PLACE(2));
    expect(state(1)?.landedS).toBe(7);
  });

  it('lets a voided state be read again while its weights stand, and voids nothing twice', async () => {
    offered = Promise.resolve(taken(0.02));
    await refusal({ kind: 'take-reading' });
    const line = state(0)?.readingWritten?.line ?? -1;
    expect(await refusal({ kind: 'void-reading', line, reason: 'ferry' })).toBeNull();
    expect(await refusal({ kind: 'void-reading', line, reason: 'again' })).toBe('act-not-now');
    expect(followers.session.awaits).toBe('reading');
    expect(await refusal({ kind: 'take-reading' })).toBeNull();
  });

  it('turns no simulation where there is none', async () => {
    const disturbances = {
      wind: false,
      gusts: false,
      wakes: false,
      walking: false,
      snaggedLine: false,
    };
    expect(await refusal({ kind: 'simulation', pace: 5, disturbances })).toBe('act-not-now');
  });

  it('takes a hand reading only of a state whose weights are down', async () => {
    const reading = {
      state: 1,
      instrument: 'pendulum',
      kind: 'pendulum',
      lengthMm: 3000,
      extremesMm: [4, 1],
      reader: 'E. Thorne',
    } as const;
    const act = (number: number): Act => ({
      kind: 'hand-reading',
      reading: { ...reading, state: number, extremesMm: [...reading.extremesMm] },
    });
    expect(await refusal(act(1))).toBe('act-not-now');
    expect(await refusal(act(0))).toBeNull();
    offered = Promise.resolve(taken(0.02));
    await refusal({ kind: 'take-reading' });
    await refusal({ kind: 'begin-shift' });
    expect(await refusal(act(1))).toBe('act-not-now');
    await refusal({ kind: 'weight-landed' });
    expect(await refusal(act(1))).toBeNull();
  });

  it('numbers marks of time, and takes on a sheet only those that were made', async () => {
    const act = (mark: number): Act => ({
      kind: 'hand-reading',
      reading: {
        ...{ state: 0, instrument: 'pendulum', kind: 'pendulum', lengthMm: 3000, mark },
        ...{ extremesMm: [4], reader: 'E. Thorne' },
      },
    });
    expect(await refusal(act(1))).toBe('input-contradiction');
    expect(await refusal({ kind: 'mark-time', words: 'a knock on the rail' })).toBeNull();
    expect(await refusal({ kind: 'mark-time', words: '' })).toBeNull();
    expect(followers.session.timeMarks.map(({ mark }) => mark)).toEqual([1, 2]);
    expect(await refusal(act(2))).toBeNull();
    expect(await refusal(act(3))).toBe('input-contradiction');
  });

  it('puts right what was entered wrongly, by the architect and in a closed test too', async () => {
    await refusal({ kind: 'close-test', reason: 'done' });
    const correct = (was: number, is: number): Act => ({
      kind: 'correct',
      correction: {
        line: 1,
        changes: [{ field: ['weights', 0, 'massT'], was, is }],
        reason: 'wrong slip',
      },
    });
    const lines = followers.session.lines;
    expect(await refusal(correct(0.24, 0.26))).toBe('correction-unfit');
    expect(await refusal(correct(0.25, -1))).toBe('correction-unfit');
    expect(await refusal(correct(0.25, 0.26), TECHNICIAN)).toBe('act-not-yours');
    expect(await refusal(correct(0.25, 0.26), WITNESS)).toBe('act-not-yours');
    expect(followers.session.lines).toBe(lines);
    expect(await refusal(correct(0.25, 0.26))).toBeNull();
    expect(followers.session.test?.weights[0]?.massT).toBe(0.26);
    expect(followers.session.corrected[0]?.corrections[0]?.written.author).toBe('E. Thorne');
  });

  it('puts a voided reading back, and writes which overruled time a reading rests on', async () => {
    offered = Promise.resolve(taken(0.02));
    await refusal({ kind: 'take-reading' });
    const line = state(0)?.readingWritten?.line ?? -1;
    await refusal({ kind: 'void-reading', line, reason: 'ferry' });
    const voiding = state(0)?.voided[0]?.voided.line ?? -1;
    expect(await refusal({ kind: 'overrule', line, reason: 'no' })).toBe('overruling-unfit');
    const putBack: Act = { kind: 'overrule', line: voiding, reason: 'it was another ferry' };
    expect(await refusal(putBack, TECHNICIAN)).toBe('act-not-yours');
    expect(await refusal(putBack)).toBeNull();
    expect(state(0)?.readingWritten?.line).toBe(line);
    await refusal({ kind: 'void-reading', line, reason: 'ferry after all' });
    const wake = (fromS: number, toS: number) =>
      record.append(
        'disturbance',
        { fromS, toS, kind: 'wake', instruments: null, evidence: 'swings' },
        WHO,
      ).n;
    // The clock of this test stands at 7 s.
    const [within, past] = [wake(20, 30), wake(70, 80)];
    for (const rejected of [within, past])
      expect(await refusal({ kind: 'overrule', line: rejected, reason: 'no wake' })).toBeNull();
    expect(await refusal({ kind: 'take-reading' })).toBeNull();
    expect(state(0)?.reading?.overruled).toEqual([within]);
  });

  it('replaces a certificate by the technician, and no reading begun under the one before', async () => {
    const second = { ...CERTIFICATE, number: 'C2', scale: 1.01 };
    const replace = (certificate: typeof second): Act => ({
      kind: 'replace-certificate',
      certificate,
      reason: 'calibrated again',
    });
    let offer: (reading: TakenReading) => void = () => {};
    offered = new Promise((resolve) => {
      offer = resolve;
    });
    const reading = refusal({ kind: 'take-reading' });
    expect(await refusal(replace(second), WITNESS)).toBe('act-not-yours');
    expect(await refusal(replace({ ...second, instrument: 'mast' }))).toBe('certificate-unfit');
    expect(await refusal(replace(CERTIFICATE))).toBe('certificate-unfit');
    expect(await refusal(replace(second), TECHNICIAN)).toBe('act-not-now');
    expect(
      await refusal({ kind: 'technician-work', allowed: true, reason: 'in doubt' }),
    ).toBeNull();
    expect(await refusal(replace(second), TECHNICIAN)).toBeNull();
    offer(taken(0.02));
    expect(await reading).toBe('act-not-now');
    expect(followers.session.certificates[0]).toEqual(second);
    expect(followers.session.replacedCertificates[0]).toMatchObject({
      reason: 'calibrated again',
      written: { author: 'O. Reyes', role: 'technician' },
    });
  });
});
