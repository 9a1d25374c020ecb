import { describe, expect, it } from 'vitest';
import { BUS_BITS } from '#device/bus/scan-message.ts';
import { ads1115 } from '#device/drivers/ads1115.ts';
import { iis2iclx } from '#device/drivers/iis2iclx.ts';
import { ScanPlan } from '#device/scan-plan.ts';

const plan = new ScanPlan(
  [iis2iclx, ads1115].map((driver) => ({
    address: driver.addresses[0]!,
    steps: driver.steps(20_000),
  })),
);
const frame = { bytes: Uint8Array.of(1, 2, 3, 4, 5, 6, 7, 8), failedSteps: 0, bus: 0, sequence: 4 };

describe('the list of steps of a board', () => {
  it('puts the chips one after another', () => {
    expect(plan.steps.map(({ address, register }) => [address, register])).toEqual([
      [0x6a, 0x28],
      [0x6a, 0x20],
      [0x48, 0],
      [0x48, 1],
      [0x48, 1],
    ]);
  });

  it('hands each chip its bytes', () => {
    expect(plan.answers(frame)).toEqual([
      [
        { kind: 'bytes', bytes: Uint8Array.of(1, 2, 3, 4) },
        { kind: 'bytes', bytes: Uint8Array.of(5, 6) },
      ],
      [
        { kind: 'bytes', bytes: Uint8Array.of(7, 8) },
        { kind: 'bytes', bytes: new Uint8Array(0) },
        { kind: 'not-due' },
      ],
    ]);
    expect(plan.answers({ ...frame, sequence: 5 })?.[1]?.map(({ kind }) => kind)).toEqual([
      'bytes',
      'not-due',
      'bytes',
    ]);
  });

  it.each([
    ['bus-no-answer', BUS_BITS.addressNotAcknowledged, 0b00001],
    ['bus-stuck', BUS_BITS.stillHeld | BUS_BITS.addressNotAcknowledged, 0b00001],
    ['bus-stuck', BUS_BITS.timeLimit, 0b00001],
    ['bus-stuck', BUS_BITS.dataFreed, 0b00001],
    ['chip-not-ready', BUS_BITS.frameBeforeLacked, 0b00100],
    ['bus-no-answer', BUS_BITS.frameBeforeLacked | BUS_BITS.addressNotAcknowledged, 0b00010],
  ])('names %s from the bus bits %i', (code, bus, failedSteps) => {
    const answers = plan.answers({ ...frame, bus, failedSteps })!.flat();
    const failed = answers.filter(({ kind }) => kind === 'failed');
    expect(failed).toEqual([{ kind: 'failed', code }]);
  });

  it('takes no frame with other bytes than it asked for', () => {
    expect(plan.answers({ ...frame, bytes: new Uint8Array(7) })).toBeNull();
    expect(plan.answers({ ...frame, bytes: new Uint8Array(9) })).toBeNull();
  });
});
