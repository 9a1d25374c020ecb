import { spawnSync } from 'node:child_process';
import { mkdirSync, rmSync, statfsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { LinkWitness } from '#tests/support/link-witness.ts';
import { type Program, pause, until } from '#tests/support/programs.ts';
import { RealDay } from '#tests/support/real-day.ts';
import { holesOf, itemsOf, streamsOf } from '#tests/support/record-items.ts';

const SEED = 31;
const WITHIN_MS = 120_000;
const NOT_MOUNTED = 'no small disk can be mounted here (it takes root and Linux)';

/** A disk of a few hundred kilobytes, and something that fills it. */
class SmallDisk {
  readonly folder: string;
  readonly mounted: boolean;

  constructor(folder: string, kilobytes: number) {
    this.folder = folder;
    mkdirSync(folder);
    const mount = ['-t', 'tmpfs', '-o', `size=${kilobytes}k,mode=700`, 'tmpfs', folder];
    this.mounted = process.platform === 'linux' && spawnSync('mount', mount).status === 0;
  }

  get freeBytes(): number {
    const { bavail, bsize } = statfsSync(this.folder);
    return bavail * bsize;
  }

  /** Takes all room but so much; nothing is left when 0. */
  fill(leaveBytes: number): void {
    const bytes = this.freeBytes - leaveBytes;
    if (bytes > 0) writeFileSync(join(this.folder, 'ballast'), Buffer.alloc(bytes));
  }

  free(): void {
    rmSync(join(this.folder, 'ballast'));
  }

  unmount(): void {
    if (this.mounted) spawnSync('umount', ['-l', this.folder]);
  }
}

/** The real programs, a small disk in their folder, and a witness of what is promised. */
class DiskDay {
  readonly day: RealDay;
  readonly disk: SmallDisk;
  readonly witness: LinkWitness;

  private constructor(day: RealDay, disk: SmallDisk, witness: LinkWitness) {
    this.day = day;
    this.disk = disk;
    this.witness = witness;
  }

  /** Runs a test where a small disk can be mounted; says so and skips it elsewhere. */
  static async run(
    skip: (reason: string) => void,
    live: (day: DiskDay) => Promise<void>,
  ): Promise<void> {
    const day = await RealDay.begin();
    const disk = new SmallDisk(join(day.folder, 'small'), 2048);
    const witness = await LinkWitness.listen(`ws://127.0.0.1:${day.port}/device`);
    try {
      if (disk.mounted) await live(new DiskDay(day, disk, witness));
    } finally {
      witness.close();
      // What runs on the disk goes first.
      await day.killAll();
      disk.unmount();
      await day.end();
    }
    if (disk.mounted) return;
    console.log(NOT_MOUNTED);
    skip(NOT_MOUNTED);
  }

  device(data: string, ...more: readonly string[]): Program {
    return this.day.start('device', [
      ...['log', '--emulated', '--seed', `${SEED}`, '--data', data],
      ...['--receiver', this.witness.url, ...more],
    ]);
  }

  get notRecording(): boolean {
    return (this.day.screen.live?.notRecording ?? null) !== null;
  }

  /** Does the screen say that the disk of a board side is full? */
  get stationNotice(): boolean {
    return (this.day.screen.state?.laptop ?? []).some(
      ({ state }) => state.matter === 'disk' && state.station !== null,
    );
  }

  get stationTold(): string[] {
    return this.day
      .told('disk')
      .flatMap(({ station, severity }) => (station === null ? [] : [severity]));
  }

  /** Nothing is acknowledged that the record's file does not hold, byte for byte. */
  promisesHold(): void {
    const items = itemsOf(this.day.record);
    for (const [stream, number] of this.witness.acknowledged)
      for (let each = 0; each <= number; each += 1)
        expect(items.get(`${stream} ${each}`)).toBe(this.witness.sent.get(`${stream} ${each}`));
  }

  /** Goes on, tells of the loss, and ends as wanted. */
  async endsWithALoss(dockside: Program, station: Program): Promise<void> {
    const { day } = this;
    await day.flows('after it was freed');
    await until('the loss is told to screens', () =>
      (day.screen.state?.faults ?? []).some(({ code }) => code === 'spool-full'),
    );
    expect(await station.stop()).toBe(0);
    expect(await dockside.stop()).toBe(0);
    this.promisesHold();
    expect(this.stationTold).toEqual(['notice', 'well']);
    expect(lossCounted(day.record)).toBeGreaterThan(0);
  }
}

describe.concurrent('a full disk', () => {
  it(
    'under the record: nothing is promised, it is told, and all is written when there is room',
    {
      timeout: WITHIN_MS,
    },
    (context) =>
      DiskDay.run(context.skip, async (small) => {
        const { day, disk } = small;
        day.record = join(disk.folder, 'day.hwr');
        let dockside = await day.receiver('--paced');
        const station = small.device(join(day.folder, 'station'));
        await day.twoStreams();

        disk.fill(12 * 1024);
        await until('the screen is told', () => small.notRecording);
        expect(day.screen.live?.joined.readable).toBe(false);
        const saved = day.screen.live?.saved.line;
        await pause(2000);
        small.promisesHold();
        expect(day.screen.live?.saved.line).toBe(saved);
        // A receiver that dies and starts again on the full disk neither falls over nor loses a line.
        await dockside.kill();
        small.promisesHold();
        dockside = await day.receiver('--paced');
        await until('it is told again', () => small.notRecording);
        await pause(1500);

        disk.free();
        await until('it is written again', () => !small.notRecording);
        await until('the record tells of it', () => {
          const found = day.told('disk').map((state) => state.found);
          return (
            found.some((text) => /can be written/.test(text)) && /again/.test(found.at(-1) ?? '')
          );
        });
        await day.flows('after it was freed');
        expect(await station.stop()).toBe(0);
        expect(await dockside.stop()).toBe(0);
        small.promisesHold();
        for (const stream of streamsOf(day.record)) {
          expect(holesOf(stream)).toEqual([]);
          expect(stream.sequences[0]).toBe(0);
          expect(stream.items.at(-1)).toMatchObject({ type: 'stream-closed', reason: 'wanted' });
        }
      }),
  );

  it(
    'under the spool: what is kept is kept, what is lost is counted, and it goes on when there is room',
    {
      timeout: WITHIN_MS,
    },
    (context) =>
      DiskDay.run(context.skip, async (small) => {
        const { day, disk } = small;
        let dockside = await day.receiver('--paced');
        const station = small.device(disk.folder);
        await day.twoStreams();

        // What is acknowledged makes room, so a disk that others have filled stops nothing yet.
        disk.fill(0);
        await day.flows('on the full disk');
        await dockside.kill();
        await station.says(/spool-disk/);
        await pause(2000);
        dockside = await day.receiver('--paced');
        await until('the screen is told', () => small.stationNotice);
        disk.free();
        await until('the screen is told of the room', () => !small.stationNotice);
        await small.endsWithALoss(dockside, station);
      }),
  );

  it(
    'over the limit of the spool the oldest are kept and the loss is counted',
    {
      timeout: WITHIN_MS,
    },
    (context) =>
      DiskDay.run(context.skip, async (small) => {
        const { day, disk } = small;
        let dockside = await day.receiver('--paced');
        const fast = ['--room', '0.5', '--rate', '200', '--pace', '5'];
        const station = small.device(disk.folder, ...fast);
        await day.twoStreams();
        await dockside.kill();
        await station.says(/spool-full/, WITHIN_MS);
        await pause(1000);
        dockside = await day.receiver('--paced');
        await until('the screen is told', () => small.stationNotice);
        await until('the screen is told of the room', () => !small.stationNotice);
        await small.endsWithALoss(dockside, station);
      }),
  );
});

/** Of every stream: the scans missing among its samples are just those it says were lost. */
function lossCounted(record: string): number {
  let lost = 0;
  const streams = streamsOf(record);
  expect(streams).toHaveLength(2);
  for (const stream of streams) {
    const missing = stream.sequences.at(-1)! + 1 - stream.sequences.length;
    const told = stream.items.flatMap((item) =>
      item.type === 'stream-fault' && item.code === 'spool-full'
        ? [Number.parseInt(item.found, 10)]
        : [],
    );
    expect(told.reduce((sum, samples) => sum + samples, 0)).toBe(missing);
    lost += missing;
    expect(new Set(stream.sequences).size).toBe(stream.sequences.length);
  }
  return lost;
}
