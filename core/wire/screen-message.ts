import { z } from 'zod';
import { correction } from '../record/correction.ts';
import { disturbanceSwitches, handReading } from '../record/line.ts';
import { certificate } from '../sample/certificate.ts';
import type { SessionState } from '../session/session.ts';
import type { HeelEstimate, Verdict } from '../steadiness/estimate.ts';

/**
 * Between the receiver and a screen: WebSocket text messages at `/screen`.
 * A screen sends `hello` and acts; it is sent the whole session state whenever it changes, the
 * live picture ten times a second (latest only), and an answer to each act.
 */
export const SCREEN_VERSION = 1;
export const MOST_SCREEN_MESSAGE_BYTES = 64 * 1024;
const name = z.string().min(1).max(64);
const id = z.string().min(1).max(40);

export const act = z.discriminatedUnion('kind', [
  /** Take the next shift of the plan (or the moves given): weights are about to be carried. */
  z.strictObject({ kind: z.literal('begin-shift') }),
  z.strictObject({ kind: z.literal('weight-landed') }),
  z.strictObject({ kind: z.literal('take-reading') }),
  z.strictObject({
    kind: z.literal('void-reading'),
    line: z.number().int().nonnegative(),
    reason: z.string().trim().min(1).max(500),
  }),
  /** What was entered wrongly in an earlier line; also after the test is closed. */
  z.strictObject({ kind: z.literal('correct'), correction }),
  /** Sets aside what an earlier line decided: see the line `overruled`. */
  z.strictObject({
    kind: z.literal('overrule'),
    line: z.number().int().nonnegative(),
    reason: z.string().trim().min(1).max(500),
  }),
  z.strictObject({
    kind: z.literal('replace-certificate'),
    certificate,
    reason: z.string().trim().min(1).max(500),
  }),
  z.strictObject({ kind: z.literal('hand-reading'), reading: handReading }),
  /** Runs of free roll since the last one recorded; or the one between two receiver times. */
  z.strictObject({
    kind: z.literal('look-for-roll'),
    marked: z.strictObject({ fromS: z.number(), toS: z.number() }).nullable(),
  }),
  z.strictObject({
    kind: z.literal('refuse-roll-run'),
    line: z.number().int().nonnegative(),
    reason: z.string().trim().min(1).max(500),
  }),
  z.strictObject({
    kind: z.literal('remark'),
    text: z.string().trim().min(1).max(2000),
    line: z.number().int().nonnegative().nullable(),
  }),
  z.strictObject({ kind: z.literal('close-test'), reason: z.string().trim().min(1).max(500) }),
  /** Simulated vessel only. */
  z.strictObject({
    kind: z.literal('simulation'),
    pace: z.number().min(1).max(50),
    disturbances: disturbanceSwitches,
  }),
  /** Simulated vessel only: people set her rolling once and stand still. */
  z.strictObject({ kind: z.literal('simulate-sway') }),
]);
export type Act = z.infer<typeof act>;

export const fromScreen = z.discriminatedUnion('type', [
  z.strictObject({
    type: z.literal('hello'),
    version: z.literal(SCREEN_VERSION),
    name,
    role: z.enum(['architect', 'witness', 'technician']),
  }),
  z.strictObject({ type: z.literal('act'), id, act }),
]);
export type FromScreen = z.infer<typeof fromScreen>;

/** One instrument as it is now. Trace times are receiver seconds; null heel is a missing sample. */
export interface LiveInstrument {
  readonly instrument: string;
  readonly label: string;
  readonly verdict: Verdict;
  readonly reason: string;
  readonly estimate: HeelEstimate | null;
  /** Why it is not used for GM, or null. */
  readonly refused: string | null;
  readonly temperatureC: number | null;
  /** New smoothed samples since the last live message (10 a second of test time). */
  readonly trace: { readonly atS: readonly number[]; readonly heelDeg: readonly (number | null)[] };
}

export interface LivePicture {
  readonly type: 'live';
  readonly receiverS: number;
  readonly wall: string;
  /** True: the traces hold the last two minutes whole (first message); false: only what is new. */
  readonly whole: boolean;
  readonly instruments: readonly LiveInstrument[];
  readonly joined: {
    readonly verdict: Verdict;
    readonly reason: string;
    readonly estimate: HeelEstimate | null;
    /** May a reading be taken now, and if not why. */
    readonly readable: boolean;
    readonly whyNot: string | null;
    readonly countedS: number;
    /** Seconds still to count until a reading is offered, if that can be said. */
    readonly remainingS: number | null;
  };
  /** Stretches not used, newest last, of the last two minutes. */
  readonly notUsed: readonly {
    fromS: number;
    toS: number;
    kind: string;
    instruments: readonly string[] | null;
  }[];
  readonly simulation: {
    readonly paceAsked: number;
    readonly paceHeld: number;
    readonly carrying: readonly string[];
    readonly settledState: number;
    readonly connected: boolean;
  } | null;
  /** Why nothing reaches the disk of the record now, in words; null while it does. */
  readonly notRecording: string | null;
  readonly saved: { readonly wall: string; readonly line: number; readonly head: string };
  readonly stations: readonly {
    station: string;
    connected: boolean;
    uncertaintyS: number | null;
  }[];
}

export interface StateMessage {
  readonly type: 'state';
  readonly state: SessionState;
}
export interface ActAnswer {
  readonly type: 'answer';
  readonly id: string;
  readonly refused: {
    readonly code: string;
    readonly found: string;
    readonly remedy: string;
  } | null;
}
export type ToScreen = LivePicture | StateMessage | ActAnswer;
