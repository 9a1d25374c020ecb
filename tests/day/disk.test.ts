import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, statfsSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { LinkWitness } from '#tests/support/link-witness.ts';
import { freePort, type Program, pause, startProgram, until } from '#tests/support/programs.ts';
import { holesOf, itemsOf, linesOf, streamsOf } from '#tests/support/record-items.ts';
import { ScreenClient } from '#tests/support/screen-client.ts';

const SEED = 31;
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

describe('a full disk', () => {
  let folder: string;
  let disk: SmallDisk;
  const running: Program[] = [];
  const ports = { receiver: 0 };
  let witness: LinkWitness;
  let screen: ScreenClient;

  beforeEach(async (context) => {
    folder = mkdtempSync(join(tmpdir(), 'disk-'));
    disk = new SmallDisk(join(folder, 'small'), 2048);
    if (!disk.mounted) {
      console.log(NOT_MOUNTED);
      context.skip(NOT_MOUNTED);
    }
    ports.receiver = await freePort();
    witness = await LinkWitness.listen(`ws://127.0.0.1:${ports.receiver}/device`);
  });
  afterEach(async () => {
    screen?.close();
    witness?.close();
    for (const program of running.splice(0)) await program.kill();
    disk.unmount();
    rmSync(folder, { recursive: true });
  });

  async function receiver(record: string): Promise<Program> {
    const program = startProgram('receiver', [
      ...['receive', '--paced', '--record', record, '--port', `${ports.receiver}`],
    ]);
    running.push(program);
    await program.says(/http:\/\/127/);
    screen = await ScreenClient.connect(ports.receiver);
    return program;
  }

  function device(data: string, more: readonly string[] = []): Program {
    const program = startProgram('device', [
      ...['log', '--emulated', '--seed', `${SEED}`, '--data', data, '--receiver', witness.url],
      ...more,
    ]);
    running.push(program);
    return program;
  }

  const diskNotices = (record: string) =>
    linesOf(record).flatMap(({ line }) =>
      line.kind === 'laptop-state' && line.body.matter === 'disk' ? [line.body] : [],
    );
  const savedLine = () => screen.live?.saved.line ?? 0;
  const flows = async (when: string) => {
    const before = savedLine();
    await until(`lines are saved ${when}`, () => savedLine() > before + 5);
  };
  /** Nothing is acknowledged that the record's file does not hold. */
  const promisesHold = (record: string) => {
    const items = itemsOf(record);
    for (const [stream, number] of witness.acknowledged)
      for (let each = 0; each <= number; each += 1)
        expect(items.get(`${stream} ${each}`)).toBe(witness.sent.get(`${stream} ${each}`));
  };

  it('under the record: nothing is promised, it is told, and all is written when there is room', {
    timeout: 120_000,
  }, async () => {
    const record = join(disk.folder, 'day.hwr');
    let dockside = await receiver(record);
    const station = device(join(folder, 'station'));
    await until('two streams', () => (screen.state?.streams ?? []).length === 2);
    await flows('at first');

    disk.fill(12 * 1024);
    await until('the screen is told', () => (screen.live?.notRecording ?? null) !== null);
    expect(screen.live?.joined.readable).toBe(false);
    const saved = savedLine();
    await pause(2000);
    // The very bytes that found room are what was promised; a group on its way may be one more.
    promisesHold(record);
    expect(savedLine()).toBe(saved);
    // A receiver that dies and starts again on the full disk neither falls over nor loses a line.
    await dockside.kill();
    promisesHold(record);
    dockside = await receiver(record);
    await until('it is told again', () => (screen.live?.notRecording ?? null) !== null);
    await pause(1500);

    disk.free();
    await until('it is written again', () => screen.live?.notRecording === null);
    await flows('after it was freed');
    await until('the record tells of it', () => {
      const found = diskNotices(record).map((state) => state.found);
      return found.some((text) => /can be written/.test(text)) && /again/.test(found.at(-1) ?? '');
    });
    expect(await station.stop()).toBe(0);
    expect(await dockside.stop()).toBe(0);
    promisesHold(record);
    for (const stream of streamsOf(record)) {
      expect(holesOf(stream)).toEqual([]);
      expect(stream.sequences[0]).toBe(0);
      expect(stream.items.at(-1)).toMatchObject({ type: 'stream-closed', reason: 'wanted' });
    }
  });

  it('under the spool: what is kept is kept, what is lost is counted, and it goes on when there is room', {
    timeout: 120_000,
  }, async () => {
    const record = join(folder, 'day.hwr');
    let dockside = await receiver(record);
    const station = device(disk.folder);
    await until('two streams', () => (screen.state?.streams ?? []).length === 2);
    await flows('at first');

    // What is acknowledged makes room, so a disk that others have filled stops nothing yet.
    disk.fill(0);
    await flows('on the full disk');
    await dockside.kill();
    await station.says(/spool-disk/);
    await pause(2000);
    dockside = await receiver(record);
    await until('the screen is told', stationNotice);
    disk.free();
    await until('the screen is told of the room', () => !stationNotice());
    await comesToAnEnd(dockside, station);
    expect(stationNotices(record)).toEqual(['notice', 'well']);
    expect(lossCounted(record)).toBeGreaterThan(0);
  });

  it('over the limit of the spool the oldest are kept and the loss is counted', {
    timeout: 120_000,
  }, async () => {
    const record = join(folder, 'day.hwr');
    let dockside = await receiver(record);
    const station = device(disk.folder, ['--room', '0.5', '--rate', '200', '--pace', '2']);
    await until('two streams', () => (screen.state?.streams ?? []).length === 2);
    await flows('at first');
    await dockside.kill();
    await station.says(/spool-full/, 40_000);
    await pause(1000);
    dockside = await receiver(record);
    await until('the screen is told', stationNotice);
    await until('the screen is told of the room', () => !stationNotice());
    await comesToAnEnd(dockside, station);
    expect(stationNotices(record)).toEqual(['notice', 'well']);
    expect(lossCounted(record)).toBeGreaterThan(0);
  });

  const stationNotice = () =>
    (screen.state?.laptop ?? []).some(
      ({ state }) => state.matter === 'disk' && state.station !== null,
    );
  const stationNotices = (record: string) =>
    diskNotices(record).flatMap(({ station, severity }) => (station === null ? [] : [severity]));
  const comesToAnEnd = async (dockside: Program, station: Program) => {
    await flows('after it was freed');
    await until('the loss is told to screens', () =>
      (screen.state?.faults ?? []).some(({ code }) => code === 'spool-full'),
    );
    expect(await station.stop()).toBe(0);
    expect(await dockside.stop()).toBe(0);
  };
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
