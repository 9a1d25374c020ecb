import { type CalibrationDraft, calibrationDraft } from '#core/calibration/calibration-draft.ts';

/** What of the browser's own store is used. */
export type Kept = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

const keyOf = (instrument: string) => `heelwright-calibration-${instrument}`;

export function newDraft(
  instrument: string,
  kind: CalibrationDraft['kind'],
  date: string,
): CalibrationDraft {
  return {
    v: 1,
    instrument,
    kind,
    texts: { date, bus: 'I2C' },
    points: [],
    reversal: [],
    sixPositions: [],
    temperatureRun: [],
    step: [],
    noise: null,
    temperatureC: null,
  };
}

/** The draft as it was left, also over a reload; a new one where there is none that can be read. */
export function draftOf(
  kept: Kept,
  of: { instrument: string; kind: CalibrationDraft['kind']; date: string },
): CalibrationDraft {
  const { instrument, kind, date } = of;
  const fresh = newDraft(instrument, kind, date);
  const text = kept.getItem(keyOf(instrument));
  if (text === null) return fresh;
  try {
    const checked = calibrationDraft.safeParse(JSON.parse(text));
    return checked.success && checked.data.kind === kind ? checked.data : fresh;
  } catch {
    return fresh;
  }
}

/** False: the browser has no room for it; what is on the screen is then all there is. */
export function keepDraft(kept: Kept, draft: CalibrationDraft): boolean {
  try {
    kept.setItem(keyOf(draft.instrument), JSON.stringify(draft));
    return true;
  } catch {
    return false;
  }
}

export function forgetDraft(kept: Kept, instrument: string): void {
  kept.removeItem(keyOf(instrument));
}
