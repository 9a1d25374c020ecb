import { describe, expect, it } from 'vitest';
import { BOARD_CHANNELS } from '#core/sample/layout.ts';
import type { SampleBlock } from '#core/sample/stream-item.ts';
import {
  clearMessage,
  readScanReply,
  type ScanFrame,
  startMessage,
  stepMessage,
} from '#device/bus/scan-message.ts';
import { driverOf } from '#device/drivers/all.ts';
import { Ads1115 } from '#device/emulated/chips/ads1115.ts';
import { Iis2iclx } from '#device/emulated/chips/iis2iclx.ts';
import type { InclinometerElement } from '#device/emulated/elements/element.ts';
import { createInclinometerElement } from '#device/emulated/elements/inclinometer.ts';
import { createLevelLegs } from '#device/emulated/elements/level-legs.ts';
import { EmulatedBoard } from '#device/emulated/emulated-board.ts';
import { firmwareImage } from '#device/emulated/firmware-image.ts';
import { marramTest } from '#device/emulated/marram.ts';
import {
  boardClockErrorPpm,
  createSampleEntrance,
  type EntranceBoard,
  SCAN_PERIOD_US,
  SCAN_TIMING,
} from '#device/emulated/sample-entrance.ts';
import { ALL_QUIET, createSimulatedWorld } from '#device/emulated/simulated-world.ts';
import { ScanPlan } from '#device/scan-plan.ts';
import { wiresOf } from '#tests/support/chip-wires.ts';

/**
 * Both entrances of the simulator on one seed: the firmware on the emulated board reading emulated
 * chips by their registers, and the sample entrance.
 */
const SEED = 20;
const SECONDS = 40;
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

/** A board with its chips, and the instant its first scan read the inclinometer. */
function boardOf(name: EntranceBoard) {
  const world = commandedWorld();
  const instants: number[] = [];
  const element = createInclinometerElement({ world, instrument: name, seed: SEED });
  const watched: InclinometerElement = {
    configure: (settings, timeS) => element.configure(settings, timeS),
    read(timeS) {
      if (instants.length === 0) instants.push(timeS);
      return element.read(timeS);
    },
  };
  const legs = createLevelLegs({ world, instrument: 'tube', seed: SEED });
  const inclinometer = new Iis2iclx(0x6a, watched);
  const board = new EmulatedBoard({
    hex: firmwareImage(),
    seed: SEED,
    clockErrorPpm: boardClockErrorPpm(SEED, name),
    chips: name === 'fore' ? [inclinometer] : [inclinometer, new Ads1115(0x48, legs)],
  });
  return { board, firstReadS: () => instants[0]! };
}

/** Counts by channel of each scan the firmware made in `SECONDS`, and where its clock begins. */
async function throughChips(name: EntranceBoard) {
  const { board, firstReadS } = boardOf(name);
  board.runTo(0.2);
  const bus = wiresOf(board.bus);
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
  const firstScanUs = frames[0]!.boardUs;
  // How long after its reset a board's clock begins depends on drawing its identity.
  const rate = 1 / (1 + boardClockErrorPpm(SEED, name) * 1e-6);
  const bootS = firstReadS() - (firstScanUs + SCAN_TIMING.xUs) * 1e-6 * rate;
  return { firstScanUs, bootS, counts };
}

function throughSamples(name: EntranceBoard, begins: { firstScanUs: number; bootS: number }) {
  const entrance = createSampleEntrance({
    seed: SEED,
    world: commandedWorld(),
    bootS: { [name]: begins.bootS },
    firstScanUs: { [name]: begins.firstScanUs },
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
      const { counts, ...begins } = await throughChips(name);
      const blocks = throughSamples(name, begins);
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
      // A leg's conversion may be rounded the other way; nothing else differs.
      const faults = counts
        .slice(0, blocks[0]!.stepUs.length)
        .flatMap((scan, k) =>
          scan.flatMap(({ fault }, channel) => (fault === null ? [] : [[k, channel, fault]])),
        );
      expect(blocks[0]!.faults).toEqual(faults);
      expect(alike / compared).toBeGreaterThan(0.999);
    });
  }
});
