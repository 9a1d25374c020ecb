import { Fault, type FaultCode } from '#core/fault/fault.ts';
import type { Mounting } from '#core/sample/certificate.ts';
import type { InstrumentHeel } from '#core/sample/checked-block.ts';
import { HeelConversion } from '#core/sample/heel.ts';
import type { SampleBlock } from '#core/sample/stream-item.ts';
import type { Bus } from '#device/bus/bus.ts';
import { ChipSet } from '#device/chip-set.ts';
import { driverOf } from '#device/drivers/all.ts';
import type { Count } from '#device/drivers/driver.ts';
import type { I2cChip } from '#device/emulated/i2c.ts';
import type { World } from '#device/emulated/world.ts';
import type { ExpectedChip } from '#device/outfit.ts';
import { BoardHost } from '#tests/support/board-host.ts';
import { wiresOf } from '#tests/support/chip-wires.ts';
import type { Trouble, UnderTest } from './under-test.ts';

const PERIOD_US = 20_000;
/** The filters of the chips have settled by then. */
const SETTLING_S = 0.4;
const READ_S = 0.8;
const STUCK_S = 1.2;

/** A vessel at rest at one heel; legs as deep as they stand 0.5 m high in the middle. */
export interface StillVessel extends World {
  heelDeg: number;
  /** Multiplies what accelerometers feel, and the water in the legs: to drive them to their ends. */
  excess: number;
}

export function stillVessel(spanM: number): StillVessel {
  const vessel = {
    heelDeg: 0,
    excess: 1,
    specificForceG() {
      const heel = (vessel.heelDeg * Math.PI) / 180;
      return {
        xG: 0,
        yG: vessel.excess * Math.sin(heel),
        zG: Math.cos(heel),
      };
    },
    legLevelMm(_instrument: string, leg: 'port' | 'starboard') {
      const differenceMm = 1000 * spanM * Math.tan((vessel.heelDeg * Math.PI) / 180);
      return vessel.excess * (400 + (leg === 'starboard' ? 0.5 : -0.5) * differenceMm);
    },
    temperatureC: () => 20,
  };
  return vessel;
}

export interface ChipCase {
  readonly part: string;
  readonly mounting: Mounting;
  readonly stepDeg: number;
  readonly toleranceDeg: number;
  readonly rangeDeg: number;
  /** Address of each chip; two legs have two. */
  readonly addresses: readonly number[];
  /** The twins in a vessel, one an address, without errors of their own. */
  twins(vessel: StillVessel): I2cChip[];
  /** How the vessel drives it to the end of its range. */
  saturate(vessel: StillVessel): void;
  readonly called?: Partial<UnderTest['called']>;
}

/** The rest of an outfit around one part: the firmware on an emulated board, its chips, the conversion. */
class Bench {
  readonly host: BoardHost;
  readonly #chips: ChipSet;
  readonly #conversion: HeelConversion;

  constructor(of: ChipCase, twins: I2cChip[], bus?: (wires: Bus) => Bus) {
    this.host = new BoardHost({ chips: twins });
    const { host } = this;
    host.run(0.1);
    const wires = wiresOf(host.board.bus);
    const clock = {
      // Whoever waits by this clock lets the board live.
      monotonicS() {
        host.run(0.002);
        return host.board.reachedS;
      },
      wallMs: () => 0,
    };
    this.#chips = new ChipSet(expectedOf(of), {
      bus: bus === undefined ? wires : bus(wires),
      clock,
      where: 'bench',
      periodUs: PERIOD_US,
      stepUs: PERIOD_US,
      tell: (fault) => this.told.push(fault.code),
    });
    const stream = { channels: this.#chips.channels, periodUs: PERIOD_US };
    this.#conversion = new HeelConversion(stream, [{ mounting: of.mounting, certificate: null }]);
  }

  readonly told: FaultCode[] = [];

  async start(): Promise<void> {
    await this.#chips.configure();
    this.host.startScan(PERIOD_US, this.#chips.plan.steps);
    this.host.run(SETTLING_S);
    this.host.messages();
  }

  /** Scans of so many seconds as a block, and what conversion makes of it. */
  read(seconds: number): { block: SampleBlock; heel: InstrumentHeel } {
    this.host.run(seconds);
    const rows = this.host.frames().map((frame) => {
      const counts = this.#chips.counts(frame, this.host.board.reachedS);
      if (counts === null) throw new Error('a frame of another list');
      return counts;
    });
    const block = blockOf(rows);
    return { block, heel: this.#conversion.convert(block)[0]! };
  }
}

function expectedOf({ part, mounting, addresses }: ChipCase): ExpectedChip[] {
  const driver = driverOf(part);
  if (driver === undefined) throw new Error(`no driver for ${part}`);
  const legs = ['port', 'starboard'] as const;
  return addresses.map((address, k) => ({
    instrument: mounting.instrument,
    driver,
    address,
    ...(addresses.length === 2 && { leg: legs[k]! }),
  }));
}

function blockOf(rows: readonly (readonly Count[])[]): SampleBlock {
  const faults: SampleBlock['faults'] = rows.flatMap((row, sample) =>
    row.flatMap(({ fault }, channel): SampleBlock['faults'] =>
      fault === null ? [] : [[sample, channel, fault]],
    ),
  );
  return {
    type: 'samples',
    stream: 'bench/bench/1',
    number: 1,
    v: 1,
    firstSequence: 0,
    firstBoardUs: 0,
    stepUs: rows.map((_, k) => (k === 0 ? 0 : PERIOD_US)),
    columns: rows[0]!.map((_, channel) => rows.map((row) => row[channel]!.count)),
    faults,
    skipped: 0,
    arrivedStationS: 0,
  };
}

/** Bytes of a read changed on their way: a reply cut short, or of another chip. */
const shortReplies = (wires: Bus): Bus => ({
  ...wires,
  read: (address, _register, count) =>
    Promise.reject(new Fault('bus-short-reply', `${address}`, `${count - 1} of ${count} bytes`)),
});
const foreignReplies = (wires: Bus): Bus => ({
  ...wires,
  read: async (_address, _register, count) => new Uint8Array(count).fill(0x91),
});

const CALLED: UnderTest['called'] = {
  'no-answer': 'bus-no-answer',
  'short-reply': 'bus-short-reply',
  'stuck-value': 'chip-stuck',
  'wrong-identity': 'chip-wrong-identity',
  saturated: 'chip-saturated',
};

/** A chip's driver as the conformance test walks it. */
export function chipUnderTest(of: ChipCase): UnderTest {
  const spanM = of.mounting.spanM ?? 1;
  const run = async (heelDeg: number, bus?: (wires: Bus) => Bus) => {
    const vessel = stillVessel(spanM);
    vessel.heelDeg = heelDeg;
    const bench = new Bench(of, of.twins(vessel), bus);
    await bench.start();
    return { vessel, bench };
  };
  const address = of.addresses[0]!;
  const disturbed = async (disturb: (it: Awaited<ReturnType<typeof run>>) => void) => {
    const it = await run(2);
    disturb(it);
    const { block, heel } = it.bench.read(STUCK_S);
    return block.faults.at(-1)?.[2] ?? heel.faults.at(-1)?.[1] ?? null;
  };
  const faults: Record<Trouble, () => Promise<FaultCode | null>> = {
    'no-answer': () =>
      disturbed(({ bench }) => bench.host.board.bus.disturb({ kind: 'no-answer', address })),
    'stuck-value': () =>
      disturbed(({ bench }) => bench.host.board.bus.disturb({ kind: 'stuck-value', address })),
    'short-reply': async () => (await run(0, shortReplies)).bench.told.at(-1) ?? null,
    'wrong-identity': async () => (await run(0, foreignReplies)).bench.told.at(-1) ?? null,
    saturated: () => disturbed(({ vessel }) => of.saturate(vessel)),
  };
  return {
    name: of.part,
    stepDeg: of.stepDeg,
    toleranceDeg: of.toleranceDeg,
    rangeDeg: of.rangeDeg,
    async heelDegAt(heels) {
      const { vessel, bench } = await run(0);
      return heels.map((heelDeg) => {
        vessel.heelDeg = heelDeg;
        bench.read(SETTLING_S);
        const told = bench.read(READ_S).heel.heelDeg.filter((one) => one !== null);
        return told.length === 0 ? null : told.reduce((sum, one) => sum + one, 0) / told.length;
      });
    },
    faultWhen: (trouble) => faults[trouble](),
    called: { ...CALLED, ...of.called },
  };
}
