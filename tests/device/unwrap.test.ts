import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { MICROSECOND_MODULUS, ScanUnwrapper, SEQUENCE_MODULUS } from '#device/unwrap.ts';

const PERIOD_US = 20_000;

function raw(sequence: number, boardUs: number) {
  return { sequence: sequence % SEQUENCE_MODULUS, boardUs: boardUs % MICROSECOND_MODULUS };
}

describe('unwrapping sequence and microseconds together', () => {
  it('carries an eight-hour day over every wrap of both counters', () => {
    const unwrapper = new ScanUnwrapper(PERIOD_US);
    // 20 ms of a board 5000 ppm fast, starting close to both wraps.
    const stepUs = 20_100;
    const startUs = MICROSECOND_MODULUS - 12_345;
    const count = (8 * 3600 * 1e6) / stepUs;
    let wrong = 0;
    for (let k = 0; k < count; k += 1) {
      const result = unwrapper.next(raw(65_530 + k, startUs + k * stepUs));
      const time = result.kind === 'next' ? result.time : null;
      if (time?.sequence !== 65_530 + k || time.boardUs !== startUs + k * stepUs) wrong += 1;
    }
    expect(wrong).toBe(0);
  });

  it('finds the true counters over any gap under a minute', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 2 ** 40 }),
        fc.integer({ min: 0, max: 2 ** 30 }),
        fc.array(fc.integer({ min: 1, max: 2900 }), { minLength: 1, maxLength: 20 }),
        fc.integer({ min: 19_900, max: 20_100 }),
        (startUs, startSequence, gaps, stepUs) => {
          const unwrapper = new ScanUnwrapper(PERIOD_US);
          const first = raw(startSequence, startUs);
          unwrapper.next(first);
          let scans = 0;
          for (const gap of gaps) {
            scans += gap;
            const result = unwrapper.next(raw(startSequence + scans, startUs + scans * stepUs));
            expect(result).toEqual({
              kind: 'next',
              time: { sequence: first.sequence + scans, boardUs: first.boardUs + scans * stepUs },
            });
          }
        },
      ),
    );
  });

  it('finds whole rounds of the sequence between two scans', () => {
    const unwrapper = new ScanUnwrapper(400);
    unwrapper.next({ sequence: 10, boardUs: 0 });
    const result = unwrapper.next({ sequence: 11, boardUs: (2 * SEQUENCE_MODULUS + 1) * 400 });
    expect(result).toMatchObject({ time: { sequence: 11 + 2 * SEQUENCE_MODULUS } });
  });

  it('drops the same scan sent twice', () => {
    const unwrapper = new ScanUnwrapper(PERIOD_US);
    unwrapper.next({ sequence: 5, boardUs: 100 });
    expect(unwrapper.next({ sequence: 5, boardUs: 100 }).kind).toBe('repeated');
    expect(unwrapper.next({ sequence: 6, boardUs: 20_100 }).kind).toBe('next');
  });

  it.each([
    ['the board began anew', { sequence: 0, boardUs: 20_000 }],
    ['the board was silent for over a minute', { sequence: 4050, boardUs: 161_000_000 }],
    ['more scans came than there was time for', { sequence: 1100, boardUs: 100_020_000 }],
  ])('breaks when %s', (_, second) => {
    const unwrapper = new ScanUnwrapper(PERIOD_US);
    unwrapper.next({ sequence: 1000, boardUs: 100_000_000 });
    expect(unwrapper.next(second).kind).toBe('broken');
  });
});
