import { z } from 'zod';
import { type Calibration, calibrationOf } from './calibration.ts';
import { calibrationInput } from './calibration-input.ts';

const MOST_TEXT = 200;
const text = z.string().max(MOST_TEXT);
const number = z.number();
const way = z.enum(['up', 'down']);

/**
 * A calibration on its way: what was typed stands as it was typed, what was read as a number. It
 * lies in the browser until it is a certificate; whatever else lies there is no draft.
 */
export const calibrationDraft = z.strictObject({
  v: z.literal(1),
  instrument: z.string().min(1).max(64),
  kind: z.enum(['inclinometer', 'water-tube']),
  texts: z.record(z.string().max(40), text),
  /** Height in mm (of a tube the difference), and what was shown in degrees (mm). */
  points: z
    .array(
      z.strictObject({ set: number, shown: number, way, run: z.number().int().min(1).max(20) }),
    )
    .max(500),
  reversal: z.array(z.strictObject({ firstDeg: number, turnedDeg: number })).max(50),
  sixPositions: z
    .array(z.strictObject({ axis: z.enum(['x', 'y', 'z']), upG: number, downG: number }))
    .max(3),
  temperatureRun: z.array(z.strictObject({ temperatureC: number, indicated: number })).max(5000),
  step: z.array(z.strictObject({ timeS: number, indicatedMm: number })).max(5000),
  /** Standard deviation of single samples at rest, degrees or mm; null: not read. */
  noise: number.nonnegative().nullable(),
  temperatureC: number.nullable(),
});
export type CalibrationDraft = z.infer<typeof calibrationDraft>;

/** Inclinations a bar is set to, degrees, and differences of a tube's levels, mm; both ways, twice. Ours. */
const ANGLES_DEG = [-4, -3, -2, -1, -0.5, 0, 0.5, 1, 2, 3, 4] as const;
const DIFFERENCES_MM = [-320, -240, -160, -80, -40, 0, 40, 80, 160, 240, 320] as const;
const RUNS = 2;

export interface Setting {
  readonly set: number;
  readonly way: 'up' | 'down';
  readonly run: number;
}

/** What is to be set, in order: up and down, twice. Heights in whole hundredths of a millimetre. */
export function settingsOf(kind: CalibrationDraft['kind'], lengthMm: number): Setting[] {
  const values =
    kind === 'water-tube'
      ? [...DIFFERENCES_MM]
      : ANGLES_DEG.map((deg) => Math.round(100 * lengthMm * Math.sin((deg * Math.PI) / 180)) / 100);
  return Array.from({ length: RUNS }, (_, k) => k + 1).flatMap((run) => [
    ...values.map((set) => ({ set, way: 'up' as const, run })),
    ...values.toReversed().map((set) => ({ set, way: 'down' as const, run })),
  ]);
}

/** What a typed number is; null where nothing is typed, NaN where it is none. */
export function typedNumber(typed: string | undefined): number | null {
  const trimmed = (typed ?? '').trim().replace(',', '.').replace('\u2212', '-');
  if (trimmed === '') return null;
  return /^[-+]?(\d+\.?\d*|\.\d+)$/.test(trimmed) ? Number(trimmed) : Number.NaN;
}

export type DraftReckoned =
  | { readonly calibration: Calibration; readonly whyNot: null }
  | { readonly calibration: null; readonly whyNot: string };

/**
 * What is known of the instrument without asking: what and where it is while it answers (null: it
 * does not, and both are typed), and the certificate before.
 */
export interface FoundInstrument {
  readonly part: string | null;
  readonly board: string | null;
  readonly asFound: { readonly zero: number; readonly scale: number } | null;
}

/** The draft reckoned by the same arithmetic as the command, or what it lacks, in words. */
export function reckonDraft(draft: CalibrationDraft, found: FoundInstrument): DraftReckoned {
  const checked = calibrationInput.safeParse(inputOf(draft, found));
  if (!checked.success) {
    const [issue] = checked.error.issues;
    return { calibration: null, whyNot: `${issue?.path.join('.')}: ${issue?.message}` };
  }
  try {
    return { calibration: calibrationOf(checked.data), whyNot: null };
  } catch (error) {
    if (!(error instanceof Error)) throw error;
    return { calibration: null, whyNot: error.message };
  }
}

function inputOf(draft: CalibrationDraft, { part, board, asFound }: FoundInstrument) {
  const { texts, kind, temperatureRun, temperatureC, instrument } = draft;
  const typed = (name: string): string | undefined => {
    const trimmed = texts[name]?.trim() ?? '';
    return trimmed === '' ? undefined : trimmed;
  };
  const value = (name: string): number | undefined => typedNumber(texts[name]) ?? undefined;
  const [serial, seal, gravityMS2] = [typed('serial'), typed('seal'), value('gravityMS2')];
  const common = {
    number: typed('number'),
    item: {
      ...{ instrument, part: part ?? typed('part'), board: board ?? typed('board') },
      ...{ bus: typed('bus'), address: typed('address') },
      ...(serial !== undefined && { serial }),
      ...(seal !== undefined && { seal }),
    },
    madeBy: typed('madeBy'),
    place: typed('place'),
    date: typed('date'),
    temperatureC,
    ...(gravityMS2 !== undefined && { gravityMS2 }),
    ...(temperatureRun.length > 0 && { temperatureRun }),
    ...(asFound !== null && { asFound: { zero: asFound.zero, scale: asFound.scale } }),
  };
  return kind === 'inclinometer'
    ? { kind, ...common, ...inclinometerPart(draft, typed, value) }
    : { kind, ...common, ...waterTubePart(draft, typed, value) };
}

type Typed = (name: string) => string | undefined;
type Value = (name: string) => number | undefined;

function inclinometerPart(draft: CalibrationDraft, typed: Typed, value: Value) {
  const alignment = ['portMm', 'starboardMm', 'apartMm', 'uncertaintyMm'];
  return {
    standard: {
      kind: 'sine-bar',
      number: typed('standard'),
      lengthMm: value('lengthMm'),
      lengthUncertaintyMm: value('lengthUncertaintyMm'),
      heightUncertaintyMm: value('heightUncertaintyMm'),
    },
    points: draft.points.map(({ set, shown, way: up, run }) => ({
      ...{ heightMm: set, indicatedDeg: shown, way: up, run },
    })),
    ...(draft.reversal.length > 0 && { reversal: draft.reversal }),
    ...(draft.sixPositions.length > 0 && { sixPositions: draft.sixPositions }),
    ...(alignment.some((name) => typed(name) !== undefined) && {
      alignment: Object.fromEntries(alignment.map((name) => [name, value(name)])),
    }),
    ...(draft.noise !== null && { noiseDeg: draft.noise }),
  };
}

function waterTubePart(draft: CalibrationDraft, typed: Typed, value: Value) {
  return {
    standard: {
      kind: 'gauge-blocks',
      number: typed('standard'),
      settingUncertaintyMm: value('settingUncertaintyMm'),
      commonUncertaintyShare: value('commonUncertaintyShare'),
    },
    points: draft.points.map(({ set, shown, way: up, run }) => ({
      ...{ differenceMm: set, indicatedMm: shown, way: up, run },
    })),
    ...(draft.step.length > 0 && { step: draft.step }),
    ...(draft.noise !== null && { noiseMm: draft.noise }),
  };
}
