import { expect, test } from 'vitest';
import { foundAs } from '#core/session/found-as.ts';
import type { SessionState } from '#core/session/session.ts';

const stream = (board: string, openedS: number, addresses?: string[]) =>
  ({
    board,
    openedS,
    parts: [{ instrument: 'fore', part: 'iis2iclx', ...(addresses && { addresses }) }],
  }) as unknown as SessionState['streams'][number];
const session = { streams: [stream('b1', 0, ['0x6a']), stream('b2', 100)] };

test('the newest that answered counts, or the newest until a time', () => {
  expect(foundAs(session, 'fore')).toEqual({ board: 'b2', part: 'iis2iclx', addresses: [] });
  expect(foundAs(session, 'fore', 99)).toEqual({
    board: 'b1',
    part: 'iis2iclx',
    addresses: ['0x6a'],
  });
  expect(foundAs(session, 'aft')).toBeNull();
  expect(foundAs({ streams: [] }, 'fore')).toBeNull();
});
