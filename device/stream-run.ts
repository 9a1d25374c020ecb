import type { Fault } from '#core/fault/fault.ts';
import type { Channel, StreamClosed } from '#core/sample/stream-item.ts';
import type { Clock } from '#core/time/clock.ts';
import type { ClockJumps } from './clock-jumps.ts';
import { ClockMap, MAP_EVERY_S } from './clock-map.ts';
import type { Count } from './drivers/driver.ts';
import { Sampler } from './sampler.ts';
import type { StreamWriter } from './stream-writer.ts';
import { type ScanTime, ScanUnwrapper } from './unwrap.ts';

/** A map from the first seconds is poor; it is soon replaced. */
const FIRST_MAP_AFTER_S = 1;
const LEFT_OUT_MODULUS = 2 ** 16;

export interface StreamOpening {
  readonly station: string;
  readonly run: string;
  readonly board: string;
  readonly boardIsOurs: boolean;
  readonly resetCounter: number;
  readonly port: string;
  readonly firmware: string;
  readonly periodUs: number;
  readonly channels: readonly Channel[];
}

export interface StreamClocks {
  /** The station's. */
  readonly clock: Clock;
  readonly jumps: ClockJumps;
}

/** What a stream needs of one scan beside its counts; both counters wrap, at 2^16 and 2^32. */
export interface ScanCounters {
  readonly sequence: number;
  readonly boardUs: number;
  /** Scans left out since the start, wrapping at 2^16. */
  readonly leftOut: number;
}

/** One unbroken run of one board, from its opening to its closing. */
export class StreamRun {
  readonly #writer: StreamWriter;
  readonly #clock: Clock;
  readonly #jumps: ClockJumps;
  readonly #unwrapper: ScanUnwrapper;
  readonly #sampler: Sampler;
  readonly #clockMap = new ClockMap();
  #leftOut: number | null = null;
  #nextMapS: number;

  private constructor(writer: StreamWriter, opening: StreamOpening, clocks: StreamClocks) {
    const { clock } = clocks;
    this.#writer = writer;
    this.#clock = clock;
    this.#jumps = clocks.jumps;
    this.#unwrapper = new ScanUnwrapper(opening.periodUs);
    this.#sampler = new Sampler(writer, {
      channelCount: opening.channels.length,
      periodUs: opening.periodUs,
    });
    this.#nextMapS = clock.monotonicS() + FIRST_MAP_AFTER_S;
  }

  /** Null when the spool has no room even for an opening. */
  static open(
    writer: StreamWriter,
    opening: StreamOpening,
    clocks: StreamClocks,
  ): StreamRun | null {
    const opened = writer.open({
      type: 'stream-opened',
      ...opening,
      channels: [...opening.channels],
      openedStationS: clocks.clock.monotonicS(),
    });
    return opened ? new StreamRun(writer, opening, clocks) : null;
  }

  get stream(): string {
    return this.#writer.stream;
  }

  /** What the counters of a frame say; a repeated or broken one is not to be added. */
  place(frame: ScanCounters) {
    return this.#unwrapper.next({ sequence: frame.sequence, boardUs: frame.boardUs });
  }

  /**
   * @param leadS what the scan itself and its way over the line must have taken
   */
  add(
    time: ScanTime,
    frame: ScanCounters,
    scan: { counts: readonly Count[]; arrivedS: number; leadS: number },
  ): void {
    const jumped = this.#clockMap.add(time.boardUs, scan.arrivedS - scan.leadS) === 'jumped';
    if (jumped) {
      // No block has samples of two clocks, and none of the new one waits under the old one's map.
      this.#sampler.flush();
      this.#writeMap(this.#clock.monotonicS());
      this.#nextMapS = this.#clock.monotonicS() + FIRST_MAP_AFTER_S;
    }
    const leftOut = this.#leftOut ?? frame.leftOut;
    this.#leftOut = frame.leftOut;
    this.#sampler.add({
      time,
      counts: scan.counts.map(({ count }) => count),
      faults: scan.counts.flatMap(({ fault }, channel) =>
        fault === null ? [] : [{ channel, code: fault }],
      ),
      skipped: (frame.leftOut - leftOut + LEFT_OUT_MODULUS) % LEFT_OUT_MODULUS,
      arrivedS: scan.arrivedS,
    });
    const nowS = this.#clock.monotonicS();
    if (nowS >= this.#nextMapS) this.#writeMap(nowS);
  }

  fault(fault: Fault): void {
    this.#writer.fault(fault.code, fault.report.where, fault.report.found);
  }

  close(reason: StreamClosed['reason']): void {
    this.#sampler.flush();
    this.#writeMap(this.#clock.monotonicS());
    this.#writer.close(reason);
  }

  #writeMap(nowS: number): void {
    const mapping = this.#clockMap.mapping();
    if (mapping === null) return;
    this.#nextMapS = nowS + MAP_EVERY_S;
    const jumpsS = [mapping.stationJumpedS, this.#jumps.lastS].filter((atS) => atS != null);
    const stationJumpedS = jumpsS.length === 0 ? {} : { stationJumpedS: Math.max(...jumpsS) };
    this.#writer.clock({ ...mapping, ...stationJumpedS });
  }
}
