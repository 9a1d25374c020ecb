import { describe, expect, it } from 'vitest';
import { FAULTS, Fault } from '#core/fault/fault.ts';
import { DRIVERS, driverOf } from '#device/drivers/all.ts';
import type { Chip, StepAnswer } from '#device/drivers/driver.ts';
import { faultOf } from '../support/scripted-bus.ts';

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
        expect(counts.every(({ fault }) => fault === null)).toBe(true);
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
