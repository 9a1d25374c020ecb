import { describe, expect, it } from 'vitest';
import { Fault, type FaultCode } from '#core/fault/fault.ts';
import { ChipWatch } from '#device/chip-watch.ts';
import type { Chip, Driver, StepAnswer } from '#device/drivers/driver.ts';

/** A chip of one register, whose answers to set-up and check the test decides. */
function watched(stuckAfterScans: number | null = null) {
  const calls: string[] = [];
  const answers: { configure: FaultCode | null; check: FaultCode | null } = {
    configure: null,
    check: null,
  };
  const answer = async (what: 'configure' | 'check'): Promise<void> => {
    calls.push(what);
    const code = answers[what];
    if (code !== null) throw new Fault(code, 'chip', what);
  };
  const driver: Driver = {
    part: 'test',
    addresses: [0x10],
    quantities: ['level'],
    isLeg: false,
    foundByLooking: true,
    aloneBecause: null,
    stuckAfterScans,
    countRange: { least: -100, most: 100 },
    identify: () => Promise.resolve(),
    configure: () => answer('configure'),
    check: () => answer('check'),
    steps: () => [],
    counts: ([step]) => [
      step?.kind === 'bytes'
        ? { count: step.bytes[0]!, fault: null }
        : { count: null, fault: step?.kind === 'failed' ? step.code : null },
    ],
  };
  const told: FaultCode[] = [];
  const chip: Chip = {
    address: 0x10,
    where: 'chip',
    bus: { read: () => Promise.reject(new Error()), write: () => Promise.resolve() },
    waitS: () => Promise.resolve(),
  };
  const watch = new ChipWatch(driver, chip, {
    periodUs: 20_000,
    tell: ({ code }) => told.push(code),
  });
  let sequence = 0;
  const scan = (value: number | FaultCode, nowS: number) => {
    const step: StepAnswer =
      typeof value === 'number'
        ? { kind: 'bytes', bytes: Uint8Array.of(value) }
        : { kind: 'failed', code: value };
    sequence += 1;
    return watch.counts([step], sequence, nowS)[0]!;
  };
  const tick = async (nowS: number) => {
    watch.tick(nowS);
    await new Promise((resolve) => setImmediate(resolve));
  };
  return { watch, scan, tick, calls, answers, told };
}

describe('the watch over a chip', () => {
  it('passes counts through once the chip is set up', async () => {
    const { watch, scan, told } = watched();
    await watch.configure(0);
    expect(scan(7, 1)).toEqual({ count: 7, fault: null });
    expect(told).toEqual([]);
  });

  it('distrusts a chip after a fault until its identity and settings are proven', async () => {
    const { watch, scan, tick, calls } = watched();
    await watch.configure(0);
    expect(scan('bus-no-answer', 5)).toEqual({ count: null, fault: 'bus-no-answer' });
    expect(scan(7, 5.02)).toEqual({ count: 7, fault: 'chip-unchecked' });
    await tick(5.04);
    expect(calls).toEqual(['configure', 'check']);
    expect(scan(8, 5.06)).toEqual({ count: 8, fault: null });
  });

  it('sets a chip up again that lost its settings', async () => {
    const { watch, scan, tick, calls, answers, told } = watched();
    await watch.configure(0);
    scan('bus-no-answer', 5);
    scan(0, 5.02);
    answers.check = 'chip-not-configured';
    await tick(5.04);
    expect(calls).toEqual(['configure', 'check', 'configure']);
    expect(scan(8, 5.06).fault).toBeNull();
    expect(told).toEqual(['bus-no-answer', 'chip-not-configured']);
  });

  it('goes on trying, once a second, and tells of one fault once', async () => {
    const { watch, scan, tick, calls, answers, told } = watched();
    answers.configure = 'bus-no-answer';
    answers.check = 'bus-no-answer';
    await watch.configure(0);
    for (let nowS = 0.1; nowS < 5; nowS += 0.1) {
      scan(1, nowS);
      await tick(nowS);
    }
    expect(calls.filter((call) => call === 'check')).toHaveLength(4);
    expect(told).toEqual(['bus-no-answer']);
    answers.configure = null;
    await tick(6);
    expect(scan(3, 6.1).fault).toBeNull();
  });

  it('leaves a chip alone that does not answer its scans', async () => {
    const { watch, scan, tick, calls } = watched();
    await watch.configure(0);
    scan('bus-stuck', 5);
    await tick(6.5);
    expect(calls).toEqual(['configure']);
  });

  it('flags the ends of the range and keeps the count', async () => {
    const { watch, scan } = watched();
    await watch.configure(0);
    expect(scan(100, 1)).toEqual({ count: 100, fault: 'chip-saturated' });
    expect(scan(99, 1)).toEqual({ count: 99, fault: null });
  });

  it('calls a chip stuck that repeats itself for too long, until it does not', async () => {
    const { watch, scan, tick, calls, told } = watched(3);
    await watch.configure(0);
    const faults = [5, 5, 5, 5, 5].map((value, k) => scan(value, k * 0.02).fault);
    expect(faults).toEqual([null, null, null, 'chip-stuck', 'chip-stuck']);
    expect(told).toEqual(['chip-stuck']);
    await tick(2);
    expect(calls).toEqual(['configure', 'configure']);
    expect(scan(5, 2.02).fault).toBe('chip-stuck');
    expect(scan(6, 2.04).fault).toBe('chip-unchecked');
    await tick(4);
    expect(scan(7, 4.02).fault).toBeNull();
  });

  it('does not distrust a chip for a conversion nobody started', async () => {
    const { watch, scan } = watched();
    await watch.configure(0);
    expect(scan('chip-not-ready', 1).fault).toBe('chip-not-ready');
    expect(scan(4, 1.02).fault).toBeNull();
  });
});
