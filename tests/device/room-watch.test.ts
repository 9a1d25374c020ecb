import { describe, expect, it } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import { RoomWatch } from '#device/room-watch.ts';

const FULL = new Fault('spool-full', 'spool', '1000 bytes are held');
const DISK = new Fault('spool-disk', 'spool', 'ENOSPC');

describe('RoomWatch', () => {
  it('tells a want of room at once, and its end after five seconds without', () => {
    const watch = new RoomWatch();
    expect(watch.look(null, 0)).toBe(false);
    expect(watch.look(FULL, 1)).toBe(true);
    expect(watch.told).toBe(FULL);
    expect(watch.look(null, 2)).toBe(false);
    expect(watch.look(null, 6.9)).toBe(false);
    expect(watch.look(null, 7)).toBe(true);
    expect(watch.told).toBeNull();
  });

  it('takes room that comes and goes for one matter', () => {
    const watch = new RoomWatch();
    const told = Array.from({ length: 100 }, (_, k) => watch.look(k % 4 === 0 ? FULL : null, k));
    expect(told.filter(Boolean)).toHaveLength(1);
  });

  it('tells when the reason becomes another', () => {
    const watch = new RoomWatch();
    watch.look(FULL, 0);
    expect(watch.look(DISK, 1)).toBe(true);
    expect(watch.told).toBe(DISK);
  });
});
