import { z } from 'zod';
import { Fault } from '../fault/fault.ts';
import type { ToScreen } from './screen-message.ts';

/**
 * What a screen asks of a message before it shows it: every part a page reads is there and of its
 * kind. Fields unknown here are let through, since a screen only shows.
 */
export const MOST_TO_SCREEN_BYTES = 8 * 1024 * 1024;

const finite = z.number();
const text = z.string();
const verdict = z.enum(['steady', 'settling', 'disturbed', 'silent']);
const estimate = z
  .looseObject({
    heelDeg: finite,
    standardErrorDeg: finite,
    // Infinity has no place in JSON: null is not limited by a count of readings.
    degreesOfFreedom: finite.nullable(),
    halfWidth95Deg: finite,
  })
  .nullable();

const live = z.looseObject({
  type: z.literal('live'),
  receiverS: finite,
  wall: text,
  whole: z.boolean(),
  instruments: z.array(
    z.looseObject({
      instrument: text,
      label: text,
      verdict,
      reason: text,
      estimate,
      refused: text.nullable(),
      temperatureC: finite.nullable(),
      trace: z.looseObject({ atS: z.array(finite), heelDeg: z.array(finite.nullable()) }),
    }),
  ),
  joined: z.looseObject({
    verdict,
    reason: text,
    estimate,
    readable: z.boolean(),
    whyNot: text.nullable(),
    countedS: finite,
    remainingS: finite.nullable(),
  }),
  notUsed: z.array(
    z.looseObject({
      fromS: finite,
      toS: finite,
      kind: text,
      instruments: z.array(text).nullable(),
    }),
  ),
  simulation: z
    .looseObject({
      paceAsked: finite,
      paceHeld: finite,
      carrying: z.array(text),
      settledState: finite,
      connected: z.boolean(),
    })
    .nullable(),
  notRecording: text.nullable(),
  saved: z.looseObject({ wall: text, line: finite, head: text }),
  stations: z.array(
    z.looseObject({ station: text, connected: z.boolean(), uncertaintyS: finite.nullable() }),
  ),
});

const parts = z.array(z.looseObject({}));
const state = z.looseObject({
  type: z.literal('state'),
  state: z.looseObject({
    record: text.nullable(),
    lines: finite,
    test: z.looseObject({ test: text, vessel: text }).nullable(),
    corrected: z.array(
      z.looseObject({
        line: finite,
        asWritten: z.looseObject({ kind: text, body: z.looseObject({}) }),
        corrections: parts,
      }),
    ),
    replacedCertificates: parts,
    simulation: z.looseObject({ seed: finite }).nullable(),
    mountings: parts,
    certificates: parts,
    signs: parts,
    streams: parts,
    faults: parts,
    weightsAt: z.record(text, z.looseObject({ xM: finite, yM: finite, zM: finite })),
    awaits: z.enum(['test', 'reading', 'landing', 'shift', 'nothing']),
    states: z.array(
      z.looseObject({
        state: finite,
        moves: parts,
        heelingMomentTM: finite,
        voided: parts,
        putBack: parts,
        handReadings: parts,
      }),
    ),
    disturbances: parts,
    rollRuns: parts,
    survey: z.looseObject({ entries: parts, photographs: parts }),
    timeMarks: parts,
    remarks: parts,
    laptop: z.array(
      z.looseObject({ state: z.looseObject({ matter: text, found: text, sinceS: finite }) }),
    ),
    people: z.looseObject({
      admitted: parts,
      asks: z.array(z.looseObject({ what: text, text, answers: parts })),
      receipts: parts,
      seals: z.array(z.looseObject({ reason: text, signatures: parts })),
    }),
    postponed: z.looseObject({ reason: text }).nullable(),
    pauses: parts,
    closed: z.looseObject({}).nullable(),
  }),
});

const answer = z.looseObject({
  type: z.literal('answer'),
  id: text,
  refused: z.looseObject({ code: text, found: text, remedy: text }).nullable(),
});

const invitation = z.looseObject({
  type: z.literal('invitation'),
  id: text,
  role: text,
  code: text,
  words: z.array(text),
  wordsForS: finite,
  codeForS: finite,
  addresses: z.array(z.looseObject({ interface: text, url: text })),
  fingerprint: text.nullable(),
  keyFingerprint: text.nullable(),
});

const people = z.looseObject({
  type: z.literal('people'),
  people: z.array(
    z.looseObject({ person: text, role: text, name: text, admitted: text, ways: z.array(text) }),
  ),
});

const hull = z.looseObject({
  type: z.literal('hull'),
  line: finite.nullable(),
  hull: z.looseObject({ form: text, file: text, text }).nullable(),
});

const reduction = z.looseObject({
  type: z.literal('reduction'),
  reduction: z.looseObject({
    lines: finite,
    byHull: z.boolean(),
    reduction: z.looseObject({ heelwrightReduction: z.literal(1) }).nullable(),
    refused: z.looseObject({ code: text, found: text }).nullable(),
  }),
});

const TYPES = { live, state, answer, invitation, people, hull, reduction } as const;

/**
 * A message of the receiver, checked. Throws a Fault: `message-too-large`, `message-malformed`
 * (no JSON, or not of the form), `message-unknown`.
 */
export function readToScreen(message: string): ToScreen {
  if (message.length > MOST_TO_SCREEN_BYTES)
    throw new Fault('message-too-large', 'from the receiver', `${message.length} characters`);
  const parsed = jsonOf(message);
  const type = (parsed as { type?: unknown } | null)?.type;
  if (typeof type !== 'string' || !Object.hasOwn(TYPES, type))
    throw new Fault('message-unknown', 'from the receiver', String(type).slice(0, 40));
  const checked = TYPES[type as keyof typeof TYPES].safeParse(parsed);
  if (!checked.success) {
    const [issue] = checked.error.issues;
    const where = `${type}: ${issue?.path.join('.') ?? ''}`.slice(0, 200);
    throw new Fault('message-malformed', where, issue?.message ?? 'not of the form');
  }
  // The parsed value itself, not a copy of the fields checked.
  return parsed as ToScreen;
}

function jsonOf(message: string): unknown {
  try {
    return JSON.parse(message);
  } catch {
    throw new Fault('message-malformed', 'from the receiver', message.slice(0, 40));
  }
}
