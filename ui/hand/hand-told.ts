import { FAULTS, Fault } from '#core/fault/fault.ts';
import { type Deflection, deflectionFromHandRead } from '#core/reading/deflection.ts';
import type { HandReading } from '#core/record/reading-line.ts';

/** The heel a hand reading gives, or in words why it gives none. */
export type HandTold =
  | { readonly deflection: Deflection; readonly why: null }
  | { readonly deflection: null; readonly why: string };

export function handTold(reading: HandReading): HandTold {
  try {
    return { deflection: deflectionFromHandRead(reading), why: null };
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    const { code, found } = error.report;
    return { deflection: null, why: `Gives no heel: ${FAULTS[code].means} (${found}).` };
  }
}
