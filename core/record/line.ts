import { z } from 'zod';
import { certificate, mounting } from '../sample/certificate.ts';
import { signConfirmed } from '../sample/sign-confirmed.ts';
import {
  boardClock,
  sampleBlock,
  streamClosed,
  streamFault,
  streamOpened,
} from '../sample/stream-item.ts';
import { correction } from './correction.ts';
import { entryLine, photographLine } from './entry-line.ts';
import { laptopState } from './laptop-line.ts';
import { PEOPLE_LINES } from './people-line.ts';
import { handReading, reading, timeMark } from './reading-line.ts';
import { rollConditionLine, rollRunLine } from './roll-line.ts';

/**
 * A line of the record: exact UTF-8 JSON and one newline,
 * `{"n":12,"kind":"reading","v":1,"prev":"<sha-256 of the line before, hex>","wall":"<ISO>",
 *   "receiverS":123.4,"author":"...","role":"...","body":{...}}`
 * `prev` is the SHA-256 of the previous line's bytes with its newline; of line 0 it is 64 zeros.
 * The body of a stream item is the item's own bytes, spliced in unchanged.
 */
export const RECORD_FORMAT = 1;
export const MOST_LINE_BYTES = 2 * 1024 * 1024;
export const FIRST_PREV = '0'.repeat(64);

const text = z.string().min(1).max(500);
const name = z.string().min(1).max(64);
const finite = z.number();
const line = z.number().int().nonnegative();

export const ROLES = [
  'architect',
  'witness',
  'technician',
  'device',
  'receiver',
  'simulator',
] as const;
export type Role = (typeof ROLES)[number];

/** Ship axes: x forward of the after perpendicular, y to starboard, z over the baseline. */
const place = z.strictObject({ xM: finite, yM: finite, zM: finite });
export type Place = z.infer<typeof place>;

export const testOpened = z.strictObject({
  test: name,
  vessel: name,
  at: z.string().max(100),
  mode: z.enum(['demo', 'rehearsal', 'test']),
  particulars: z.strictObject({
    displacementT: z.number().positive(),
    displacementUncertaintyT: z.number().nonnegative(),
    /** Height of the metacentre over the baseline, upright, as inclined; null when not yet known. */
    kmM: z.number().positive().nullable(),
    kmUncertaintyM: z.number().nonnegative().nullable(),
    /** c2 of the metacentre's movement: apparent GM of one shift reads GM + c2 tan2(heel). Null: unknown. */
    metacentreMovementM: finite.nullable(),
    /** The architect's guess before the first shift. */
    gmGuessM: z.number().positive(),
    gmGuessUncertaintyM: z.number().positive(),
    beamM: z.number().positive(),
    lengthM: z.number().positive(),
  }),
  weights: z
    .array(
      z.strictObject({
        weight: name,
        massT: z.number().positive(),
        massUncertaintyT: z.number().nonnegative(),
        certificate: z.string().max(100),
        at: place,
      }),
    )
    .max(24),
  /** Each heel is read to this standard error, whatever the rest is worth. Missing: as the rest asks. */
  readingStandardErrorDeg: z.number().positive().max(1).optional(),
  /** Standard uncertainty of a distance moved. */
  distanceUncertaintyM: z.number().nonnegative(),
  /** The shifts in order: which weights go where. */
  plan: z
    .array(
      z.strictObject({
        moves: z
          .array(z.strictObject({ weight: name, to: place }))
          .min(1)
          .max(8),
      }),
    )
    .max(40),
});
export type TestOpened = z.infer<typeof testOpened>;

export const disturbanceSwitches = z.strictObject({
  wind: z.boolean(),
  gusts: z.boolean(),
  wakes: z.boolean(),
  walking: z.boolean(),
  snaggedLine: z.boolean(),
});
export type DisturbanceSwitches = z.infer<typeof disturbanceSwitches>;

/** What a simulator declares of itself, so that nobody can take the day for a real one. */
export const simulation = z.strictObject({
  seed: z.number().int(),
  paceAsked: z.number().positive(),
  paceHeld: z.number().nonnegative(),
  disturbances: disturbanceSwitches,
  /** The answer the day should come near: fluid GM, upright, as inclined. */
  truth: z.strictObject({ gmFluidM: finite, displacementT: finite }),
});
export type Simulation = z.infer<typeof simulation>;

const move = z.strictObject({ weight: name, from: place, to: place });
export type Move = z.infer<typeof move>;

export const shiftBegun = z.strictObject({
  /** The state this shift leads to; state 0 is before any shift. */
  state: z.number().int().positive().max(99),
  moves: z.array(move).min(1).max(8),
  /** Moment of all weights moved since state 0, to starboard positive. */
  heelingMomentTM: finite,
  predictedHeelDeg: finite.nullable(),
  predictedStandardErrorDeg: finite.nullable(),
  /** Of that standard error; null: by the guess of GM, which no count of readings limits. */
  predictedDegreesOfFreedom: z.number().positive().nullable().optional(),
});

export const weightLanded = z.strictObject({
  state: z.number().int().positive(),
  landedS: finite,
  /**
   * Standard uncertainty of that time against the samples: of the maps that give those their
   * receiver time. Missing in older records, and where no sensor was there.
   */
  landedUncertaintyS: z.number().nonnegative().optional(),
});

export const disturbance = z.strictObject({
  fromS: finite,
  toS: finite,
  /** In a word: wake, gust, knock, silent, settling... */
  kind: z.string().min(1).max(40),
  /** Null: all instruments, so it was the vessel. */
  instruments: z.array(name).nullable(),
  evidence: z.string().max(300),
  /**
   * What rejected it: the estimator, and the lines there were when its run of the receiver began,
   * so that it can be found again. Missing in records made before rejections said so.
   */
  estimator: z.string().min(1).max(40).optional(),
  startedLines: line.optional(),
});
export type Disturbance = z.infer<typeof disturbance>;

/** Station monotonic time to receiver monotonic time, by exchange. `run` names one start of the station's program. */
export const stationClock = z.strictObject({
  station: name,
  run: name,
  stationS: finite,
  receiverS: finite,
  rate: z.number().positive(),
  uncertaintyS: z.number().nonnegative(),
  /** Standard uncertainty of the rate. Missing in records made before pairings said so. */
  rateUncertainty: z.number().nonnegative().optional(),
});

/**
 * What the estimator was told that no other line tells: it was started again and told the present
 * state anew, or a simulated vessel's weights were carried to their places once more (`lifted`)
 * and lie there (`began`). With it a replay tells the same in the same order.
 */
export const watching = z.strictObject({
  what: z.enum(['restarted', 'lifted', 'began']),
  atS: finite,
});
export type Watching = z.infer<typeof watching>;

/** From here on a heel is known well enough, and what knowing it better would buy. */
const stopTarget = z.strictObject({
  /** Standard error of the heel of each state at which waiting ends. */
  standardErrorDeg: z.number().positive(),
  /** Standard uncertainty of KG (of GM, where KM is not known) from everything but the angles. */
  restM: z.number().nonnegative(),
  /** What a standard error of one degree in every state would add to it. */
  mPerDeg: z.number().positive(),
  /** By repeated states, what each reading's standard error lacks: added to it from here on. */
  missingDeg: z.number().nonnegative(),
});
export type StopTarget = z.infer<typeof stopTarget>;

/** Kind of line, and the latest version of its body this program writes. */
export const LINE_BODIES = {
  'record-opened': z.strictObject({
    record: name,
    format: z.literal(RECORD_FORMAT),
    program: text,
  }),
  'test-opened': testOpened,
  simulation,
  certificate,
  /** Another certificate for an instrument that has one: readings are corrected anew by it. */
  'certificate-replaced': z.strictObject({ certificate, reason: text }),
  /** The sensor was put down anew, or another in its place: a zero of its own from here on. */
  'instrument-remounted': z.strictObject({
    instrument: name,
    /** Of another sensor; null: it is the same one, under the same certificate. */
    certificate: certificate.nullable(),
    reason: text,
  }),
  /** Starboard was pushed down and the instrument showed it: by the author of the line. */
  'sign-confirmed': signConfirmed,
  mounting,
  'station-clock': stationClock,
  'stream-opened': streamOpened,
  samples: sampleBlock,
  'board-clock': boardClock,
  'stream-fault': streamFault,
  'stream-closed': streamClosed,
  'shift-begun': shiftBegun,
  'weight-landed': weightLanded,
  reading,
  'reading-voided': z.strictObject({ line, reason: text }),
  'hand-reading': handReading,
  'time-mark': timeMark,
  disturbance,
  watching,
  'stop-target': stopTarget,
  'roll-run': rollRunLine,
  /** A person leaves a run of free roll out. */
  'roll-run-refused': z.strictObject({ line, reason: text }),
  'roll-condition': rollConditionLine,
  entry: entryLine,
  photograph: photographLine,
  correction,
  /**
   * What an earlier line decided is set aside: rejected time counts (line of the disturbance), a
   * voided reading is put back (line of the voiding), a correction falls away.
   */
  overruled: z.strictObject({ line, reason: text }),
  remark: z.strictObject({ text: z.string().min(1).max(2000), line: line.nullable() }),
  'laptop-state': laptopState,
  ...PEOPLE_LINES,
  'record-repaired': z.strictObject({ cutBytes: line, why: text }),
  /** Put off, perhaps to another day; what was read stands. */
  'test-postponed': z.strictObject({ reason: text }),
  /** Every instrument has a zero of its own from here on. */
  'test-resumed': z.strictObject({ reason: text }),
  'test-closed': z.strictObject({ reason: text }),
} as const;

export type LineKind = keyof typeof LINE_BODIES;
export type LineBody<K extends LineKind> = z.infer<(typeof LINE_BODIES)[K]>;

const envelope = {
  n: line,
  v: z.literal(1),
  prev: z.string().regex(/^[0-9a-f]{64}$/),
  wall: z.iso.datetime(),
  receiverS: finite,
  author: name,
  role: z.enum(ROLES),
};
export const lineEnvelope = z.strictObject({
  ...envelope,
  kind: z.string().max(40),
  body: z.unknown(),
});

/** One line, parsed. `receiverS` is the receiver's time of writing: it never goes back within a record. */
export type Line = {
  [K in LineKind]: {
    readonly n: number;
    readonly kind: K;
    readonly v: 1;
    readonly prev: string;
    readonly wall: string;
    readonly receiverS: number;
    readonly author: string;
    readonly role: Role;
    readonly body: LineBody<K>;
  };
}[LineKind];
