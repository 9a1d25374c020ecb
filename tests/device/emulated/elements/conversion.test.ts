import { describe, expect, it } from 'vitest';
import { convertedCounts } from '#device/emulated/elements/conversion.ts';

const steady = (volts: number) => ({ volts: () => volts });
const conversion = { startS: 0, lastsS: 1 / 128, pgaField: 1 };

describe('a conversion', () => {
  it('rounds to a count of 125 microvolts and stops at the end of the register', () => {
    expect(convertedCounts(steady(1), 0, conversion)).toBe(8000);
    expect(convertedCounts(steady(1.00007), 0, conversion)).toBe(8001);
    expect(convertedCounts(steady(5), 0, conversion)).toBe(32767);
    expect(convertedCounts(steady(-5), 0, conversion)).toBe(-32768);
  });

  it('takes the volts of its input in the middle of its time', () => {
    const ramp = { volts: (input: number, timeS: number) => input + timeS };
    const counts = convertedCounts(ramp, 1, { startS: 0.5, lastsS: 0.1, pgaField: 1 });
    expect(counts).toBe(Math.round(1.55 / 125e-6));
  });
});
