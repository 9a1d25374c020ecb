import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { freePort, pause, startProgram } from '#tests/support/programs.ts';
import { receiverStarted } from '#tests/support/receiver-access.ts';
import { ScreenClient } from '#tests/support/screen-client.ts';

const MEASURED_MS = 10_000;
const SETTLE_MS = 6000;

/** Real programs on emulated boards at pace 1: what arrives on disk, and what it costs. */
export interface ChainFigures {
  readonly scanHz: number;
  /** Samples of all channels that reached the record, a wall second. */
  readonly samplesPerSecond: number;
  /** Scans the boards had to leave out. */
  readonly skipped: number;
  /** Share of one core; null where this system does not tell. */
  readonly boardSideCores: number | null;
  readonly receiverCores: number | null;
  /** From a smoothed sample's own time to its arrival at a screen, ms of the newest sample. */
  readonly toScreenMs: readonly number[];
}

export async function measureChain(scanHz: number): Promise<ChainFigures> {
  const folder = mkdtempSync(join(tmpdir(), 'bench-'));
  const port = await freePort();
  const record = join(folder, 'bench.hwr');
  const receiver = startProgram('receiver', [
    'receive',
    '--paced',
    '--data',
    folder,
    '--record',
    record,
    '--port',
    `${port}`,
  ]);
  const { pair } = await receiverStarted(receiver);
  const boardSide = startProgram('device', [
    ...['log', '--emulated', '--seed', '3', '--pace', '1', '--rate', `${scanHz}`, ...pair],
    ...['--data', join(folder, 'station'), '--receiver', `ws://127.0.0.1:${port}/device`],
  ]);
  const screen = await ScreenClient.connect(port);
  try {
    await pause(SETTLE_MS);
    const before = countsOf(record);
    const cpuBefore = [cpuSeconds(boardSide.child.pid), cpuSeconds(receiver.child.pid)] as const;
    const toScreenMs: number[] = [];
    const endMs = Date.now() + MEASURED_MS;
    for (let seen = screen.liveCount; Date.now() < endMs; await pause(2)) {
      const live = screen.live;
      if (live === null || screen.liveCount === seen) continue;
      seen = screen.liveCount;
      const newestS = Math.max(
        ...live.instruments.map(({ trace }) => trace.atS.at(-1) ?? Number.NEGATIVE_INFINITY),
      );
      if (Number.isFinite(newestS)) toScreenMs.push((live.receiverS - newestS) * 1000);
    }
    await pause(600);
    const after = countsOf(record);
    const seconds = (MEASURED_MS + 600) / 1000;
    const share = (now: number | null, then: number | null): number | null =>
      now === null || then === null ? null : (now - then) / seconds;
    return {
      scanHz,
      samplesPerSecond: (after.samples - before.samples) / seconds,
      skipped: after.skipped - before.skipped,
      boardSideCores: share(cpuSeconds(boardSide.child.pid), cpuBefore[0]),
      receiverCores: share(cpuSeconds(receiver.child.pid), cpuBefore[1]),
      toScreenMs,
    };
  } finally {
    screen.close();
    await boardSide.kill();
    await receiver.kill();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Counted from the record itself: what is on disk is what came through. */
function countsOf(record: string): { samples: number; skipped: number } {
  let samples = 0;
  let skipped = 0;
  for (const text of readFileSync(record, 'utf8').split('\n')) {
    if (!text.includes('"kind":"samples"')) continue;
    const { body } = JSON.parse(text) as {
      body: { columns: (number | null)[][]; skipped: number };
    };
    samples += body.columns.flat().filter((count) => count !== null).length;
    skipped += body.skipped;
  }
  return { samples, skipped };
}

/** User and system time of a process and its threads; Linux only. */
function cpuSeconds(pid: number | undefined): number | null {
  if (process.platform !== 'linux' || pid === undefined) return null;
  const fields = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')[1]!.split(' ');
  const TICKS_PER_SECOND = 100;
  return (Number(fields[11]) + Number(fields[12])) / TICKS_PER_SECOND;
}
