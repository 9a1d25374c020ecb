import type { StationServices } from '#device/board-session.ts';
import { BoardStreams } from '#device/board-streams.ts';
import type { SoakBoard, SoakScan } from './soak-messages.ts';

/** From the tick of a scan to its arrival, as a board session would know it. */
const LEAD_S = 0.004;

export type SoakServices = Pick<
  StationServices,
  'station' | 'run' | 'clocks' | 'jumps' | 'sink' | 'report' | 'nextStream'
>;

/** The streams of boards that are no ports: scans go in where a board session would put them. */
export class SoakStreams {
  samples = 0;
  readonly #boards: ReadonlyMap<string, BoardStreams>;

  private constructor(boards: ReadonlyMap<string, BoardStreams>) {
    this.#boards = boards;
  }

  static async open(
    services: SoakServices,
    boards: readonly SoakBoard[],
    periodUs: number,
  ): Promise<SoakStreams> {
    const { station, run, clocks, jumps, sink, report } = services;
    const streams = new Map<string, BoardStreams>();
    for (const { board, channels } of boards) {
      const about = { boardIsOurs: true, resetCounter: 1, port: 'samples', firmware: 'none' };
      const nextStream = (of: string) => services.nextStream(of);
      streams.set(
        board,
        await BoardStreams.prepare(
          { station, run, board, ...about, periodUs, channels },
          { clock: clocks.station, jumps, sink, report, nextStream },
          [],
        ),
      );
    }
    return new SoakStreams(streams);
  }

  /** Answers why a scan found no place, or null. */
  add({ board, sequence, boardUs, arrivedS, counts }: SoakScan): string | null {
    const frame = {
      ...{ sequence, boardUs, durationUs: 800, failedSteps: 0, leftOut: 0, bus: 0 },
      ...{ boardStart: board, resetCounterLow: 1, bytes: new Uint8Array(0) },
    };
    const run = this.#boards.get(board)?.take() ?? null;
    const placed = run?.place(frame);
    if (run === null || placed?.kind !== 'next')
      return `${board} ${sequence} ${placed?.kind ?? 'without a stream'}`;
    const read = counts.map((count) => ({ count, fault: null }));
    run.add(placed.time, frame, { counts: read, arrivedS, leadS: LEAD_S });
    this.samples += 1;
    return null;
  }

  unplug(board: string): void {
    this.#boards.get(board)?.close('board-lost');
  }

  close(): void {
    for (const streams of this.#boards.values()) streams.close('wanted');
  }
}
