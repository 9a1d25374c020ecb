import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { type Program, startProgram, until } from '#tests/support/programs.ts';
import { receiverStarted } from '#tests/support/receiver-access.ts';
import { ScreenClient } from '#tests/support/screen-client.ts';

const folder = mkdtempSync(join(tmpdir(), 'demo-'));
let demo: Program | null = null;
afterAll(async () => {
  await demo?.stop();
  rmSync(folder, { recursive: true });
});

describe('the demo', () => {
  it('prints its address last, shows a simulated vessel, and ends its children when it is killed', async () => {
    demo = startProgram('receiver', ['demo', '--port', '0', '--seed', '3', '--data', folder]);
    await demo.says(/\nhttp:\/\/127\.0\.0\.1:\d+\/#[\w-]{22}\n$/);
    const { port } = await receiverStarted(demo);
    const record = (await demo.says(/Record: (.*)\n/))[1] ?? '';
    const screen = await ScreenClient.connect(port);
    await until('the vessel is there', () => screen.live?.simulation?.connected === true);
    await until('samples are recorded', () =>
      (screen.state?.streams ?? []).some(({ samples }) => samples > 0),
    );
    expect(screen.state?.test?.mode).toBe('demo');
    await demo.kill();
    await until('the receiver is gone', () => screen.socket.readyState === screen.socket.CLOSED);
    // The receiver sees its parent gone, says so in the record, and ends: then the record rests.
    let length = -1;
    let restedS = 0;
    await until('the record rests', () => {
      const now = readFileSync(record).length;
      if (now !== length) restedS = performance.now() / 1000;
      length = now;
      return performance.now() / 1000 - restedS > 1.5;
    });
  }, 60_000);
});
