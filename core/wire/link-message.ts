import { z } from 'zod';
import { utf8FromText } from '../digest/utf-8.ts';
import { entryLine } from '../record/entry-line.ts';
import { disturbanceSwitches, simulation, testOpened } from '../record/line.ts';
import { certificate, mounting } from '../sample/certificate.ts';
import { MOST_CHANNELS, streamId } from '../sample/stream-item.ts';

/**
 * Between the station beside the vessel and the receiver: WebSocket text messages at `/device`.
 * Stream items travel as their own bytes (their `type` tells them apart); the rest is here.
 */
export const LINK_VERSION = 1;
export const MOST_LINK_MESSAGE_BYTES = 128 * 1024;
const finite = z.number();
const name = z.string().min(1).max(64);

export const hello = z.strictObject({
  type: z.literal('hello'),
  version: z.literal(LINK_VERSION),
  station: name,
  /** Raw Ed25519 public key of the station, base64url; its private half never leaves the station. */
  publicKey: z.string().regex(/^[A-Za-z0-9_-]{43}$/),
  /** Its signature of `stationProofText`, base64url: it has the key, and this connection is not played back. */
  proof: z.string().regex(/^[A-Za-z0-9_-]{86}$/),
  /** One start of the station's program: its monotonic clock begins anew with it. */
  run: name,
  /** Instruments this station has, how they stand, and their certificates as far as it holds them. */
  mountings: z.array(mounting).max(MOST_CHANNELS),
  certificates: z.array(certificate).max(MOST_CHANNELS),
  /** Only a simulated vessel says this. */
  simulated: z
    .strictObject({
      simulation,
      test: testOpened,
      /** Rows of the survey as entered before the shifts. */
      survey: z.array(entryLine).max(200).optional(),
    })
    .nullable(),
});

/** What a station signs to show that it is the one it says: the challenge it was admitted with. */
export function stationProofText(challenge: string, station: string, run: string): Uint8Array {
  return utf8FromText(`heelwright station 1\n${challenge}\n${station}\n${run}\n`);
}

/** Clock exchange: the station asks, the receiver answers with its own times. */
export const exchange = z.strictObject({
  type: z.literal('exchange'),
  sentStationS: finite,
  /** Station time at which the reply to the exchange before arrived, on the same connection. */
  earlierReturnedStationS: finite.optional(),
});

/** A simulated vessel's state, ten times a wall second at most; steers the receiver's paced clock. */
export const simulationStatus = z.strictObject({
  type: z.literal('simulation-status'),
  stationS: finite,
  paceAsked: z.number().positive(),
  paceHeld: z.number().nonnegative(),
  disturbances: disturbanceSwitches,
  /** Weights being carried now; empty when all are down. */
  carrying: z.array(name).max(24),
  /** State number whose weights are all down, as asked by `simulate`. */
  settledState: z.number().int().nonnegative(),
});

/** How the station's own disk stands: at each connection, and when it changes. */
export const stationDisk = z.strictObject({
  type: z.literal('station-disk'),
  /** Why samples find no room on it, in words; null: they do. */
  refuses: z.string().min(1).max(300).nullable(),
});

export const fromStation = z.discriminatedUnion('type', [
  hello,
  exchange,
  simulationStatus,
  stationDisk,
]);

export const welcome = z.strictObject({
  type: z.literal('welcome'),
  version: z.literal(LINK_VERSION),
  record: name,
  /** Streams of this station the record has, with the last item number on disk. */
  acknowledged: z
    .array(z.strictObject({ stream: streamId, number: z.number().int().nonnegative() }))
    .max(10_000),
});
/** Everything of this stream up to this number is on the receiver's disk. */
export const acknowledged = z.strictObject({
  type: z.literal('acknowledged'),
  stream: streamId,
  number: z.number().int().nonnegative(),
});
export const exchangeReply = z.strictObject({
  type: z.literal('exchange-reply'),
  sentStationS: finite,
  receivedReceiverS: finite,
  repliedReceiverS: finite,
});
/** What the simulated vessel shall do: weights at their places after being carried, disturbances, pace. */
export const simulate = z.strictObject({
  type: z.literal('simulate'),
  state: z.number().int().nonnegative(),
  weights: z.array(z.strictObject({ weight: name, xM: finite, yM: finite, zM: finite })).max(24),
  disturbances: disturbanceSwitches,
  pace: z.number().min(1).max(50),
  /** People set her rolling once, from now on, and stand still. */
  sway: z.boolean().optional(),
});
export const refused = z.strictObject({
  type: z.literal('refused'),
  code: z.string().max(40),
  where: z.string().max(200),
  found: z.string().max(500),
});

export const fromReceiver = z.discriminatedUnion('type', [
  welcome,
  acknowledged,
  exchangeReply,
  simulate,
  refused,
]);

export type Hello = z.infer<typeof hello>;
export type FromStation = z.infer<typeof fromStation>;
export type FromReceiver = z.infer<typeof fromReceiver>;
export type Simulate = z.infer<typeof simulate>;
export type StationDisk = z.infer<typeof stationDisk>;
export type SimulationStatus = z.infer<typeof simulationStatus>;
