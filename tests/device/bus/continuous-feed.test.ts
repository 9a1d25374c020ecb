import { describe, expect, it } from 'vitest';
import { ContinuousFeed } from '#device/bus/continuous-feed.ts';
import type { ScanFrame } from '#device/bus/scan-message.ts';
import { ads1115 } from '#device/drivers/ads1115.ts';
import { iis2iclx } from '#device/drivers/iis2iclx.ts';
import { ScanPlan } from '#device/scan-plan.ts';
import { FakeFirmata } from '../support/fake-firmata.ts';

const plan = new ScanPlan(
  [iis2iclx, ads1115].map((driver) => ({
    address: driver.addresses[0]!,
    steps: driver.steps(25_000),
  })),
);

async function started() {
  const board = new FakeFirmata();
  const frames: ScanFrame[] = [];
  let nowS = 100;
  const feed = new ContinuousFeed(
    board.io,
    { monotonicS: () => nowS, wallMs: () => 0 },
    { frame: (frame) => frames.push(frame) },
  );
  await feed.start(plan, 50_000);
  const round = (axes: number[] | null) => {
    nowS += 0.05;
    if (axes !== null) board.answer(0x6a, 0x28, axes);
    board.answer(0x6a, 0x20, [5, 6]);
    board.answer(0x48, 0, [7, 8]);
  };
  return { board, frames, feed, round };
}

describe('continuous reads of a board that is not ours', () => {
  it('asks for every register once, at the interval', async () => {
    const { board } = await started();
    expect(board.asked.filter((asked) => Array.isArray(asked) && asked[0] !== 'config')).toEqual([
      ['interval', 50],
      ['continuous', 0x6a, 0x28, 4],
      ['continuous', 0x6a, 0x20, 2],
      ['continuous', 0x48, 0, 2],
    ]);
  });

  it('makes one frame of a round, stamped by the host, and switches the input after it', async () => {
    const { board, frames, round } = await started();
    round([1, 2, 3, 4]);
    expect(board.asked.at(-1)).toEqual(['write', 0x48, 1, 0xc3, 0x63]);
    round([1, 2, 3, 4]);
    expect(board.asked.at(-1)).toEqual(['write', 0x48, 1, 0xd3, 0x63]);
    expect(frames.map(({ sequence, boardUs }) => [sequence, boardUs])).toEqual([
      [0, 50_000],
      [1, 100_000],
    ]);
    // The first round's conversion was started by nobody.
    expect(frames[0]!.failedSteps).toBe(0b100);
    expect(frames[1]!.failedSteps).toBe(0);
    expect([...frames[1]!.bytes]).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
  });

  it('gives a round without one of its replies as it is, with that step failed', async () => {
    const { frames, round } = await started();
    round([1, 2, 3, 4]);
    round(null);
    round([1, 2, 3, 4]);
    round([1, 2, 3, 4]);
    expect(frames[1]!.failedSteps).toBe(0b001);
    expect(frames.at(-1)!.failedSteps).toBe(0);
    expect(frames.every(({ bytes }) => bytes.length === 8)).toBe(true);
  });

  it('calls a short reply failed', async () => {
    const { frames, round } = await started();
    round([1, 2, 3, 4]);
    round([1, 2]);
    expect(frames[1]!.failedSteps).toBe(0b001);
  });

  it('stops every chip it reads', async () => {
    const { board, feed } = await started();
    await feed.stop();
    expect(board.asked.slice(-2)).toEqual([
      ['stop', 0x6a],
      ['stop', 0x48],
    ]);
  });
});
