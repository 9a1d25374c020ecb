import { describe, expect, it } from 'vitest';
import { voltsPerCount } from '#core/part/ads1115.ts';
import { voltsFromLevelMm } from '#core/part/current-loop-level.ts';
import type { Certificate, Mounting } from '#core/sample/certificate.ts';
import { HeelConversion } from '#core/sample/heel.ts';
import { BOARD_CHANNELS } from '#core/sample/layout.ts';
import type { SampleBlock } from '#core/sample/stream-item.ts';

const certificateOf = (instrument: string, zero: number, scale: number): Certificate => ({
  number: 'T-1',
  instrument,
  method: 'for a test',
  madeBy: 'nobody',
  date: '2026-11-24',
  zero,
  scale,
  scaleUncertainty: 0.0015,
  leftOver: 0,
  temperatureC: null,
  points: [],
});
const mountingOf = (instrument: string, change: Partial<Mounting> = {}): Mounting => ({
  instrument,
  label: instrument,
  kind: instrument === 'tube' ? 'water-tube' : 'inclinometer',
  sign: 1,
  spanM: instrument === 'tube' ? 8 : null,
  heightOverRollAxisM: 0,
  settlingS: 0,
  ...change,
});
const PERIOD_US = 20_000;
const aft = { channels: BOARD_CHANNELS.aft, periodUs: PERIOD_US };

/** A block of the aft board from rows [x, y, temperature, port, starboard]. */
function block(rows: (number | null)[][], change: Partial<SampleBlock> = {}): SampleBlock {
  return {
    type: 'samples',
    stream: 'test/aft/1',
    number: 1,
    v: 1,
    firstSequence: 0,
    firstBoardUs: 0,
    stepUs: rows.map((_, k) => (k === 0 ? 0 : PERIOD_US)),
    columns: aft.channels.map((_, column) => rows.map((row) => row[column] ?? null)),
    faults: [],
    skipped: 0,
    arrivedStationS: 0,
    ...change,
  };
}
const legCounts = (levelMm: number) => Math.round(voltsFromLevelMm(levelMm) / voltsPerCount(1));

describe('heel of a block', () => {
  const conversion = () =>
    new HeelConversion(aft, [
      { mounting: mountingOf('aft'), certificate: certificateOf('aft', 0, 1) },
      { mounting: mountingOf('tube'), certificate: null },
    ]);

  it('has one value a sample and says whether it is calibrated', () => {
    const [inclinometer, tube] = conversion().convert(block([[0, 1163, -1280, null, null]]));
    expect(inclinometer).toMatchObject({ instrument: 'aft', calibrated: true, faults: [] });
    // Half a count is 0.00043 degree.
    expect(inclinometer!.heelDeg[0]).toBeCloseTo(1, 3);
    expect(inclinometer!.temperatureC).toEqual([20]);
    expect(tube).toMatchObject({ instrument: 'tube', calibrated: false, heelDeg: [null] });
  });

  it('is null where the count is missing or at fault, and nowhere else', () => {
    const rows = [
      [0, 100, 0, null, null],
      [0, null, 0, null, null],
      [0, 32767, 0, null, null],
      [0, 100, null, null, null],
    ];
    const faults: SampleBlock['faults'] = [
      [1, 1, 'bus-no-answer'],
      [2, 1, 'chip-saturated'],
    ];
    const [inclinometer] = conversion().convert(block(rows, { faults }));
    expect(inclinometer!.heelDeg.map((one) => one !== null)).toEqual([true, false, false, true]);
    expect(inclinometer!.temperatureC.map((one) => one !== null)).toEqual([
      true,
      true,
      true,
      false,
    ]);
  });

  it('pairs the newest reading of each leg, also from block to block', () => {
    const over = conversion();
    const port = legCounts(400);
    const starboard = legCounts(540);
    const first = over.convert(block([[0, 0, 0, port, null]]))[1]!;
    expect(first.heelDeg).toEqual([null]);
    const rows = [
      [0, 0, 0, null, starboard],
      [0, 0, 0, port, null],
    ];
    const second = over.convert(block(rows, { firstBoardUs: PERIOD_US }))[1]!;
    // 140 mm over 8 m, each leg rounded to 0.052 mm: within 0.0004 degree.
    for (const heelDeg of second.heelDeg) {
      expect(heelDeg).toBeCloseTo((Math.atan(140 / 8000) * 180) / Math.PI, 3);
    }
  });

  it('forgets a leg that is not read any more, and one with a fault at once', () => {
    const port = legCounts(400);
    const starboard = legCounts(540);
    const silent = Array.from({ length: 5 }, () => [0, 0, 0, null, null]);
    const rows = [[0, 0, 0, port, null], [0, 0, 0, null, starboard], ...silent];
    const known = (all: SampleBlock) =>
      conversion()
        .convert(all)[1]!
        .heelDeg.map((one) => one !== null);
    expect(known(block(rows))).toEqual([false, true, true, true, false, false, false]);
    const faults: SampleBlock['faults'] = [[2, 4, 'bus-no-answer']];
    expect(known(block(rows, { faults }))).toEqual([
      false,
      true,
      false,
      false,
      false,
      false,
      false,
    ]);
  });

  it('names a broken loop instead of taking it for a level', () => {
    const rows = [
      [0, 0, 0, legCounts(400), null],
      [0, 0, 0, null, 0],
    ];
    const tube = conversion().convert(block(rows))[1]!;
    expect(tube.heelDeg).toEqual([null, null]);
    expect(tube.faults).toEqual([[1, 'leg-loop-broken']]);
  });

  it('leaves out what has no mounting and refuses counts of a part it does not know', () => {
    const only = new HeelConversion(aft, [{ mounting: mountingOf('tube'), certificate: null }]);
    expect(only.convert(block([[0, 0, 0, null, null]])).map((one) => one.instrument)).toEqual([
      'tube',
    ]);
    const channels = aft.channels.map((one) => ({ ...one, part: 'other' }));
    expect(
      () =>
        new HeelConversion({ channels, periodUs: PERIOD_US }, [
          { mounting: mountingOf('aft'), certificate: null },
        ]),
    ).toThrow(RangeError);
  });
});
