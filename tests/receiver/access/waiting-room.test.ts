import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import {
  MOST_WAITING,
  MOST_WAITING_OF_ONE_ADDRESS,
  type Waiting,
  WaitingRoom,
} from '#receiver/access/waiting-room.ts';

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

function waiting(address: string): Waiting & { ended: string | null } {
  const one = {
    address,
    ended: null as string | null,
    dismiss: (code: string) => {
      one.ended = code;
    },
  };
  return one;
}

describe('who has not said who they are', () => {
  it('is given five seconds', () => {
    const room = new WaitingRoom();
    const [silent, speaking] = [waiting('a'), waiting('b')];
    room.enter(silent);
    room.enter(speaking);
    vi.advanceTimersByTime(4900);
    room.leave(speaking);
    vi.advanceTimersByTime(200);
    expect([silent.ended, speaking.ended]).toEqual(['access-not-said', null]);
    expect(room.count).toBe(0);
  });

  it('makes room as the oldest of its address, so that one address keeps nobody else out', () => {
    const room = new WaitingRoom();
    const other = waiting('b');
    room.enter(other);
    const crowd = Array.from({ length: MOST_WAITING_OF_ONE_ADDRESS + 2 }, () => waiting('a'));
    for (const one of crowd) room.enter(one);
    expect(crowd.map(({ ended }) => ended !== null)).toEqual([true, true, false, false, false]);
    expect(other.ended).toBeNull();
  });

  it('makes room as the oldest of all when there are too many', () => {
    const room = new WaitingRoom();
    const all = Array.from({ length: MOST_WAITING + 1 }, (_, k) => waiting(`address ${k}`));
    for (const one of all) room.enter(one);
    expect(all.filter(({ ended }) => ended === 'access-crowded')).toEqual([all[0]]);
    expect(room.count).toBe(MOST_WAITING);
  });
});
