/** Why a figure could not be had. */
export const UNKNOWN = {
  'levers-too-short': 'the righting levers do not reach the heel this asks for',
  'windage-not-given': 'what the wind sees of her is not given',
  'moment-not-given': 'the heeling moment is not given for this condition',
  'heel-not-read': 'no heel was read under this moment',
  'particulars-not-given': 'a particular of the vessel is not given',
  'freeboard-not-known': 'the freeboard at that heel is not known',
  'outside-validity': 'the formula does not hold for her',
  'not-computed': 'this is not computed here and must be shown otherwise',
} as const;
export type UnknownCode = keyof typeof UNKNOWN;

/** What a reader must know beside a figure. */
export const NOTES = {
  'none-within-reach': 'does not come under as far as she was heeled',
  'floods-before': 'she floods before the heel from which this counts',
  'positive-to-the-end': 'the lever is positive as far as it is known',
  'no-rest': 'she finds no rest under this moment',
  'as-read': 'as read in the heel test',
} as const;
export type NoteCode = keyof typeof NOTES;

/** A figure in m, m rad, degrees or times. */
export interface Known {
  readonly known: true;
  readonly value: number;
  readonly note: NoteCode | null;
  /** The true value may be larger, since levers end here. */
  readonly atLeast: boolean;
  /** A figure from memory went into it. */
  readonly fromMemory: boolean;
}

export interface Unknown {
  readonly known: false;
  readonly code: UnknownCode;
  /** Which particular, moment or range, with the value. */
  readonly detail: string;
}
export type Answer = Known | Unknown;

export function known(value: number, more: Partial<Omit<Known, 'known' | 'value'>> = {}): Known {
  return { known: true, value, note: null, atLeast: false, fromMemory: false, ...more };
}

export function unknown(code: UnknownCode, detail: string): Unknown {
  return { known: false, code, detail };
}
