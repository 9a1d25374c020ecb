import { describe, expect, it } from 'vitest';
import { readLine } from '#core/record/read-line.ts';
import { foldLines } from '#core/session/fold.ts';
import { blockBody, OPENED_BODY, RecordLines, STREAM } from '#tests/support/record-lines.ts';

const folded = (record: RecordLines) =>
  foldLines(record.lines.map((bytes) => readLine(bytes, 'test').line));

describe('streams in the session', () => {
  it('are counted sample by sample, with what the board left out, until they close', () => {
    const record = new RecordLines();
    record.add('stream-opened', OPENED_BODY, 'device');
    record.add('samples', blockBody(1, 0, 10), 'device');
    record.add('samples', { ...blockBody(2, 10, 7), skipped: 3 }, 'device');
    expect(folded(record).streams).toMatchObject([
      { stream: STREAM, open: true, reason: null, samples: 17, skipped: 3 },
    ]);
    record.add(
      'stream-closed',
      {
        type: 'stream-closed',
        stream: STREAM,
        number: 3,
        v: 1,
        reason: 'board-lost',
        closedStationS: 1,
      },
      'device',
    );
    expect(folded(record).streams).toMatchObject([{ open: false, reason: 'board-lost' }]);
  });

  it('show their faults', () => {
    const record = new RecordLines();
    record.add('stream-opened', OPENED_BODY, 'device');
    record.add(
      'stream-fault',
      {
        type: 'stream-fault',
        stream: STREAM,
        number: 1,
        v: 1,
        code: 'bus-stuck',
        where: 'board-1',
        found: 'SDA low',
        stationS: 1,
      },
      'device',
    );
    expect(folded(record).faults).toMatchObject([{ code: 'bus-stuck', found: 'SDA low' }]);
  });

  it('refuses samples of a stream that was never opened', () => {
    const record = new RecordLines();
    record.add('samples', blockBody(1, 0), 'device');
    expect(() => folded(record)).toThrowError(/was not opened/);
  });
});

it('a new stream of a board ends the one its killed program could not close', () => {
  const record = new RecordLines();
  record.add('stream-opened', OPENED_BODY, 'device');
  record.add('stream-opened', { ...OPENED_BODY, stream: 'station-1/board-1/2' }, 'device');
  record.add(
    'stream-opened',
    { ...OPENED_BODY, stream: 'station-1/board-2/3', board: 'board-2' },
    'device',
  );
  expect(folded(record).streams.map(({ open, reason }) => [open, reason])).toEqual([
    [false, 'replaced'],
    [true, null],
    [true, null],
  ]);
});
