import type { Clock } from '#core/time/clock.ts';
import { type LinearMap, linearMapTime } from '#core/time/linear-map.ts';
import type { FromStation, Hello, SimulationStatus } from '#core/wire/link-message.ts';
import type { LineFollowers } from './line-followers.ts';
import type { PacedClock } from './paced-clock.ts';
import type { RecordFile } from './record-file.ts';
import type { StationLink } from './station-link.ts';

/** A new pairing is written this often, wall seconds; the first few of a connection at once. */
const PAIRED_EVERY_S = 30;
const PAIRED_AT_ONCE = 3;
/** A simulation says its time ten times a wall second; half of that is what its pairing may miss. */
const STATUS_HALF_S = 0.05;

interface Exchange {
  readonly sentStationS: number;
  readonly earlierReturnedStationS?: number | undefined;
}

/**
 * Pairs station clocks with the receiver's. With real boards by exchange; beside a simulated
 * vessel her time is the receiver's time, so one fixed pairing a run is written and the
 * receiver's clock is steered by it.
 */
export class StationClocks {
  readonly #record: RecordFile;
  readonly #followers: LineFollowers;
  readonly #machine: Clock;
  readonly #paced: PacedClock | null;
  readonly #written = new WeakMap<StationLink, { times: number; atS: number }>();

  constructor(parts: {
    record: RecordFile;
    followers: LineFollowers;
    machine: Clock;
    paced: PacedClock | null;
  }) {
    this.#record = parts.record;
    this.#followers = parts.followers;
    this.#machine = parts.machine;
    this.#paced = parts.paced;
  }

  /** A run the record knows goes on with its pairing. */
  resume(link: StationLink, hello: Hello): void {
    const map = this.#followers.timeMap.stationMap(hello.station, hello.run);
    if (map !== null) link.exchange.resume(map);
  }

  exchange(link: StationLink, exchange: Extract<FromStation, { type: 'exchange' }>): void {
    const receivedReceiverS = this.#record.clock.monotonicS();
    if (this.#paced === null) this.#pair(link, exchange, receivedReceiverS);
    const repliedReceiverS = this.#record.clock.monotonicS();
    link.send({
      type: 'exchange-reply',
      sentStationS: exchange.sentStationS,
      receivedReceiverS,
      repliedReceiverS,
    });
    link.lastReplyReceiverS = repliedReceiverS;
  }

  /** Draws the receiver's clock to a simulated vessel's time. */
  steer(hello: Hello, status: SimulationStatus): void {
    if (this.#paced === null) return;
    let map = this.#followers.timeMap.stationMap(hello.station, hello.run);
    if (map === null) {
      map = {
        fromS: status.stationS,
        toS: this.#paced.monotonicS(),
        rate: 1,
        uncertaintyS: STATUS_HALF_S * status.paceAsked,
        // Her time is receiver time: a duration is the same in both.
        rateUncertainty: 0,
      };
      this.#write(hello, map);
    }
    this.#paced.steer(linearMapTime(map, status.stationS), status.paceHeld);
  }

  #pair(link: StationLink, exchange: Exchange, receivedReceiverS: number): void {
    const returnedStationS = exchange.earlierReturnedStationS;
    if (link.station === null) return;
    const { station, run } = link.station;
    const unpairedSinceS = this.#followers.timeMap.unpairedSinceS(station, run);
    if (unpairedSinceS !== null) link.exchange.forgetBefore(unpairedSinceS);
    const found = link.exchange.add({
      sentStationS: exchange.sentStationS,
      receivedReceiverS,
      earlierReply:
        returnedStationS === undefined || link.lastReplyReceiverS === null
          ? null
          : { repliedReceiverS: link.lastReplyReceiverS, returnedStationS },
    });
    const nowS = this.#machine.monotonicS();
    const written = this.#written.get(link) ?? { times: 0, atS: nowS };
    // After a jump at once, but not from one way alone: whatever just woke may hold messages back.
    const atOnce = unpairedSinceS === null ? found === 'jumped' : link.exchange.knowsBothWays;
    const due = written.times < PAIRED_AT_ONCE || nowS - written.atS >= PAIRED_EVERY_S;
    if (!atOnce && (unpairedSinceS !== null || !due)) return;
    const map = link.exchange.renew();
    if (map === null) return;
    this.#write(link.station, map);
    this.#written.set(link, { times: written.times + 1, atS: nowS });
  }

  #write(hello: Hello, map: LinearMap): void {
    this.#record.append(
      'station-clock',
      {
        station: hello.station,
        run: hello.run,
        stationS: map.fromS,
        receiverS: map.toS,
        rate: map.rate,
        uncertaintyS: map.uncertaintyS,
        rateUncertainty: map.rateUncertainty,
      },
      { author: 'receiver', role: 'receiver' },
    );
  }
}
