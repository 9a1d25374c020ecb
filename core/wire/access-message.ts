import { z } from 'zod';
import type { ROLES } from '../record/line.ts';

/**
 * The first messages of every connection, a screen's and a board side's alike: who asks, and
 * whether they may. Nothing else is heard before.
 */
export const ACCESS_VERSION = 1;
/** An unknown connection gets so much of our attention and no more. */
export const MOST_ACCESS_BYTES = 1024;
export const ACCESS_WITHIN_S = 5;

/** Roles a person or a board side can be admitted in. */
export const ADMITTED_ROLES = [
  'architect',
  'witness',
  'technician',
  'device',
] as const satisfies readonly (typeof ROLES)[number][];
export type AdmittedRole = (typeof ADMITTED_ROLES)[number];

/** 128 bits in base64url. */
export const INVITATION_CODE = /^[A-Za-z0-9_-]{22}$/;
/** 256 bits in base64url. */
const TOKEN = /^[A-Za-z0-9_-]{43}$/;
const version = z.literal(ACCESS_VERSION);
/** Under what name acts are recorded; an empty one is replaced by the role's word. */
const name = z.string().trim().max(64);
/** A screen that reads a pendulum by eye is sent no heel of the sensors from the first message on. */
const blind = z.literal(true).optional();

export const fromUnknown = z.discriminatedUnion('type', [
  z.strictObject({
    type: z.literal('token'),
    version,
    token: z.string().regex(TOKEN),
    name,
    blind,
  }),
  z.strictObject({
    type: z.literal('invited'),
    version,
    code: z.string().regex(INVITATION_CODE),
    name,
    blind,
  }),
  /** Four words read from another screen. */
  z.strictObject({
    type: z.literal('invited-by-words'),
    version,
    words: z.string().min(1).max(100),
    name,
    blind,
  }),
]);
export type FromUnknown = z.infer<typeof fromUnknown>;

export const admitted = z.strictObject({
  type: z.literal('admitted'),
  role: z.enum(ADMITTED_ROLES),
  name: z.string().min(1).max(64),
  /** What opens from now on, given once; null where a token opened. */
  token: z.string().regex(TOKEN).nullable(),
  /** Random, of this connection: a board side signs it in its greeting. */
  challenge: z.string().regex(TOKEN),
});
export type Admitted = z.infer<typeof admitted>;

export const notAdmitted = z.strictObject({
  type: z.literal('not-admitted'),
  code: z.string().max(40),
  found: z.string().max(500),
  remedy: z.string().max(500),
});
export type NotAdmitted = z.infer<typeof notAdmitted>;
