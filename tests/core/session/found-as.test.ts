import { expect, test } from 'vitest';
import { foundAs } from '#core/session/found-as.ts';
import type { SessionState } from '#core/session/session.ts';

const stream = (board: string, openedS: number, addresses?: string[]) =>
  ({
    board,
    openedS,
    parts: [{ instrument: 'fore', part: 'iis2iclx', ...(addresses && { addresses }) }],
  }) as unknown as SessionState['streams'][number];
const session = { streams: [stream('b1', 0, ['0x6a']), stream('b2', 100)], signs: [] };
const sign = (seal: string | null, receiverS: number) =>
  ({
    instrument: 'fore',
    seal,
    written: { receiverS },
  }) as unknown as SessionState['signs'][number];

test('the newest that answered counts, or the newest until a time', () => {
  expect(foundAs(session, 'fore')).toEqual({
    board: 'b2',
    part: 'iis2iclx',
    addresses: [],
    seal: null,
  });
  expect(foundAs(session, 'fore', 99)).toEqual({
    board: 'b1',
    part: 'iis2iclx',
    addresses: ['0x6a'],
    seal: null,
  });
  expect(foundAs(session, 'aft')).toBeNull();
  expect(foundAs({ streams: [], signs: [] }, 'fore')).toBeNull();
});

test('the seal is the one that was seen last', () => {
  const signs = [sign('117', 10), sign('118', 50), sign(null, 60)];
  expect(foundAs({ ...session, signs }, 'fore')?.seal).toBe('118');
  expect(foundAs({ ...session, signs }, 'fore', 20)?.seal).toBe('117');
});
