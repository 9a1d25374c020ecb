import { z } from 'zod';

const text = z.string().min(1).max(500);
const name = z.string().min(1).max(64);
const line = z.number().int().nonnegative();
const role = z.enum(['architect', 'witness', 'technician', 'device']);

/** SHA-256, Ed25519 public key and signature as they stand in lines. */
export const digestHex = z.string().regex(/^[0-9a-f]{64}$/);
export const publicKeyText = z.string().regex(/^[A-Za-z0-9_-]{43}$/);
export const signatureText = z.string().regex(/^[A-Za-z0-9_-]{86}$/);
/** First eight hex digits of the SHA-256 of a token: tells one bearer's from another's, opens nothing. */
export const personId = z.string().regex(/^[0-9a-f]{8}$/);

/** Somebody may act in a role from now on; `way` says how they came in. */
export const personAdmitted = z.strictObject({
  person: personId,
  role,
  name,
  way: z.string().min(1).max(100),
});

/** What the witness wants settled; it stays open, and is printed, until it is answered. */
export const witnessAsked = z.strictObject({
  what: z.enum(['repeat', 'objection']),
  text: z.string().min(1).max(2000),
  /** The line it is about: a reading, a shift, a rejected stretch; null: the test as a whole. */
  line: line.nullable(),
});

/** Somebody's own key says: so far had the record come when I saw it. */
export const receiptTaken = z.strictObject({
  lines: line.min(1),
  /** SHA-256 of the last of these lines. */
  head: digestHex,
  publicKey: publicKeyText,
  /** Of `receiptSignedText`. */
  signature: signatureText,
});

/** Lines about people: who may act, what they say to each other, receipts, seals and signatures. */
export const PEOPLE_LINES = {
  'person-admitted': personAdmitted,
  'access-withdrawn': z.strictObject({ person: personId, role, name }),
  'witness-asked': witnessAsked,
  'witness-answered': z.strictObject({ line, text: z.string().min(1).max(2000) }),
  'receipt-taken': receiptTaken,
  /** Everything up to and with this line is what signatures are of. */
  seal: z.strictObject({ reason: text }),
  signature: z.strictObject({
    /** Number of the seal's line. */
    seal: line,
    publicKey: publicKeyText,
    signature: signatureText,
  }),
  /** A technician may work on instruments during the test from now on, or no more. */
  'technician-work': z.strictObject({ allowed: z.boolean(), reason: text }),
} as const;
