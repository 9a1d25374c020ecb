import { z } from 'zod';
import { correction } from '../record/correction.ts';
import { entryLine, type HullText, photographLine } from '../record/entry-line.ts';
import { disturbanceSwitches } from '../record/line.ts';
import {
  personId,
  publicKeyText,
  receiptTaken,
  signatureText,
  witnessAsked,
} from '../record/people-line.ts';
import { handReading } from '../record/reading-line.ts';
import { rollConditionLine } from '../record/roll-line.ts';
import { certificate } from '../sample/certificate.ts';
import { signConfirmed } from '../sample/sign-confirmed.ts';
import type { DayReduction } from '../session/day-reduction.ts';
import type { SessionState } from '../session/session.ts';
import type { HeelEstimate, Verdict } from '../steadiness/estimate.ts';
import { ADMITTED_ROLES, type AdmittedRole } from './access-message.ts';

/**
 * Between the receiver and a screen: WebSocket text messages at `/screen`.
 * Once admitted, a screen sends acts; it is sent the whole session state whenever it changes, the
 * live picture ten times a second (latest only), and an answer to each act.
 */
/** A photograph of a megabyte in base64, or the text of a hull, with what stands around them. */
export const MOST_SCREEN_MESSAGE_BYTES = 1536 * 1024;
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
  z.strictObject({
    kind: z.literal('remount-instrument'),
    instrument: z.string().min(1).max(64),
    certificate: certificate.nullable(),
    reason: z.string().trim().min(1).max(500),
  }),
  z.strictObject({ kind: z.literal('confirm-sign'), told: signConfirmed }),
  z.strictObject({ kind: z.literal('hand-reading'), reading: handReading }),
  /** One moment that every instrument and every reader's sheet shows; the receiver numbers it. */
  z.strictObject({ kind: z.literal('mark-time'), words: z.string().trim().max(200) }),
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
  z.strictObject({ kind: z.literal('tell-roll-condition'), told: rollConditionLine }),
  /** One row of a sheet of the survey: see the line `entry`. */
  z.strictObject({ kind: z.literal('enter'), entry: entryLine }),
  z.strictObject({ kind: z.literal('photograph'), photograph: photographLine }),
  z.strictObject({
    kind: z.literal('remark'),
    text: z.string().trim().min(1).max(2000),
    line: z.number().int().nonnegative().nullable(),
  }),
  z.strictObject({ kind: z.literal('postpone-test'), reason: z.string().trim().min(1).max(500) }),
  /** `reason`: what was looked at before it goes on: lines, tanks, weights where they stood. */
  z.strictObject({ kind: z.literal('resume-test'), reason: z.string().trim().min(1).max(500) }),
  z.strictObject({ kind: z.literal('close-test'), reason: z.string().trim().min(1).max(500) }),
  /** The witness wants a reading again, or objects; open until the architect answers. */
  z.strictObject({ kind: z.literal('ask'), ...witnessAsked.shape }),
  z.strictObject({
    kind: z.literal('answer-witness'),
    line: z.number().int().nonnegative(),
    text: z.string().trim().min(1).max(2000),
  }),
  z.strictObject({ kind: z.literal('take-receipt'), ...receiptTaken.shape }),
  z.strictObject({ kind: z.literal('seal'), reason: z.string().trim().min(1).max(500) }),
  z.strictObject({
    kind: z.literal('sign'),
    seal: z.number().int().nonnegative(),
    publicKey: publicKeyText,
    signature: signatureText,
  }),
  z.strictObject({
    kind: z.literal('technician-work'),
    allowed: z.boolean(),
    reason: z.string().trim().min(1).max(500),
  }),
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
  z.strictObject({ type: z.literal('act'), id, act }),
  /** An architect lets somebody in; answered with an invitation to that screen alone. */
  z.strictObject({ type: z.literal('invite'), id, role: z.enum(ADMITTED_ROLES) }),
  /** An architect withdraws what was given; `person` as in `people`. */
  z.strictObject({ type: z.literal('withdraw'), id, person: personId }),
  /**
   * A pendulum is read by eye here: until it says otherwise this screen is sent no heel, estimate
   * or reading of the sensors of the last state. Answered like an act.
   */
  z.strictObject({ type: z.literal('blind'), id, blind: z.boolean() }),
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
    /** Standard error of the heel after one more counted minute; null: cannot be said. */
    readonly inAMinuteDeg: number | null;
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

/** An invitation, shown once on the screen that asked for it. */
export interface InvitationMessage {
  readonly type: 'invitation';
  readonly id: string;
  readonly role: AdmittedRole;
  /** Stands behind `#` in an address, where no server ever sees it. */
  readonly code: string;
  readonly words: readonly string[];
  /** Wall seconds the words and the code stay valid. */
  readonly wordsForS: number;
  readonly codeForS: number;
  /** Where this role can come in, best first; a board side's are its receiver's addresses. */
  readonly addresses: readonly { readonly interface: string; readonly url: string }[];
  /** Of the TLS certificate, as browsers show it; null where TLS is off. */
  readonly fingerprint: string | null;
  /** SHA-256 of its public key, which a board side pins. */
  readonly keyFingerprint: string | null;
}

/** Who can come in and who is in; to architects only. */
export interface PeopleMessage {
  readonly type: 'people';
  readonly people: readonly {
    readonly person: string;
    readonly role: AdmittedRole;
    readonly name: string;
    readonly admitted: string;
    /** Connections open now, in words. */
    readonly ways: readonly string[];
  }[];
}
/** The hull as entered; the session tells only that there is one, so that its text is not sent anew each time. */
export interface HullMessage {
  readonly type: 'hull';
  /** Number of its line; null: none is entered. */
  readonly line: number | null;
  readonly hull: HullText | null;
}
/** The day reduced as a whole, made anew when readings or entries change. */
export interface ReductionMessage {
  readonly type: 'reduction';
  readonly reduction: DayReduction;
}
export type ToScreen =
  | LivePicture
  | StateMessage
  | ActAnswer
  | InvitationMessage
  | PeopleMessage
  | HullMessage
  | ReductionMessage;
