import { lstatSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { type Program, pause, startProgram, until } from '#tests/support/programs.ts';
import { receiverStarted } from '#tests/support/receiver-access.ts';
import { ScreenClient } from '#tests/support/screen-client.ts';

/** On Windows the folders of a user's home are that user's by inheritance; no modes can be looked at. */
const HAS_MODES = process.platform !== 'win32';

describe('files of the receiver and the board side', () => {
  const root = mkdtempSync(join(tmpdir(), 'owner-'));
  const running: Program[] = [];
  afterAll(async () => {
    for (const program of running) await program.stop();
    rmSync(root, { recursive: true });
  });

  it('are for their owner only, every one of them', async () => {
    const data = join(root, 'data');
    const before = process.umask(0o000);
    // With nothing masked, what is not asked for by the program itself is open to all.
    const demo = startProgram('receiver', [
      ...['demo', '--port', '0', '--seed', '3', '--pace', '20', '--data', data],
    ]);
    process.umask(before);
    running.push(demo);
    const { port } = await receiverStarted(demo);
    const screen = await ScreenClient.connect(port);
    await until('samples flow', () => (screen.live?.instruments.length ?? 0) > 0);
    await pause(1500);
    screen.close();
    const all = readdirSync(data, { recursive: true, encoding: 'utf8' });
    expect(all.length).toBeGreaterThan(2);
    const open = [data, ...all.map((name) => join(data, name))].filter((path) => {
      const entry = lstatSync(path, { throwIfNoEntry: false });
      return HAS_MODES && entry !== undefined && (entry.mode & 0o077) !== 0;
    });
    expect(open).toEqual([]);
  });
});
