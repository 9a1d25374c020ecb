import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { BadNetwork } from '#tests/support/bad-network.ts';
import { freePort, type Program, pause, startProgram, until } from '#tests/support/programs.ts';
import { receiverStarted } from '#tests/support/receiver-access.ts';
import { holesOf, linesOf, streamsOf } from '#tests/support/record-items.ts';
import { ScreenClient } from '#tests/support/screen-client.ts';
import { randomFromSeed } from '#tests/support/seeded.ts';

/** Each mishap once at a commit; the trial asks for more of them in any order, with a seed of its own. */
const ROUNDS = Number(process.env['HEELWRIGHT_LINK_ROUNDS'] ?? '0');
const SEED = Number(process.env['HEELWRIGHT_FIRST_SEED'] ?? '23');
/** As short as both programs allow, so that the test need not wait for a minute each time. */
const SILENT_AFTER_S = 2;
/** The heartbeat, the welcome, the longest wait between two tries, and a busy machine. */
const ROUND_WITHIN_MS = 40_000;
const SLOW_MS = 3000;

interface Mishap {
  readonly name: string;
  begin(proxy: BadNetwork): void;
  /** Does the receiver lose sight of the station? A slow link is still a link. */
  readonly lost: boolean;
}

const MISHAPS: readonly Mishap[] = [
  {
    name: 'cut politely',
    lost: true,
    begin: (proxy) => {
      proxy.refuses = true;
      proxy.cut('fin');
    },
  },
  {
    name: 'torn off',
    lost: true,
    begin: (proxy) => {
      proxy.refuses = true;
      proxy.cut('rst');
    },
  },
  {
    name: 'half open, only the device told',
    lost: true,
    begin: (proxy) => {
      proxy.refuses = true;
      proxy.closeOnly('device');
    },
  },
  {
    name: 'half open, only the receiver told',
    lost: true,
    begin: (proxy) => proxy.closeOnly('receiver'),
  },
  {
    name: 'slow',
    lost: false,
    begin: (proxy) => {
      proxy.passage.toReceiver = { bytesPerS: 2000 };
      proxy.passage.toDevice = { bytesPerS: 2000 };
    },
  },
  {
    name: 'nothing arrives at the receiver',
    lost: true,
    begin: (proxy) => {
      proxy.passage.toReceiver = 'held';
    },
  },
  {
    name: 'nothing arrives at the device',
    lost: true,
    begin: (proxy) => {
      proxy.passage.toDevice = 'held';
    },
  },
  {
    name: 'nothing arrives anywhere',
    lost: true,
    begin: (proxy) => {
      proxy.passage.toReceiver = 'held';
      proxy.passage.toDevice = 'held';
    },
  },
];

function mishaps(): readonly Mishap[] {
  if (ROUNDS === 0) return MISHAPS;
  const random = randomFromSeed(SEED);
  return Array.from({ length: ROUNDS }, () => MISHAPS[Math.floor(random() * MISHAPS.length)]!);
}

describe('a bad network between board side and receiver', () => {
  const folder = mkdtempSync(join(tmpdir(), 'link-'));
  const record = join(folder, 'day.hwr');
  const running: Program[] = [];
  afterAll(async () => {
    for (const program of running) await program.kill();
    rmSync(folder, { recursive: true });
  });

  it(
    'loses and doubles nothing, is told to screens and record, and is taken up again by itself',
    async () => {
      const port = await freePort();
      const proxy = await BadNetwork.listen(port);
      const silence = ['--silent-after', `${SILENT_AFTER_S}`];
      const receiver = startProgram('receiver', [
        ...['receive', '--paced', '--record', record, '--port', `${port}`, '--data', folder],
        ...silence,
      ]);
      running.push(receiver);
      const { pair } = await receiverStarted(receiver);
      const device = startProgram('device', [
        ...['log', '--emulated', '--seed', `${SEED}`, '--data', join(folder, 'station')],
        ...['--receiver', proxy.url, ...pair, ...silence],
      ]);
      running.push(device);
      const screen = await ScreenClient.connect(port);
      const connected = () => screen.live?.stations[0]?.connected;
      const linkNotice = () =>
        (screen.state?.laptop ?? []).some(({ state }) => state.matter === 'link');
      const flows = async (when: string) => {
        const before = screen.live?.saved.line ?? 0;
        const saved = () => screen.live?.saved.line ?? 0;
        await until(`lines are saved ${when}`, () => saved() > before + 3, ROUND_WITHIN_MS);
      };

      await until('a stream is open', () => (screen.state?.streams ?? []).length === 2);
      await flows('at first');
      const round = mishaps();
      for (const { name, lost, begin } of round) {
        begin(proxy);
        if (lost) {
          await until(`${name}: the screen is told`, () => connected() === false);
          await until(`${name}: the record is told`, linkNotice);
        } else await pause(SLOW_MS);
        proxy.mend();
        await until(`${name}: connected again`, () => connected() === true);
        await until(`${name}: the record says so`, () => !linkNotice());
        await flows(`after: ${name}`);
      }
      screen.close();
      expect(await device.stop()).toBe(0);
      expect(await receiver.stop()).toBe(0);
      proxy.close();

      // The boards ran through it all, so each has one stream, whole from its first scan to its last.
      const streams = streamsOf(record);
      expect(streams).toHaveLength(2);
      for (const stream of streams) {
        expect(holesOf(stream)).toEqual([]);
        expect(stream.sequences[0]).toBe(0);
        expect(stream.items.at(-1)).toMatchObject({ type: 'stream-closed', reason: 'wanted' });
        expect(stream.items.filter(({ type }) => type === 'stream-fault')).toEqual([]);
      }
      const told = linesOf(record).flatMap(({ line }) =>
        line.kind === 'laptop-state' && line.body.matter === 'link' ? [line.body.severity] : [],
      );
      const losses = round.filter(({ lost }) => lost).length;
      expect(told.filter((severity) => severity === 'notice').length).toBeGreaterThanOrEqual(
        losses,
      );
      expect(told.filter((severity) => severity === 'well').length).toBeGreaterThanOrEqual(losses);
    },
    60_000 + (ROUNDS + MISHAPS.length) * ROUND_WITHIN_MS,
  );
});
