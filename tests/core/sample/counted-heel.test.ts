import { describe, expect, it } from 'vitest';
import type { Counted } from '#core/part/counted.ts';
import type { Certificate, Mounting } from '#core/sample/certificate.ts';
import { HeelConversion } from '#core/sample/heel.ts';
import { type Channel, channel, type SampleBlock } from '#core/sample/stream-item.ts';

const PERIOD_US = 100_000;
const degrees: Counted = { form: 'integer', scale: 1e-3, offset: 0, unit: 'deg', step: 0.001 };
const millimetres: Counted = { ...degrees, scale: 0.1, unit: 'mm', step: 0.1 };
const column = (instrument: string, quantity: string, counted?: Counted): Channel =>
  channel.parse({ instrument, quantity, part: 'modbus-rtu', ...(counted ? { counted } : {}) });

const mountingOf = (instrument: string, change: Partial<Mounting> = {}): Mounting => ({
  instrument,
  label: instrument,
  kind: 'inclinometer',
  sign: 1,
  spanM: null,
  heightOverRollAxisM: 0,
  settlingS: 0,
  ...change,
});
const certificate: Certificate = {
  number: 'T-1',
  instrument: 'clino',
  method: 'for a test',
  madeBy: 'nobody',
  date: '2026-11-24',
  zero: 0.001,
  scale: 1.02,
  scaleUncertainty: 0.0015,
  leftOver: 0,
  temperatureC: null,
  points: [],
};

function blockOf(columns: (number | null)[][], faults: SampleBlock['faults'] = []): SampleBlock {
  return {
    type: 'samples',
    stream: 'test/clino/1',
    number: 1,
    v: 1,
    firstSequence: 0,
    firstBoardUs: 0,
    stepUs: columns[0]!.map((_, k) => (k === 0 ? 0 : PERIOD_US)),
    columns,
    faults,
    skipped: 0,
    arrivedStationS: 0,
  };
}

describe('an inclinometer on a serial line', () => {
  const channels = [
    column('clino', 'heel', degrees),
    column('clino', 'temperature', { ...degrees, scale: 0.1, unit: 'degC' }),
  ];
  const stream = { channels, periodUs: PERIOD_US };
  const convert = (block: SampleBlock, change: Partial<Mounting> = {}, by = certificate) =>
    new HeelConversion(stream, [
      { mounting: mountingOf('clino', change), certificate: by },
    ]).convert(block)[0]!;

  it('is corrected by its certificate in sine space, as a chip is', () => {
    const { heelDeg, temperatureC, calibrated } = convert(blockOf([[2000], [185]]));
    const sine = 0.001 + 1.02 * Math.sin((2 * Math.PI) / 180);
    expect(heelDeg[0]).toBeCloseTo((Math.asin(sine) * 180) / Math.PI, 12);
    expect(temperatureC[0]).toBeCloseTo(18.5, 12);
    expect(calibrated).toBe(true);
  });

  it('has its sign from its mounting', () => {
    const straight = { ...certificate, zero: 0, scale: 1 };
    const at = (sign: 1 | -1) => convert(blockOf([[-1500], [0]]), { sign }, straight).heelDeg[0];
    expect(at(1)).toBeCloseTo(-1.5, 12);
    expect(at(-1)).toBeCloseTo(1.5, 12);
  });

  it('has no heel where a count is missing, at fault, or no heel', () => {
    const block = blockOf(
      [
        [1000, null, 1000, 178_000],
        [0, 0, 0, 0],
      ],
      [[2, 0, 'modbus-crc']],
    );
    const { heelDeg, faults } = convert(block);
    expect(heelDeg.map((one) => one === null)).toEqual([false, true, true, true]);
    expect(faults).toEqual([[3, 'chip-saturated']]);
  });

  it('is not read in a unit that is no heel, nor without its column', () => {
    const wrong = { channels: [column('clino', 'heel', millimetres)], periodUs: PERIOD_US };
    const none = { channels: [column('clino', 'pitch', degrees)], periodUs: PERIOD_US };
    for (const each of [wrong, none])
      expect(
        () => new HeelConversion(each, [{ mounting: mountingOf('clino'), certificate: null }]),
      ).toThrow(RangeError);
  });
});

describe('a water tube on a serial line', () => {
  const channels = ['port', 'starboard'].map((leg) => column('tube', leg, millimetres));
  const tube = mountingOf('tube', { kind: 'water-tube', spanM: 8 });
  const conversion = () =>
    new HeelConversion({ channels, periodUs: PERIOD_US }, [{ mounting: tube, certificate: null }]);

  it('is starboard less port over the span', () => {
    // 8 m at 2 degrees: 279.4 mm, half of it in each leg.
    const [heel] = conversion().convert(blockOf([[3603], [6397]]))[0]!.heelDeg;
    expect(heel).toBeCloseTo(2, 3);
  });

  it('needs both legs', () => {
    const [tubeHeel] = conversion().convert(
      blockOf([
        [3603, null],
        [null, 6397],
      ]),
    );
    expect(tubeHeel!.heelDeg).toEqual([null, null]);
    expect(tubeHeel!.calibrated).toBe(false);
  });
});
