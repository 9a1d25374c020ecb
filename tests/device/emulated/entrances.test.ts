import { describe, expect, it } from 'vitest';
import { BOARD_CHANNELS } from '#core/sample/layout.ts';
import type { SampleBlock } from '#core/sample/stream-item.ts';
import type { Bus } from '#device/bus/bus.ts';
import {
  clearMessage,
  readScanReply,
  type ScanFrame,
  startMessage,
  stepMessage,
} from '#device/bus/scan-message.ts';
import { driverOf } from '#device/drivers/all.ts';
import type { EmulatedBoard } from '#device/emulated/emulated-board.ts';
import { firmwareImage } from '#device/emulated/firmware-image.ts';
import { marramTest } from '#device/emulated/marram.ts';
import { outfitBoard } from '#device/emulated/outfit.ts';
import {
  boardClockErrorPpm,
  createSampleEntrance,
  type EntranceBoard,
  SCAN_PERIOD_US,
} from '#device/emulated/sample-entrance.ts';
import { ALL_QUIET, createSimulatedWorld } from '#device/emulated/simulated-world.ts';
import { ScanPlan } from '#device/scan-plan.ts';

/**
 * Both entrances of the simulator on one seed: the firmware on the emulated board reading emulated
 * chips by their registers, and the sample entrance. What remains different is a tenth of a
 * microsecond in the instants of reading.
 */
const SEED = 20;
const SECONDS = 40;
/** The firmware starts its microseconds this long after the reset. */
const CLOCK_BEGINS_US = 407.1;
/** Seconds after which both filters have forgotten when they were configured. */
const FORGOTTEN_S = 3;
const CHIPS = {
  fore: [{ part: 'iis2iclx', address: 0x6a }],
  aft: [
    { part: 'iis2iclx', address: 0x6a },
    { part: 'ads1115', address: 0x48 },
  ],
} as const;

function commandedWorld() {
  const world = createSimulatedWorld({ seed: SEED });
  const weights = marramTest().weights.map(({ weight, at }) => ({ weight, ...at }));
  const moved = weights.map((one) => (one.weight === 'A' ? { ...one, yM: 2.1 } : one));
  const disturbances = { ...ALL_QUIET, wind: true, wakes: true };
  world.command(0, { state: 0, weights, disturbances });
  world.command(5, { state: 1, weights: moved, disturbances });
  return world;
}

/** The chips' wires by hand: the drivers set the chips up over it before the firmware scans. */
function wiresOf(board: EmulatedBoard): Bus {
  const { bus } = board;
  return {
    async read(address, register, count) {
      bus.start();
      bus.address(address, true);
      bus.write(register);
      bus.start();
      bus.address(address, false);
      const bytes = Uint8Array.from({ length: count }, () => bus.read());
      bus.stop();
      return bytes;
    },
    async write(address, register, bytes) {
      bus.start();
      bus.address(address, true);
      for (const byte of [register, ...bytes]) bus.write(byte);
      bus.stop();
    },
  };
}

function framesOf(bytes: Iterable<number>): ScanFrame[] {
  const frames: ScanFrame[] = [];
  let message: number[] | null = null;
  for (const byte of bytes) {
    if (byte === 0xf0) {
      message = [];
    } else if (byte === 0xf7 && message !== null) {
      const reply = message[0] === 0x0a ? readScanReply(message.slice(1), 'test') : null;
      if (reply?.kind === 'frame') frames.push(reply.frame);
      message = null;
    } else {
      message?.push(byte);
    }
  }
  return frames;
}

/** Counts by channel of each scan the firmware made in `SECONDS`, and the board's time of the first. */
async function throughChips(name: EntranceBoard) {
  const board = outfitBoard(name, {
    world: commandedWorld(),
    seed: SEED,
    clockErrorPpm: boardClockErrorPpm(SEED, name),
    hex: firmwareImage(),
  });
  board.runTo(0.2);
  const bus = wiresOf(board);
  const waitS = async (seconds: number) => board.runTo(board.reachedS + seconds);
  const chips = CHIPS[name].map(({ part, address }) => ({ driver: driverOf(part)!, address }));
  for (const { driver, address } of chips) {
    await driver.configure({ bus, address, where: name, waitS }, SCAN_PERIOD_US);
  }
  const plan = new ScanPlan(
    chips.map(({ driver, address }) => ({ address, steps: driver.steps(SCAN_PERIOD_US) })),
  );
  board.takeOutgoing();
  for (const message of [
    clearMessage(),
    ...plan.steps.map(stepMessage),
    startMessage(SCAN_PERIOD_US),
  ]) {
    board.receive(Uint8Array.from([0xf0, ...message, 0xf7]));
    board.runTo(board.reachedS + 0.02);
  }
  board.runTo(SECONDS);
  const frames = framesOf(board.takeOutgoing().flatMap(({ bytes }) => [...bytes]));
  const counts = frames.map((frame) => {
    const answers = plan.answers(frame)!;
    return chips.flatMap(({ driver }, k) => driver.counts(answers[k]!, frame.sequence));
  });
  return { firstScanUs: frames[0]!.boardUs, counts };
}

function throughSamples(name: EntranceBoard, firstScanUs: number) {
  const entrance = createSampleEntrance({
    seed: SEED,
    world: commandedWorld(),
    bootS: { [name]: CLOCK_BEGINS_US * 1e-6 },
    firstScanUs: { [name]: firstScanUs },
  });
  return entrance
    .advance(SECONDS)
    .filter(
      (item): item is SampleBlock => item.type === 'samples' && item.stream.includes(`/${name}/`),
    );
}

describe('both entrances of the simulator', () => {
  for (const name of ['fore', 'aft'] as const) {
    it(`agree to one count on the ${name} board, scan by scan`, async () => {
      const { firstScanUs, counts } = await throughChips(name);
      const blocks = throughSamples(name, firstScanUs);
      let compared = 0;
      let alike = 0;
      for (const block of blocks) {
        block.stepUs.forEach((_, k) => {
          const scan = counts[block.firstSequence + k];
          if (scan === undefined) return;
          BOARD_CHANNELS[name].forEach(({ instrument, quantity }, channel) => {
            const chip = scan[channel]!.count;
            const sample = block.columns[channel]![k]!;
            expect(sample === null).toBe(chip === null);
            const settled = (block.firstSequence + k) * SCAN_PERIOD_US > FORGOTTEN_S * 1e6;
            if (chip === null || sample === null || !settled) return;
            const apart = Math.abs(sample - chip);
            expect(
              apart,
              `${instrument} ${quantity} ${block.firstSequence + k}`,
            ).toBeLessThanOrEqual(1);
            compared += 1;
            if (apart === 0) alike += 1;
          });
        });
      }
      expect(compared).toBeGreaterThan((SECONDS - FORGOTTEN_S - 2) * 50 * 3);
      // Nearly all are the same count.
      expect(alike / compared).toBeGreaterThan(0.99);
    });

    it(`agree on what the first scans of the ${name} board lack`, async () => {
      const { firstScanUs, counts } = await throughChips(name);
      const [block] = throughSamples(name, firstScanUs);
      const faults = counts
        .slice(0, block!.stepUs.length)
        .flatMap((scan, k) =>
          scan.flatMap(({ fault }, channel) => (fault === null ? [] : [[k, channel, fault]])),
        );
      expect(block!.faults).toEqual(faults);
    });
  }
});
