import { describe, expect, it } from 'vitest';
import { readLine } from '#core/record/read-line.ts';
import { TimeMap } from '#receiver/time-map.ts';
import { blockBody, OPENED_BODY, RecordLines, STREAM } from '#tests/support/record-lines.ts';

function followed(record: RecordLines): TimeMap {
  const map = new TimeMap();
  for (const bytes of record.lines) map.follow(readLine(bytes, 'test'));
  return map;
}

const pairing = (run: string, receiverS: number, rate = 1) => ({
  station: 'station-1',
  run,
  stationS: 0,
  receiverS,
  rate,
  uncertaintyS: 0.003,
  rateUncertainty: 0,
});

const boardClock = (rate: number) => ({
  type: 'board-clock' as const,
  stream: STREAM,
  number: 1,
  v: 1 as const,
  boardUs: 0,
  stationS: 10,
  rate,
  uncertaintyS: 0.004,
  rateUncertainty: 0,
});

describe('receiver time of samples', () => {
  it('goes from board to station to receiver, with both uncertainties', () => {
    const record = new RecordLines();
    record.add('stream-opened', OPENED_BODY, 'device');
    record.add('station-clock', pairing('run-1', 1000), 'receiver');
    record.add('board-clock', boardClock(1.005), 'device');
    const times = followed(record).timesOf(blockBody(2, 50, 3))!;
    expect([...times.atS].map((atS) => atS.toFixed(6))).toEqual([
      '1011.005000',
      '1011.025100',
      '1011.045200',
    ]);
    expect(times.uncertaintyS).toBeCloseTo(0.005, 12);
  });

  it('is not known until both are paired', () => {
    const record = new RecordLines();
    record.add('stream-opened', OPENED_BODY, 'device');
    expect(followed(record).timesOf(blockBody(1, 0))).toBeNull();
    record.add('board-clock', boardClock(1), 'device');
    expect(followed(record).timesOf(blockBody(1, 0))).toBeNull();
    record.add('station-clock', pairing('run-1', 0), 'receiver');
    expect(followed(record).timesOf(blockBody(1, 0))).not.toBeNull();
  });

  it('of a stream sent late, by another run of the program, is still by its own run', () => {
    const record = new RecordLines();
    record.add('station-clock', pairing('run-1', 1000), 'receiver');
    record.add('station-clock', pairing('run-2', 7000), 'receiver');
    record.add('stream-opened', { ...OPENED_BODY, run: 'run-1' }, 'device');
    record.add('board-clock', boardClock(1), 'device');
    expect(followed(record).timesOf(blockBody(2, 0))?.atS[0]).toBe(1010);
  });

  describe('of samples that come late', () => {
    const paired = (stationS: number, receiverS: number, rate = 1) => ({
      station: 'station-1',
      run: 'run-1',
      stationS,
      receiverS,
      rate,
      uncertaintyS: 0.002,
      rateUncertainty: 20e-6,
    });
    const boardPaired = (boardS: number, stationS: number, jumpedS?: number) => ({
      type: 'board-clock' as const,
      stream: STREAM,
      number: 1,
      v: 1 as const,
      boardUs: boardS * 1e6,
      stationS,
      rate: 1,
      uncertaintyS: 0.001,
      rateUncertainty: 10e-6,
      ...(jumpedS === undefined ? {} : { stationJumpedS: jumpedS }),
    });
    const blockAt = (boardS: number) => ({ ...blockBody(2, 0), firstBoardUs: boardS * 1e6 });

    it('stays with the pairing of its own time when an hour comes in late', () => {
      const record = new RecordLines();
      record.add('station-clock', paired(0, 1000), 'receiver');
      record.add('stream-opened', OPENED_BODY, 'device');
      // Bent by 300 ppm towards its evidence, as pairings are.
      record.add('station-clock', paired(30, 1030, 1 + 300e-6), 'receiver');
      // The link was down for an hour; the receiver's clock runs 40 ppm ahead of the station's.
      const trueS = (stationS: number) => 1030 + (stationS - 30) * (1 + 40e-6);
      record.add('station-clock', paired(3700, trueS(3700), 1 - 500e-6), 'receiver');
      record.add('board-clock', boardPaired(100, 100), 'device');
      for (const boardS of [100, 1000, 2000, 3699]) {
        const map = followed(record);
        const times = map.timesOf(blockAt(boardS))!;
        const errorS = Math.abs(times.atS[0]! - trueS(boardS));
        expect(errorS).toBeLessThan(0.06);
        expect(errorS).toBeLessThan(3 * times.uncertaintyS);
      }
    });

    it('knows less of a time the longer it is since the last pairing', () => {
      const record = new RecordLines();
      record.add('stream-opened', OPENED_BODY, 'device');
      record.add('station-clock', paired(0, 1000), 'receiver');
      record.add('board-clock', boardPaired(0, 0), 'device');
      const near = followed(record).timesOf(blockAt(1))!.uncertaintyS;
      record.add('board-clock', boardPaired(3600, 3600), 'device');
      const far = followed(record).timesOf(blockAt(3600))!.uncertaintyS;
      expect(near).toBeLessThan(0.003);
      expect(far).toBeCloseTo(Math.hypot(3600 * 20e-6, 0.002, 0.001), 6);
    });

    it('waits for a pairing of after the jump of the station clock, and keeps those before', () => {
      const record = new RecordLines();
      record.add('stream-opened', OPENED_BODY, 'device');
      record.add('station-clock', paired(0, 1000), 'receiver');
      record.add('board-clock', boardPaired(0, 0), 'device');
      // Asleep for 50 s from station time 60 on.
      record.add('board-clock', boardPaired(110, 60, 60), 'device');
      const asleep = followed(record);
      expect(asleep.timesOf(blockAt(111))).toBeNull();
      expect(asleep.unpairedSinceS('station-1', 'run-1')).toBe(60);
      record.add('station-clock', paired(62, 1112), 'receiver');
      const awake = followed(record);
      expect(awake.unpairedSinceS('station-1', 'run-1')).toBeNull();
      expect(awake.timesOf(blockAt(111))!.atS[0]).toBeCloseTo(1111, 3);
      // What was taken before the sleep and comes only now.
      const before = { fromS: 0, toS: 0, rate: 1, uncertaintyS: 0.001, rateUncertainty: 0 };
      const late = awake.timesOf(blockAt(61), { map: before, stationJumpedS: null });
      expect(late!.atS[0]).toBeCloseTo(1061, 3);
    });

    it('is unsure by the whole difference where clocks jumped and nobody knows when', () => {
      const record = new RecordLines();
      record.add('stream-opened', OPENED_BODY, 'device');
      record.add('station-clock', paired(0, 1000), 'receiver');
      record.add('station-clock', paired(100, 1700), 'receiver');
      record.add('board-clock', boardPaired(0, 0), 'device');
      const times = followed(record).timesOf(blockAt(50))!;
      expect(times.uncertaintyS).toBeGreaterThan(300);
    });

    it('is the same whatever came first of a stream and of a pairing that was known before', () => {
      const pairs = [paired(0, 1000), paired(30, 1030.001), paired(60, 1060.003)];
      const record = new RecordLines();
      record.add('stream-opened', OPENED_BODY, 'device');
      for (const pair of pairs) record.add('station-clock', pair, 'receiver');
      record.add('board-clock', boardPaired(0, 0), 'device');
      const at = [10, 40, 70].map((boardS) => followed(record).timesOf(blockAt(boardS))!.atS[0]!);
      expect(at[0]).toBeCloseTo(1010 + 0.001 / 3, 6);
      expect(at[1]).toBeCloseTo(1040.001 + 0.002 / 3, 6);
      expect(at[2]).toBeCloseTo(1070.003, 6);
    });
  });
});
