import { expect, it } from 'vitest';
import { streamOpened } from '#core/sample/stream-item.ts';
import { assumedMountings } from '#receiver/assumed-mounting.ts';

const opened = streamOpened.parse({
  type: 'stream-opened',
  stream: 'station/board/1',
  number: 0,
  v: 1,
  station: 'station',
  board: 'board',
  boardIsOurs: true,
  resetCounter: 3,
  port: 'a port',
  firmware: 'heelwright 1.0',
  periodUs: 20_000,
  channels: [
    ...['x', 'y', 'temperature'].map((quantity) => ({
      instrument: 'board-iis2iclx-0x6a',
      part: 'iis2iclx',
      quantity,
    })),
    ...['port', 'starboard'].map((quantity) => ({
      instrument: 'board-ads1115-0x48',
      part: 'ads1115',
      quantity,
    })),
  ],
  openedStationS: 1,
});

it('lets an undescribed inclinometer be seen, and guesses no pair of legs', () => {
  const assumed = assumedMountings(opened, []);
  expect(assumed.map(({ instrument, kind }) => [instrument, kind])).toEqual([
    ['board-iis2iclx-0x6a', 'inclinometer'],
  ]);
});

it('leaves what is described as it is', () => {
  const [described] = assumedMountings(opened, []);
  expect(assumedMountings(opened, [{ ...described!, sign: -1 }])).toEqual([]);
});
