import { describe, expect, it } from 'vitest';
import { FAULTS, Fault } from '#core/fault/fault.ts';
import { DRIVERS, driverOf } from '#device/drivers/all.ts';
import type { Chip, StepAnswer } from '#device/drivers/driver.ts';
import { faultOf } from '../support/scripted-bus.ts';
import { UNDER_TEST } from './drivers-under-test.ts';
import { TROUBLES } from './under-test.ts';

const PERIOD_US = 20_000;

describe.each(DRIVERS.map((driver) => [driver.part, driver] as const))(
  'driver of %s',
  (part, driver) => {
    const answersWith = (
      answer: (readCount: number) => StepAnswer,
      sequence: number,
    ): StepAnswer[] =>
      driver
        .steps(PERIOD_US)
        .map((step) =>
          step.when !== 'always' && (step.when === 'odd') !== (sequence % 2 === 1)
            ? { kind: 'not-due' }
            : answer(step.readCount),
        );

    it('is found by its part number', () => {
      expect(driverOf(part)).toBe(driver);
      expect(part).toMatch(/^[a-z0-9]+$/);
    });

    it('has 7-bit addresses and steps the firmware takes', () => {
      for (const address of driver.addresses) expect(address).toBeGreaterThan(7);
      for (const address of driver.addresses) expect(address).toBeLessThan(0x78);
      for (const { readCount, write } of driver.steps(PERIOD_US)) {
        expect(readCount).toBeLessThanOrEqual(32);
        expect(write.length).toBeLessThanOrEqual(4);
        expect(readCount + write.length).toBeGreaterThan(0);
      }
    });

    it('gives one count a quantity in every scan, whatever came of its steps', () => {
      for (const sequence of [0, 1, 2, 3]) {
        const good = answersWith(
          (readCount) => ({ kind: 'bytes', bytes: new Uint8Array(readCount) }),
          sequence,
        );
        const counts = driver.counts(good, sequence);
        expect(counts).toHaveLength(driver.quantities.length);
        // Zeros may mean something (a chip that is not powered); what they mean is then a fault.
        expect(counts.every(({ count, fault }) => fault === null || count !== null)).toBe(true);
        const failed = answersWith(() => ({ kind: 'failed', code: 'bus-stuck' }), sequence);
        for (const { count, fault } of driver.counts(failed, sequence)) {
          expect(count).toBeNull();
          expect(fault === null || fault in FAULTS).toBe(true);
        }
        expect(driver.counts(failed, sequence).some(({ fault }) => fault === 'bus-stuck')).toBe(
          true,
        );
      }
    });

    it('reads every quantity within two scans', () => {
      const seen = new Set<number>();
      for (const sequence of [0, 1]) {
        const good = answersWith(
          (readCount) => ({ kind: 'bytes', bytes: new Uint8Array(readCount) }),
          sequence,
        );
        driver.counts(good, sequence).forEach(({ count }, k) => {
          if (count !== null) seen.add(k);
        });
      }
      expect(seen.size).toBe(driver.quantities.length);
    });

    it('refuses a silent bus with the fault of the bus', async () => {
      const silence = new Fault('bus-no-answer', 'test', 'silent');
      const silent: Chip = {
        address: driver.addresses[0]!,
        where: 'test',
        bus: { read: () => Promise.reject(silence), write: () => Promise.resolve() },
        waitS: () => Promise.resolve(),
      };
      expect(await faultOf(driver.identify(silent))).toBe('bus-no-answer');
      expect(await faultOf(driver.configure(silent, PERIOD_US))).toBe('bus-no-answer');
      expect(await faultOf(driver.check(silent, PERIOD_US))).toBe('bus-no-answer');
    });
  },
);

it('walks every chip that can be read', () => {
  const walked = UNDER_TEST.map(({ name }) => name);
  for (const { part } of DRIVERS) expect(walked).toContain(part);
});

describe.each(UNDER_TEST.map((one) => [one.name, one] as const))('%s, end to end', (_, one) => {
  it('has the resolution of its sheet, and tells heel in degrees', () => {
    const { stepDeg, toleranceDeg } = one;
    expect(stepDeg).toBeLessThan(0.01);
    expect(toleranceDeg).toBeLessThanOrEqual(0.006);
  });

  it('reads starboard down as positive, port down as negative, to the ends of its range', async () => {
    const near = [0, 0.01, 2, -1.5].filter((each) => each <= one.rangeDeg);
    const heels = [...near, one.rangeDeg, -one.rangeDeg];
    const read = await one.heelDegAt(heels);
    heels.forEach((heelDeg, k) => {
      const share = near.includes(heelDeg) ? 1 : 5;
      expect(read[k]).not.toBeNull();
      expect(Math.abs(read[k]! - heelDeg)).toBeLessThan(share * (one.toleranceDeg + one.stepDeg));
    });
  });

  it.each(TROUBLES)('says so when it meets %s', async (trouble) => {
    const called = one.called[trouble];
    const fault = await one.faultWhen(trouble);
    if (typeof called === 'string') expect(fault).toBe(called);
    else expect(called.cannot.length).toBeGreaterThan(10);
  });
});
