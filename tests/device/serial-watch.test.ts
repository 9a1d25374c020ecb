import { describe, expect, it } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import type { Channel } from '#core/sample/stream-item.ts';
import { FaultTeller, SerialWatch } from '#device/serial-watch.ts';

const channelOf = (step: number | null, quantity = 'heel'): Channel => ({
  instrument: 'clino',
  quantity,
  part: 'nmea-0183',
  counted: { form: 'integer', scale: 1e-3, offset: 0, unit: 'deg', step },
});
const watchOf = (step: number | null, stuckAfterS?: number) =>
  new SerialWatch([channelOf(step)], { where: 'a line clino', spanM: null, stuckAfterS });
const sound = (count: number) => [{ count, fault: null }];

describe('one value for too long', () => {
  it('is stuck where it can show a five hundredth of a degree or less', () => {
    const watch = watchOf(0.001);
    expect(watch.look(sound(1000), 0).counts[0]!.fault).toBeNull();
    expect(watch.look(sound(1000), 9.9).counts[0]!.fault).toBeNull();
    const stuck = watch.look(sound(1000), 10);
    expect(stuck.counts).toEqual([{ count: 1000, fault: 'chip-stuck' }]);
    expect(stuck.faults.map(({ code }) => code)).toEqual(['chip-stuck']);
    expect(watch.look(sound(1001), 10.1).counts[0]!.fault).toBeNull();
    expect(watch.look(sound(1001), 12).counts[0]!.fault).toBeNull();
  });

  it('is natural of one that cannot, unless the technician says how long', () => {
    for (const step of [0.1, null]) {
      const watch = watchOf(step);
      watch.look(sound(1000), 0);
      expect(watch.look(sound(1000), 3600).counts[0]!.fault).toBeNull();
    }
    const told = watchOf(0.1, 30);
    told.look(sound(1000), 0);
    expect(told.look(sound(1000), 30).counts[0]!.fault).toBe('chip-stuck');
  });

  it('is not hidden by a time that goes on beside it', () => {
    const channels = [channelOf(0.001), channelOf(null, 'time')];
    const options = { where: 'a line', spanM: null, stuckAfterS: undefined };
    const watch = new SerialWatch(channels, options);
    const at = (s: number) => [...sound(1000), { count: s * 1000, fault: null }];
    watch.look(at(0), 0);
    expect(watch.look(at(11), 11).counts.map(({ fault }) => fault)).toEqual([
      'chip-stuck',
      'chip-stuck',
    ]);
  });

  it('ends with a missing one, whose own fault is told', () => {
    const watch = watchOf(0.001);
    const missing = watch.look([{ count: null, fault: 'nmea-unit' }], 0);
    expect(missing.counts).toEqual([{ count: null, fault: 'nmea-unit' }]);
    expect(missing.faults.map(({ code }) => code)).toEqual(['nmea-unit']);
  });
});

describe('steps coarser than stated', () => {
  const rolled = (k: number, step: number) =>
    Math.round((1000 * Math.sin(k / 8 + k * 0.001)) / step) * step;

  it('are told of a printed thousandth that moves by tenths', () => {
    const watch = watchOf(0.001);
    const seen = Array.from({ length: 400 }, (_, k) => watch.coarserStep(sound(rolled(k, 100))));
    expect(seen.at(-1)?.quantity).toBe('heel');
    expect(seen.at(-1)?.step).toBeCloseTo(0.1, 9);
  });

  it('are not told of a fine one, nor of one that says so itself', () => {
    const fine = watchOf(0.001);
    const honest = watchOf(0.1);
    for (let k = 0; k < 400; k++) {
      expect(fine.coarserStep(sound(rolled(k, 1)))).toBeNull();
      expect(honest.coarserStep(sound(rolled(k, 100)))).toBeNull();
    }
  });
});

it('tells a fault of a kind and place once a minute', () => {
  const told: string[] = [];
  const teller = new FaultTeller((fault) => told.push(fault.report.where));
  for (const [where, atS] of [
    ['a', 0],
    ['a', 59],
    ['b', 59],
    ['a', 61],
  ] as const)
    teller.tell(new Fault('modbus-crc', where, ''), atS);
  expect(told).toEqual(['a', 'b', 'a']);
});
