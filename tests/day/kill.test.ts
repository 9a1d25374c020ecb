import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { LinkWitness } from '#tests/support/link-witness.ts';
import { freePort, type Program, pause, startProgram, until } from '#tests/support/programs.ts';
import { receiverStarted } from '#tests/support/receiver-access.ts';
import { itemsOf } from '#tests/support/record-items.ts';
import { ScreenClient } from '#tests/support/screen-client.ts';
import { randomFromSeed } from '#tests/support/seeded.ts';

/** Ten at each commit; the trial asks for more, with a seed of its own. */
const ROUNDS = Number(process.env['HEELWRIGHT_KILL_ROUNDS'] ?? '10');
const SEED = Number(process.env['HEELWRIGHT_FIRST_SEED'] ?? '11');
const ROUND_WITHIN_MS = 18_000;
describe('kill -9 of receiver and board side in mid-stream', () => {
  const folder = mkdtempSync(join(tmpdir(), 'kill-'));
  const record = join(folder, 'day.hwr');
  const running: Program[] = [];
  afterAll(async () => {
    for (const program of running) await program.kill();
    rmSync(folder, { recursive: true });
  });

  it(
    'loses no acknowledged item, doubles none, and the day goes on',
    async () => {
      const random = randomFromSeed(SEED);
      const port = await freePort();
      const witness = await LinkWitness.listen(`ws://127.0.0.1:${port}/device`);
      let pair: readonly string[] = [];
      const receiver = async () => {
        const program = startProgram('receiver', [
          ...['receive', '--paced', '--record', record, '--port', `${port}`, '--data', folder],
        ]);
        running.push(program);
        ({ pair } = await receiverStarted(program));
        return program;
      };
      const device = () => {
        const data = join(folder, 'station');
        const program = startProgram('device', [
          ...['log', '--emulated', '--seed', `${SEED}`, '--pace', '5', '--data', data, ...pair],
          ...['--receiver', witness.url],
        ]);
        running.push(program);
        return program;
      };
      const acknowledgedItems = () =>
        [...witness.acknowledged.values()].reduce((sum, number) => sum + number + 1, 0);
      const flows = async () => {
        const before = acknowledgedItems();
        await until('samples flow', () => acknowledgedItems() > before + 6);
      };

      let dockside = await receiver();
      let station = device();
      for (let round = 0; round < ROUNDS; round += 1) {
        await flows();
        await pause(random() * 400);
        if (round % 3 !== 1) await dockside.kill();
        if (round % 3 !== 0) await station.kill();
        // What is on disk now was promised at the latest now; nothing promised may be missing.
        const items = itemsOf(record);
        for (const [stream, number] of witness.acknowledged)
          for (let each = 0; each <= number; each += 1)
            expect(items.get(`${stream} ${each}`)).toBe(witness.sent.get(`${stream} ${each}`));
        if (round % 3 !== 1) dockside = await receiver();
        if (round % 3 !== 0) station = device();
      }

      await flows();
      const screen = await ScreenClient.connect(port);
      await until('a reading is offered', () => screen.live?.joined.readable === true, 60_000);
      expect(await screen.act({ kind: 'take-reading' })).toBeNull();
      expect(await screen.act({ kind: 'begin-shift' })).toBeNull();
      await until('the weights are down', () => screen.live?.simulation?.settledState === 1);
      expect(await screen.act({ kind: 'weight-landed' })).toBeNull();
      screen.close();

      await station.kill();
      expect(await dockside.stop()).toBe(0);
      witness.close();
      const items = itemsOf(record);
      for (const [stream, number] of witness.acknowledged)
        for (let each = 0; each <= number; each += 1)
          expect(items.get(`${stream} ${each}`)).toBe(witness.sent.get(`${stream} ${each}`));
      expect(witness.refused.filter(({ code }) => code !== 'stream-gap')).toEqual([]);
    },
    ROUNDS * ROUND_WITHIN_MS,
  );
});
