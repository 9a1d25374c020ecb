import { describe, expect, it } from 'vitest';
import { readLine } from '#core/record/read-line.ts';
import { ClockExchange } from '#core/sample/clock-exchange.ts';
import type { SampleBlock } from '#core/sample/stream-item.ts';
import { ClockMap, MAP_EVERY_S } from '#device/clock-map.ts';
import { MICROSECOND_MODULUS, ScanUnwrapper, SEQUENCE_MODULUS } from '#device/unwrap.ts';
import { TimeMap } from '#receiver/time-map.ts';
import { blockBody, OPENED_BODY, RecordLines, STREAM } from '#tests/support/record-lines.ts';
import { randomFromSeed } from '#tests/support/seeded.ts';

const PERIOD_S = 0.02;
const BLOCK_SCANS = 25;
const LASTS_S = 5400;
const EXCHANGE_EVERY_S = 2;
const PAIRED_EVERY_S = 30;
/** Slowest round of the wander that is asked for, and its size. */
const WANDER_PERIOD_S = 600;
const WANDER = 200e-6;
/** What is stated is one standard uncertainty; of tens of thousands of times a few are beyond three. */
const COVER = 4;

/** True time is the receiver's, which stands upright beside a station whose laptop may sleep. */
interface Scenario {
  readonly name: string;
  readonly seed: number;
  readonly boardRateError: number;
  readonly wander: boolean;
  /** The station sleeps from here for so long: its clock stands still, scans in between are lost. */
  readonly sleep: { readonly fromS: number; readonly forS: number } | null;
}

const SCENARIOS: readonly Scenario[] = [
  { name: '+5000 ppm, wandering', seed: 1, boardRateError: 0.005, wander: true, sleep: null },
  { name: '-5000 ppm, wandering', seed: 2, boardRateError: -0.005, wander: true, sleep: null },
  {
    name: 'asleep for 50 s',
    seed: 3,
    boardRateError: 0.003,
    wander: true,
    sleep: { fromS: 900, forS: 50 },
  },
];

/** One board, its station and the receiver, with delays like those of a busy laptop and a dock's Wi-Fi. */
function simulated(scenario: Scenario) {
  const random = randomFromSeed(scenario.seed);
  const exponential = (mean: number) => -mean * Math.log(1 - random());
  const record = new RecordLines();
  const timeMap = new TimeMap();
  const follow = () => timeMap.follow(readLine(record.lines.at(-1)!, 'here'));
  record.add('stream-opened', OPENED_BODY, 'device');
  follow();

  const wanderOf = (atS: number) =>
    scenario.wander
      ? (WANDER * WANDER_PERIOD_S * (1 - Math.cos((2 * Math.PI * atS) / WANDER_PERIOD_S))) /
        (2 * Math.PI)
      : 0;
  const boardUsOf = (atS: number) =>
    Math.round((atS * (1 + scenario.boardRateError) + wanderOf(atS)) * 1e6);
  const sleptS = (atS: number) =>
    scenario.sleep === null
      ? 0
      : Math.min(Math.max(0, atS - scenario.sleep.fromS), scenario.sleep.forS);
  const asleep = (atS: number) => sleptS(atS) > 0 && sleptS(atS) < (scenario.sleep?.forS ?? 0);
  const stationOf = (atS: number) => 77 + (atS - sleptS(atS)) * (1 + 20e-6);

  const unwrapper = new ScanUnwrapper(PERIOD_S * 1e6);
  const clockMap = new ClockMap();
  const exchange = new ClockExchange();
  const waiting: { block: SampleBlock; trueS: number[]; board: ReturnType<TimeMap['boardMap']> }[] =
    [];
  const worst = { ratio: 0, uncertaintyS: 0, times: 0, wraps: 0 };
  let block: { us: number[]; trueS: number[]; sequence: number } | null = null;
  let number = 1;
  let mappedS = Number.NEGATIVE_INFINITY;
  let exchangedS = 0;
  let pairedS = Number.NEGATIVE_INFINITY;
  let reply: { repliedReceiverS: number; returnedStationS: number } | null = null;
  let rawBefore = 0;

  const place = () => {
    for (const one of waiting.splice(0)) {
      const board = one.board ?? timeMap.boardMap(STREAM);
      const times = timeMap.timesOf(one.block, board);
      if (times === null) {
        waiting.push({ ...one, board });
        continue;
      }
      for (const [k, trueS] of one.trueS.entries()) {
        worst.ratio = Math.max(worst.ratio, Math.abs(times.atS[k]! - trueS) / times.uncertaintyS);
        worst.times += 1;
      }
      worst.uncertaintyS = Math.max(worst.uncertaintyS, times.uncertaintyS);
    }
  };
  const writeBlock = () => {
    if (block === null) return;
    const body: SampleBlock = {
      ...blockBody(number, block.sequence, block.us.length),
      firstBoardUs: block.us[0]!,
      stepUs: block.us.map((us, k) => (k === 0 ? 0 : us - block!.us[k - 1]!)),
    };
    number += 1;
    record.add('samples', body, 'device');
    follow();
    waiting.push({ block: body, trueS: block.trueS, board: timeMap.boardMap(STREAM) });
    block = null;
    place();
  };

  for (let scan = 0; scan * PERIOD_S < LASTS_S; scan += 1) {
    const atS = scan * PERIOD_S;
    if (asleep(atS)) continue;
    const raw = {
      sequence: scan % SEQUENCE_MODULUS,
      boardUs: (boardUsOf(atS) + 4_200_000_000) % MICROSECOND_MODULUS,
    };
    if (raw.boardUs < rawBefore) worst.wraps += 1;
    rawBefore = raw.boardUs;
    const unwrapped = unwrapper.next(raw);
    if (unwrapped.kind !== 'next') throw new Error(`${scenario.name}: ${unwrapped.kind} at ${atS}`);
    const { boardUs, sequence } = unwrapped.time;
    const delayS = exponential(0.002) + (random() < 0.01 ? exponential(0.05) : 0);
    if (clockMap.add(boardUs, stationOf(atS + delayS)) === 'jumped') {
      writeBlock();
      mappedS = Number.NEGATIVE_INFINITY;
    }
    const mapping = atS - mappedS >= MAP_EVERY_S ? clockMap.mapping() : null;
    if (mapping !== null) {
      mappedS = atS;
      record.add(
        'board-clock',
        { type: 'board-clock', stream: STREAM, number, v: 1, ...mapping },
        'device',
      );
      number += 1;
      follow();
      place();
    }
    block ??= { us: [], trueS: [], sequence };
    block.us.push(boardUs);
    block.trueS.push(atS);
    if (block.us.length === BLOCK_SCANS) writeBlock();

    if (atS - exchangedS < EXCHANGE_EVERY_S) continue;
    exchangedS = atS;
    const there = exponential(0.004);
    const unpaired = timeMap.unpairedSinceS('station-1', 'run-1');
    if (unpaired !== null) exchange.forgetBefore(unpaired);
    const found = exchange.add({
      sentStationS: stationOf(atS),
      receivedReceiverS: atS + there,
      earlierReply: reply,
    });
    reply = {
      repliedReceiverS: atS + there,
      returnedStationS: stationOf(atS + there + exponential(0.004)),
    };
    const atOnce = unpaired === null ? found === 'jumped' : exchange.knowsBothWays;
    if (!atOnce && (unpaired !== null || atS - pairedS < PAIRED_EVERY_S)) continue;
    const map = exchange.renew()!;
    pairedS = atS;
    record.add(
      'station-clock',
      {
        station: 'station-1',
        run: 'run-1',
        stationS: map.fromS,
        receiverS: map.toS,
        rate: map.rate,
        uncertaintyS: map.uncertaintyS,
        rateUncertainty: map.rateUncertainty,
      },
      'receiver',
    );
    follow();
    place();
  }
  return { ...worst, waiting: waiting.length };
}

describe('from a board over its station to the receiver, ninety minutes long', () => {
  it.each(SCENARIOS)(
    'every sample lies within the uncertainty stated of its time: $name',
    (scenario) => {
      const found = simulated(scenario);
      console.log(
        `${scenario.name}: worst ${found.ratio.toFixed(2)} of its uncertainty, which was ${(1000 * found.uncertaintyS).toFixed(1)} ms at most`,
      );
      expect(found.wraps).toBeGreaterThan(0);
      expect(found.times).toBeGreaterThan(200_000);
      expect(found.waiting).toBe(0);
      expect(found.ratio).toBeLessThan(COVER);
    },
  );
});
