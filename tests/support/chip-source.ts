import { mkdtemp, rm } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import type { DisturbanceSwitches } from '#core/record/line.ts';
import type { StreamItem } from '#core/sample/stream-item.ts';
import { marramMountings, marramTest } from '#device/emulated/marram.ts';
import type { VirtualRig } from '#device/emulated/rig-types.ts';
import { ALL_QUIET } from '#device/emulated/simulated-world.ts';
import { sineBarCertificates } from '#device/emulated/sine-bar.ts';
import { startVirtualRig } from '#device/emulated/virtual-rig.ts';
import { emulatedOutfit, emulatedPorts } from '#device/emulated-station.ts';
import type { StationEvent } from '#device/events.ts';
import { machineClock } from '#device/machine-clock.ts';
import { Station } from '#device/station.ts';
import { TestReceiver, until } from '#tests/device/support/test-receiver.ts';
import type { DaySource } from './day.ts';

const MOST_OPENING_STEPS = 2000;

export interface ChipSource extends DaySource {
  readonly rig: VirtualRig;
  readonly receiver: TestReceiver;
  readonly events: readonly StationEvent[];
  disturb(disturbances: DisturbanceSwitches): void;
  /** Resolves when everything read so far has come over the link. */
  settled(): Promise<void>;
  stop(): Promise<void>;
}

/**
 * A day at chip level in virtual time: firmware on emulated processors, registers, bus, Firmata,
 * drivers, sampler, spool and link, all as in use; only the wall does not set the pace.
 */
export async function startChipSource(seed: number): Promise<ChipSource> {
  const folder = await mkdtemp(path.join(os.tmpdir(), 'chip-day-'));
  const receiver = new TestReceiver();
  const events: StationEvent[] = [];
  const rig = startVirtualRig({ seed, wall: machineClock });
  const station = await Station.open({
    dataFolder: folder,
    receiverUrl: await receiver.listen(),
    pairing: { code: 'a'.repeat(22), pin: null },
    clocks: { station: rig.clock, machine: machineClock },
    report: (event) => events.push(event),
    outfit: emulatedOutfit(seed, []),
  });
  for (const port of emulatedPorts(rig)) station.keep(port);
  // Opening a board takes wall time, which virtual time would run away from.
  const opened = (): boolean =>
    events.filter(({ event }) => event === 'stream').length >= rig.boards.length;
  for (let step = 0; !opened(); step++) {
    if (step > MOST_OPENING_STEPS) throw new Error('the boards did not open');
    await rig.advance(0.1);
    await new Promise((resolve) => setTimeout(resolve, 5));
  }

  const taken = new Map<string, number>();
  const newItems = (): StreamItem[] => {
    const items: StreamItem[] = [];
    for (const [stream, held] of receiver.streams) {
      for (const { item } of held.slice(taken.get(stream) ?? 0)) items.push(item);
      taken.set(stream, held.length);
    }
    return items;
  };

  let disturbances = ALL_QUIET;
  let ordered: {
    state: number;
    weights: { weight: string; xM: number; yM: number; zM: number }[];
  } | null = null;
  const command = (): void => {
    if (ordered !== null) rig.command({ ...ordered, disturbances });
  };

  return {
    rig,
    receiver,
    events,
    test: marramTest(),
    simulation: { seed, paceAsked: 1, paceHeld: 1, disturbances, truth: rig.vessel().truth },
    mountings: marramMountings(),
    certificates: sineBarCertificates(seed),
    startS: rig.clock.monotonicS(),
    async advance(untilS) {
      await rig.advance(untilS - rig.clock.monotonicS());
      return newItems();
    },
    order(_atS, session) {
      const last = session.states.at(-1)!;
      const places = { ...session.weightsAt };
      for (const move of last.moves) places[move.weight] = move.to;
      ordered = {
        state: last.state,
        weights: Object.entries(places).map(([weight, place]) => ({ weight, ...place })),
      };
      command();
    },
    carrying: () => rig.vessel().carrying.length > 0,
    disturb(wanted) {
      disturbances = wanted;
      command();
    },
    async settled() {
      await station.spool.flush();
      const held = (stream: string): number => (receiver.streams.get(stream)?.length ?? 0) - 1;
      await until(
        () => station.spool.streams().every((one) => held(one.stream) >= one.storedNumber),
        'everything stored has come over',
      );
    },
    async stop() {
      await Promise.all([station.stop(0), rig.advance(2)]);
      await rig.stop();
      await receiver.close();
      await rm(folder, { recursive: true, force: true });
    },
  };
}
