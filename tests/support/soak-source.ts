import type { Certificate, Mounting } from '#core/sample/certificate.ts';
import { BOARD_CHANNELS } from '#core/sample/layout.ts';
import type { BoardClock, Channel, SampleBlock, StreamItem } from '#core/sample/stream-item.ts';
import type { Simulate } from '#core/wire/link-message.ts';
import { marramMountings } from '#device/emulated/marram.ts';
import { createSampleEntrance, SCAN_PERIOD_US } from '#device/emulated/sample-entrance.ts';
import { createSimulatedWorld } from '#device/emulated/simulated-world.ts';
import { sineBarCertificates } from '#device/emulated/sine-bar.ts';
import { MICROSECOND_MODULUS, SEQUENCE_MODULUS } from '#device/unwrap.ts';
import { randomFromSeed } from '#tests/support/seeded.ts';
import type { SoakBoard, SoakScan } from './soak-messages.ts';

/** From the last read of a scan to its arrival: never less, and up to so much more. */
const ON_THE_LINE_S = 0.004;
const LATE_S = 0.003;
/** A world is asked for times that hardly go back. */
export const STEP_S = 0.5;
const MID = 'mid';

/**
 * Three boards of four channels on the average (3, 5 and 4) aboard the simulated vessel, as scans
 * with counters that wrap. The third board is another maker's part beside the first, with a seed
 * of its own.
 */
export class SoakSource {
  readonly periodUs = SCAN_PERIOD_US;
  readonly boards: readonly SoakBoard[];
  readonly mountings: readonly Mounting[];
  readonly certificates: readonly Certificate[];
  readonly world: ReturnType<typeof createSimulatedWorld>;
  readonly #main: ReturnType<typeof createSampleEntrance>;
  readonly #third: ReturnType<typeof createSampleEntrance>;
  readonly #clocks = new Map<string, BoardClock>();
  readonly #random: () => number;
  #nowS = 0;

  constructor(seed: number) {
    this.#random = randomFromSeed(seed);
    this.world = createSimulatedWorld({ seed });
    this.#main = createSampleEntrance({ seed, world: this.world });
    this.#third = createSampleEntrance({ seed: seed + 1, world: this.world });
    const mid = (channel: Channel): Channel => ({ ...channel, instrument: MID });
    const [temperature] = BOARD_CHANNELS.fore.filter(({ quantity }) => quantity === 'temperature');
    this.boards = [
      { board: 'fore', channels: BOARD_CHANNELS.fore },
      { board: 'aft', channels: BOARD_CHANNELS.aft },
      {
        board: MID,
        channels: [...BOARD_CHANNELS.fore, { ...temperature!, quantity: 'box' }].map(mid),
      },
    ];
    const mountings = marramMountings();
    const fore = mountings.find(({ instrument }) => instrument === 'fore')!;
    this.mountings = [...mountings, { ...fore, instrument: MID, label: 'Midships' }];
    const third = sineBarCertificates(seed + 1).find(({ instrument }) => instrument === 'fore')!;
    this.certificates = [
      ...sineBarCertificates(seed),
      { ...third, instrument: MID, number: `${third.number}-${MID}` },
    ];
  }

  get nowS(): number {
    return this.#nowS;
  }

  command({ state, weights, disturbances }: Simulate): void {
    // Just after what has been read already: the world is not rewound.
    this.world.command(this.#nowS + 0.01, { state, weights, disturbances });
  }

  /** The scans of the next half second in the order of their arrival. */
  next(): SoakScan[] {
    this.#nowS += STEP_S;
    const scans: SoakScan[] = [];
    for (const item of this.#main.advance(this.#nowS)) this.#take(item, scans);
    for (const item of this.#third.advance(this.#nowS))
      if (boardOf(item) === 'fore') this.#take(item, scans, MID);
    return scans.sort((a, b) => a.arrivedS - b.arrivedS);
  }

  #take(item: StreamItem, scans: SoakScan[], board = boardOf(item)): void {
    if (item.type === 'board-clock') this.#clocks.set(board, item);
    else if (item.type === 'samples') scans.push(...this.#scansOf(item, board));
  }

  #scansOf(block: SampleBlock, board: string): SoakScan[] {
    const clock = this.#clocks.get(board)!;
    let boardUs = block.firstBoardUs;
    return block.stepUs.map((stepUs, k) => {
      boardUs += stepUs;
      const atS = clock.stationS + (boardUs - clock.boardUs) * 1e-6 * clock.rate;
      const counts = block.columns.map((column) => column[k] ?? null);
      return {
        board,
        sequence: (block.firstSequence + k) % SEQUENCE_MODULUS,
        boardUs: boardUs % MICROSECOND_MODULUS,
        arrivedS: atS + ON_THE_LINE_S + LATE_S * this.#random(),
        counts: board === MID ? [...counts, counts[2] ?? null] : counts,
      };
    });
  }
}

function boardOf({ stream }: StreamItem): string {
  return stream.split('/')[1] ?? '';
}
