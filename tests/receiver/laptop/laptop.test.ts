import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, describe, expect, it, vi } from 'vitest';
import type { LaptopState } from '#core/record/laptop-line.ts';
import { EMPTY_SESSION } from '#core/session/fold.ts';
import type { Dock } from '#receiver/dock.ts';
import { watchLaptop } from '#receiver/laptop/laptop.ts';
import { MACHINE_CLOCK } from '#receiver/machine-clock.ts';

/** As much of a dock as the watch asks for, over a folder of the test's. */
function dockIn(folder: string, more: { paced?: boolean; openedAtWallMs?: number | null } = {}) {
  const written: LaptopState[] = [];
  const dock = {
    record: {
      path: join(folder, 'day.hwr'),
      clock: MACHINE_CLOCK,
      saved: { lines: 1, bytes: 1000, head: '', wall: '' },
      fault: null,
      append: (kind: string, state: LaptopState) => {
        expect(kind).toBe('laptop-state');
        written.push(state);
      },
    },
    port: 0,
    paced: more.paced ?? false,
    openedAtWallMs: more.openedAtWallMs ?? null,
    session: () => EMPTY_SESSION,
    stations: () => [],
    close: () => Promise.resolve(),
  };
  // The watch asks for no more of it.
  return { dock: dock as unknown as Dock, written };
}

describe('watchLaptop', () => {
  const root = mkdtempSync(join(tmpdir(), 'laptop-'));
  const synced = join(root, 'Dropbox', 'tests');
  mkdirSync(synced, { recursive: true });
  let stop: () => void = () => {};
  afterEach(() => {
    stop();
    vi.useRealTimers();
  });
  afterAll(() => rmSync(root, { recursive: true }));

  /** Looks as it does by itself, and lets the system answer. */
  async function look(dock: Dock): Promise<Error[]> {
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'setInterval', 'clearInterval'] });
    const warnings: Error[] = [];
    const watch = watchLaptop(dock, {
      machine: MACHINE_CLOCK,
      linkLostAfterS: 5,
      warn: (error) => warnings.push(error),
    });
    stop = () => watch.stop();
    vi.advanceTimersByTime(3000);
    vi.useRealTimers();
    await new Promise((resolve) => setTimeout(resolve, 300));
    return warnings;
  }

  it('warns of a record in a synced folder soon after the start', async () => {
    const { dock, written } = dockIn(synced);
    expect(await look(dock)).toEqual([]);
    expect(written).toContainEqual(
      expect.objectContaining({ matter: 'folder', severity: 'notice', station: null }),
    );
  });

  it('holds the wall clock against the last line of a real record, not of a simulated day', async () => {
    const openedAtWallMs = MACHINE_CLOCK.wallMs() + 3_600_000;
    const clockOf = (written: readonly LaptopState[]) =>
      written.filter(({ matter }) => matter === 'clock');
    const real = dockIn(root, { openedAtWallMs });
    await look(real.dock);
    stop();
    expect(clockOf(real.written)).toHaveLength(1);
    expect(clockOf(real.written)[0]?.found).toContain("before the record's last line");
    const paced = dockIn(root, { openedAtWallMs, paced: true });
    await look(paced.dock);
    expect(clockOf(paced.written)).toEqual([]);
  });

  it('looks no more once it is stopped', () => {
    vi.useFakeTimers();
    const { dock } = dockIn(synced);
    const watch = watchLaptop(dock, {
      machine: MACHINE_CLOCK,
      linkLostAfterS: 5,
      warn: (error) => {
        throw error;
      },
    });
    expect(vi.getTimerCount()).toBe(3);
    watch.stop();
    expect(vi.getTimerCount()).toBe(0);
  });
});
