import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { BadNetwork } from '#tests/support/bad-network.ts';
import { pause, until } from '#tests/support/programs.ts';
import { RealDay } from '#tests/support/real-day.ts';
import { holesOf, streamsOf } from '#tests/support/record-items.ts';
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

/** At a commit all of them, in two days side by side; else as many as asked for, in any order. */
function days(): readonly (readonly Mishap[])[] {
  if (ROUNDS === 0)
    return [MISHAPS.filter((_, k) => k % 2 === 0), MISHAPS.filter((_, k) => k % 2 === 1)];
  const random = randomFromSeed(SEED);
  return [Array.from({ length: ROUNDS }, () => MISHAPS[Math.floor(random() * MISHAPS.length)]!)];
}

describe.concurrent('a bad network between board side and receiver', () => {
  it.each(days().map((mishaps) => ({ mishaps })))(
    'loses and doubles nothing, is told to screens and record, and is taken up again by itself: day %#',
    async ({ mishaps }) => {
      const day = await RealDay.begin();
      const network = await BadNetwork.listen(day.port);
      try {
        await liveThrough(day, network, mishaps);
      } finally {
        network.close();
        await day.end();
      }
    },
    60_000 + (ROUNDS + MISHAPS.length) * ROUND_WITHIN_MS,
  );
});

async function liveThrough(
  day: RealDay,
  network: BadNetwork,
  mishaps: readonly Mishap[],
): Promise<void> {
  const silence = ['--silent-after', `${SILENT_AFTER_S}`];
  const receiver = await day.receiver('--paced', ...silence);
  const device = day.start('device', [
    ...['log', '--emulated', '--seed', `${SEED}`, '--data', join(day.folder, 'station')],
    ...['--receiver', network.url, ...silence],
  ]);
  const connected = () => day.screen.live?.stations[0]?.connected;
  const noticed = () =>
    (day.screen.state?.laptop ?? []).some(({ state }) => state.matter === 'link');
  await day.twoStreams();
  for (const { name, lost, begin } of mishaps) {
    begin(network);
    if (lost) {
      await until(`${name}: the screen is told`, () => connected() === false, ROUND_WITHIN_MS);
      await until(`${name}: the record is told`, noticed, ROUND_WITHIN_MS);
    } else await pause(SLOW_MS);
    network.mend();
    await until(`${name}: connected again`, () => connected() === true, ROUND_WITHIN_MS);
    await until(`${name}: the record says so`, () => !noticed(), ROUND_WITHIN_MS);
    await day.flows(`after: ${name}`);
  }
  expect(await device.stop()).toBe(0);
  expect(await receiver.stop()).toBe(0);

  // The boards ran through it all, so each has one stream, whole from its first scan to its last.
  const streams = streamsOf(day.record);
  expect(streams).toHaveLength(2);
  for (const stream of streams) {
    expect(holesOf(stream)).toEqual([]);
    expect(stream.sequences[0]).toBe(0);
    expect(stream.items.at(-1)).toMatchObject({ type: 'stream-closed', reason: 'wanted' });
    expect(stream.items.filter(({ type }) => type === 'stream-fault')).toEqual([]);
  }
  const told = day.told('link').map(({ severity }) => severity);
  const losses = mishaps.filter(({ lost }) => lost).length;
  for (const severity of ['notice', 'well'])
    expect(told.filter((one) => one === severity).length).toBeGreaterThanOrEqual(losses);
}
