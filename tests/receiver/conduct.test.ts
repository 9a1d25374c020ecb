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
import { SimulatedVessel } from '#receiver/simulated-vessel.ts';
import { PLACE, TEST_BODY } from '#tests/support/record-lines.ts';
import { CERTIFICATE } from '#tests/support/station-client.ts';

const ARCHITECT = { name: 'E. Thorne', role: 'architect' } as const;
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
    takeReading: () => offered,
    estimator: 'estimator-1',
    headOf: (lines) => followers.heads.of(lines),
  });
});
afterEach(async () => {
  await record.close();
  rmSync(folder, { recursive: true });
});

/** The code an act is refused with, or null. */
async function refusal(act: Act, person: typeof ARCHITECT = ARCHITECT): Promise<string | null> {
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
});
