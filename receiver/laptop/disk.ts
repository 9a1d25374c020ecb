import { statfs } from 'node:fs/promises';
import { type Finding, isBad } from './matter.ts';

/** A day's work of a test, ours; what is left must hold it, and half more before it is well again. */
export const DISK_BOUNDS = { badUnder: 8, wellFrom: 12 };
/** Record bytes in an hour of three boards, four channels, 50 Hz, with room (two emulated boards wrote 16 MB): used until a rate is known. */
const ASSUMED_BYTES_AN_HOUR = 32 * 1024 * 1024;
/** A slower day than this is a pause, and says nothing of the hours to come. */
const LEAST_BYTES_AN_HOUR = 1024 * 1024;
/** The rate is taken over this long, so that one commit does not swing it. */
const RATE_OVER_S = 300;
const S_AN_HOUR = 3600;

/** Bytes free to us, or null where the system does not tell. */
export type DiskReader = () => Promise<number | null>;

export function diskReader(folder: string): DiskReader {
  return async () => {
    try {
      const { bavail, bsize } = await statfs(folder);
      return bavail * bsize;
    } catch {
      return null;
    }
  };
}

/** How fast a record grows, from its length now and some minutes ago. */
export class GrowthRate {
  #marks: { atS: number; bytes: number }[] = [];

  /** Bytes an hour; assumed until a minute is seen. Times are wall seconds of the machine's monotonic clock. */
  bytesAnHour(atS: number, bytes: number): number {
    this.#marks = [...this.#marks.filter((mark) => mark.atS >= atS - RATE_OVER_S), { atS, bytes }];
    const first = this.#marks[0];
    if (first === undefined || atS - first.atS < 60) return ASSUMED_BYTES_AN_HOUR;
    const rate = ((bytes - first.bytes) / (atS - first.atS)) * S_AN_HOUR;
    return Math.max(rate, LEAST_BYTES_AN_HOUR);
  }
}

export function diskFinding(freeBytes: number | null, bytesAnHour: number, was: boolean): Finding {
  const well = { matter: 'disk', station: null, severity: 'well' } as const;
  if (freeBytes === null) return { ...well, found: 'the system does not tell what is free' };
  const hours = freeBytes / bytesAnHour;
  const found = `${Math.floor(freeBytes / 1_000_000)} MB free, ${words(hours)} at the present rate`;
  return { ...well, severity: isBad(hours, was, DISK_BOUNDS) ? 'notice' : 'well', found };
}

function words(hours: number): string {
  if (hours >= 100) return 'over 100 hours';
  if (hours < 1) return `${Math.floor(hours * 60)} minutes`;
  return `${hours.toFixed(1)} hours`;
}
