import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { countsFromPressurePa, countsFromTemperatureC } from '#core/part/abp2.ts';
import { voltsFromPressurePa } from '#core/part/mpx5010.ts';
import { pressurePaOfHeight } from '#core/part/water-column.ts';
import type { Certificate, Mounting } from '#core/sample/certificate.ts';
import { HeelConversion } from '#core/sample/heel.ts';
import { heelDegFromFootDifference } from '#core/sample/indicated-heel.ts';
import type { Channel, SampleBlock } from '#core/sample/stream-item.ts';

const SPAN_M = 8;
const RANGE: [number, number] = [0, 6000];
const mounting: Mounting = {
  instrument: 'tube',
  label: 'Water tube',
  kind: 'water-tube',
  sign: 1,
  spanM: SPAN_M,
  heightOverRollAxisM: 0,
  settlingS: 30,
  asBuilt: { pressureRangePa: RANGE },
};
const channelsOf = (part: string, beside: string): Channel[] =>
  ['port', `port-${beside}`, 'starboard', `starboard-${beside}`].map((quantity) => ({
    instrument: 'tube',
    quantity,
    part,
  }));
const abp2 = channelsOf('abp2', 'temperature');
const mpx5010 = channelsOf('mpx5010', 'supply');

function block(rows: (number | null)[][], faults: SampleBlock['faults'] = []): SampleBlock {
  return {
    type: 'samples',
    stream: 'test/aft/1',
    number: 1,
    v: 1,
    firstSequence: 0,
    firstBoardUs: 0,
    stepUs: rows.map((_, k) => (k === 0 ? 0 : 20_000)),
    columns: rows[0]!.map((_, column) => rows.map((row) => row[column]!)),
    faults,
    skipped: 0,
    arrivedStationS: 0,
  };
}
const conversionOf = (channels: readonly Channel[], change: Partial<Mounting> = {}) =>
  new HeelConversion({ channels, periodUs: 20_000 }, [
    { mounting: { ...mounting, ...change }, certificate: null },
  ]);

/** Foot pressures of a tube at a heel: the legs lean with her. */
function feetPa(heelDeg: number): [number, number] {
  const heel = (heelDeg * Math.PI) / 180;
  const half = 500 * SPAN_M * Math.tan(heel);
  return [400 - half, 400 + half].map((mm) => pressurePaOfHeight(mm * Math.cos(heel))) as [
    number,
    number,
  ];
}

describe('two legs read at their feet', () => {
  it('differ by the sine of heel, not by its tangent', () => {
    const of = { mounting, certificate: null };
    expect(heelDegFromFootDifference(8000 * Math.sin((4 * Math.PI) / 180), of)).toBeCloseTo(4, 12);
    expect(heelDegFromFootDifference(8001, of)).toBeNull();
    const noSpan = { mounting: { ...mounting, spanM: null }, certificate: null };
    expect(() => heelDegFromFootDifference(1, noSpan)).toThrow(RangeError);
  });

  it('give any heel back through 24 bits', () => {
    fc.assert(
      fc.property(fc.double({ min: -2.5, max: 2.5, noNaN: true }), (heelDeg) => {
        const [port, starboard] = feetPa(heelDeg).map((pa) =>
          Math.round(countsFromPressurePa(pa, RANGE)),
        );
        const warm = Math.round(countsFromTemperatureC(18));
        const [tube] = conversionOf(abp2).convert(block([[port!, warm, starboard!, warm]]));
        expect(tube!.heelDeg[0]).toBeCloseTo(heelDeg, 5);
        expect(tube!.temperatureC[0]).toBeCloseTo(18, 4);
      }),
    );
  });

  it('are corrected in millimetres of water by the certificate', () => {
    const certificate = { zero: 2, scale: 1.01, instrument: 'tube' } as Certificate;
    const trueMm = 8000 * Math.sin((1 * Math.PI) / 180);
    const indicated = (trueMm - 2) / 1.01;
    expect(heelDegFromFootDifference(indicated, { mounting, certificate })).toBeCloseTo(1, 12);
  });
});

describe('a ratiometric leg', () => {
  const count = (volts: number) => Math.round(volts / 187.5e-6);

  it('needs its supply, which comes in turn, and forgets it after a fault', () => {
    const [portPa, starboardPa] = feetPa(1);
    const at = (pa: number, supplyV: number) => count(voltsFromPressurePa(pa, supplyV));
    const rows = [
      [at(portPa, 4.9), null, at(starboardPa, 5.1), null],
      [null, count(4.9), null, count(5.1)],
      [at(portPa, 4.9), null, at(starboardPa, 5.1), null],
      [null, null, null, count(5.1)],
      [at(portPa, 4.9), null, at(starboardPa, 5.1), null],
    ];
    const [tube] = conversionOf(mpx5010).convert(block(rows, [[3, 1, 'bus-no-answer']]));
    expect(tube!.heelDeg.map((one) => one !== null)).toEqual([false, true, true, false, false]);
    expect(tube!.heelDeg[2]).toBeCloseTo(1, 3);
  });

  it('that is broken is a fault of its samples', () => {
    const rows = [
      [count(0.001), null, count(2), null],
      [null, count(5), null, count(5)],
    ];
    const [tube] = conversionOf(mpx5010).convert(block(rows));
    expect(tube!.heelDeg).toEqual([null, null]);
    expect(tube!.faults).toEqual([[1, 'leg-pressure-unsound']]);
  });
});

it('a tube is refused without its range, with one leg, with two parts, or by no part of legs', () => {
  const { asBuilt: _, ...plain } = mounting;
  const make = (channels: readonly Channel[]) => () =>
    new HeelConversion({ channels, periodUs: 20_000 }, [{ mounting: plain, certificate: null }]);
  expect(make(abp2)).toThrow(/pressureRangePa/);
  expect(make(mpx5010.slice(0, 2))).toThrow(RangeError);
  const mixed = [...mpx5010.slice(0, 2), ...abp2.slice(2)];
  expect(make(mixed)).toThrow(RangeError);
  expect(make(channelsOf('iis2iclx', 'y'))).toThrow(/no leg/);
});
