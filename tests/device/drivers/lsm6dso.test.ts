import { expect, it } from 'vitest';
import { lsm6dso } from '#device/drivers/lsm6dso.ts';
import { faultOf, scriptedChip } from '../support/scripted-bus.ts';

it('is the LSM6DSO only when it says 0x6C', async () => {
  const { chip } = scriptedChip(0x6a, [{ read: [0x0f, 1], answer: [0x6b] }]);
  expect(await faultOf(lsm6dso.identify(chip))).toBe('chip-wrong-identity');
});

it('has I3C switched off, its filter and range set, and is read back', async () => {
  const { chip, done } = scriptedChip(0x6b, [
    { read: [0x0f, 1], answer: [0x6c] },
    { write: [0x12, 0x01] },
    { waitS: 0.02 },
    { write: [0x12, 0x44] },
    { read: [0x18, 1], answer: [0xe0] },
    { write: [0x18, 0xe2] },
    { write: [0x17, 0x20] },
    { write: [0x10, 0x42] },
    { read: [0x10, 1], answer: [0x42] },
    { read: [0x12, 1], answer: [0x44] },
    { read: [0x17, 1], answer: [0x20] },
  ]);
  await lsm6dso.configure(chip, 20_000);
  done();
});

it('takes three axes and its warmth out, low byte first', () => {
  const axes = { kind: 'bytes', bytes: Uint8Array.of(0, 0, 0x3c, 0x02, 0x09, 0x40) } as const;
  const temperature = { kind: 'bytes', bytes: Uint8Array.of(0x00, 0xfb) } as const;
  // 2 degrees at 0.061 mg a count are 572, 1 g 16 393; 20 C is -1280.
  expect(lsm6dso.counts([axes, temperature], 0)).toEqual(
    [0, 572, 16_393, -1280].map((count) => ({ count, fault: null })),
  );
});
