import { z } from 'zod';

const text = z.string().min(1).max(500);
const name = z.string().min(1).max(64);

export const LAPTOP_MATTERS = ['battery', 'disk', 'clock', 'link', 'folder', 'sleep'] as const;
export type LaptopMatter = (typeof LAPTOP_MATTERS)[number];

/** How the receiver's machine, or its link to a station, stands: a line when it changes and no more. */
export const laptopState = z.strictObject({
  matter: z.enum(LAPTOP_MATTERS),
  /** The station whose link it is, or whose disk; null: this machine. */
  station: name.nullable(),
  severity: z.enum(['well', 'notice']),
  found: text,
  /** Receiver time from which on it was found so. */
  sinceS: z.number(),
});
export type LaptopState = z.infer<typeof laptopState>;
