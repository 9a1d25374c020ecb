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
});
