import { FAULTS } from '#core/fault/fault.ts';
import type { SessionState } from '#core/session/session.ts';

/** Faults of one kind at one place, told once. */
export interface FaultTold {
  readonly key: string;
  readonly means: string;
  readonly remedy: string;
  readonly where: string;
  /** What was found there the last time. */
  readonly found: string;
  readonly times: number;
  readonly lastWall: string;
}

const UNKNOWN_FAULT = {
  means: 'a fault this screen has no words for',
  remedy: 'Use the same version on both sides.',
};

/** Newest kind first. */
export function faultsTold(session: SessionState): FaultTold[] {
  const told = new Map<string, FaultTold>();
  const table: Readonly<Record<string, { means: string; remedy: string }>> = FAULTS;
  for (const fault of session.faults) {
    const key = `${fault.code} ${fault.where}`;
    const { means, remedy } = table[fault.code] ?? UNKNOWN_FAULT;
    const times = (told.get(key)?.times ?? 0) + 1;
    told.delete(key);
    told.set(key, {
      key,
      means: `${means.charAt(0).toUpperCase()}${means.slice(1)}:`,
      remedy,
      where: fault.where,
      found: fault.found,
      times,
      lastWall: fault.written.wall,
    });
  }
  return [...told.values()].reverse();
}
