import { z } from 'zod';
import type { FaultReport } from '../fault/fault.ts';
import { surveyInput } from '../survey/survey-input.ts';
import { CANNOT_SHOW } from './cannot-show.ts';
import {
  floatContradictions,
  hullInput,
  tanksInput,
  waterInput,
  waterlineInput,
} from './float-input.ts';
import { MOST_INSTRUMENTS, MOST_STATES } from './line-model.ts';
import { seenSpace } from './seen-spaces.ts';

/**
 * An inclining test written down by hand. Any one consistent set of units: `units` only names
 * them (t and m when left out), nothing is converted. Starboard and up are positive. Every
 * uncertainty is one standard uncertainty; one that is left out counts as none and is said to.
 */
const name = z.string().trim().min(1).max(64);
const text = z.string().max(500);
const finite = z.number();
const share = z.number().nonnegative().max(0.5);
const measured = z.strictObject({ value: finite, standardUncertainty: z.number().nonnegative() });
const aboveZero = z.strictObject({
  value: z.number().positive(),
  standardUncertainty: z.number().nonnegative(),
});

const weight = z.strictObject({
  weight: name,
  mass: z.number().positive(),
  standardUncertainty: z.number().nonnegative().optional(),
});

const scaled = {
  instrument: name,
  /** Relative, of this instrument's scale altogether. */
  scaleUncertainty: share.optional(),
  /** What that scale stretches, where it is not what is read: a sensor of gravity stretches the sine. */
  scaleOf: z.enum(['angle', 'sine', 'tangent']).optional(),
  /** The sine bar or blocks it was calibrated on; its part of that is one error for all of them. */
  standard: z.strictObject({ number: name, commonShare: share }).optional(),
};
const instrument = z.discriminatedUnion('reads', [
  /** Deflection of a pendulum on its batten; `length` from pivot to batten in the same unit. */
  z.strictObject({ ...scaled, reads: z.literal('deflection'), length: z.number().positive() }),
  /** Level difference of a water tube, positive for starboard down; `length` is its span. */
  z.strictObject({
    ...scaled,
    reads: z.literal('level-difference'),
    length: z.number().positive(),
  }),
  z.strictObject({ ...scaled, reads: z.literal('tangent') }),
  z.strictObject({ ...scaled, reads: z.literal('heel-deg') }),
]);
export type TestInstrument = z.infer<typeof instrument>;

const state = z.strictObject({
  state: name.optional(),
  /** When it was read, in any one unit; for taking off a drift. */
  time: finite.optional(),
  /** Moment of everything moved since the first state. */
  heelingMoment: finite.optional(),
  verticalMoment: finite.optional(),
  /** Instead: what was moved since the state before, how far to starboard and how far up. */
  moves: z
    .array(
      z.strictObject({
        weight: name,
        distance: finite,
        rise: finite.optional(),
        /** Forward positive: changes the trim, not the heeling moment. */
        forward: finite.optional(),
      }),
    )
    .max(24)
    .optional(),
  /** By instrument; null or left out where it was not read. */
  readings: z.record(name, finite.nullable()),
});

/** How a test is reduced, where there is a choice. */
const choices = {
  /** Does the waterline tell the list, the instruments having no zero of their own? */
  listFromWaterline: z.boolean().optional(),
  /** Take off a drift all instruments share, straight in time; every state then gives its time. */
  drift: z.boolean().optional(),
  /** Which answer is the official one; left out: the most exact there is. */
  official: z.enum(['classical', 'metacentre-movement', 'exact']).optional(),
  /** Relative, common to all weights. */
  massScaleUncertainty: share.optional(),
  /** Relative, of the angle scale all instruments share. */
  angleScaleUncertainty: share.optional(),
  /** Rules of the IS Code 8.4.1.2, off unless switched on. */
  skipRules: z
    .strictObject({ recheckAfterSeven: z.boolean(), completeAfterSix: z.boolean() })
    .optional(),
  /** What was done about each thing no plot can show. */
  evidence: z
    .partialRecord(
      z.enum(
        Object.keys(CANNOT_SHOW) as [keyof typeof CANNOT_SHOW, ...(keyof typeof CANNOT_SHOW)[]],
      ),
      text,
    )
    .optional(),
};
export const testChoices = z.strictObject(choices);

export const testInput = z.strictObject({
  ...choices,
  heelwrightTest: z.literal(1),
  name,
  source: text.optional(),
  units: z.strictObject({ mass: name, length: name }).optional(),
  /** Left out: displacement times GM is all that is found. */
  displacement: aboveZero.optional(),
  km: aboveZero.optional(),
  /** c2: an apparent GM of one shift reads GM + c2 tan2(heel); ½ BM for a wall-sided hull. */
  metacentreMovement: measured.optional(),
  /** A cause that moves displacement, KM and c2 together: what one standard uncertainty adds to each. */
  together: z
    .array(
      z.strictObject({
        cause: name,
        displacement: finite,
        km: finite,
        metacentreMovement: finite.optional(),
        /** Left out: not limited by a count. Entries of one name are independent parts of one cause. */
        degreesOfFreedom: z.number().positive().optional(),
      }),
    )
    .max(12)
    .optional(),
  /** Instead of displacement, km, metacentreMovement and together: the hull and how she floats. */
  waterline: waterlineInput.optional(),
  water: waterInput.optional(),
  hull: hullInput.optional(),
  /** Slack tanks, for the exact equation. */
  liquids: tanksInput.optional(),
  /** What is aboard and no part of the ship, and what is missing: gives the lightship. */
  survey: surveyInput.optional(),
  /** How the angles were read: seconds that counted, standard error of a state's mean heel. */
  readingTime: z
    .strictObject({ countedS: z.number().positive(), standardErrorDeg: z.number().positive() })
    .optional(),
  weights: z.array(weight).max(24).optional(),
  /** Of every distance moved, common to all. */
  distanceUncertainty: z.number().nonnegative().optional(),
  /** Relative, of all moments where moments are given. */
  momentScaleUncertainty: share.optional(),
  instruments: z.array(instrument).min(1).max(MOST_INSTRUMENTS),
  states: z.array(state).min(1).max(MOST_STATES),
  /** Tanks, bilges and voids looked into; only these exclude free liquid of full width. */
  spacesSeen: z.array(seenSpace).max(60).optional(),
});
export type TestInput = z.infer<typeof testInput>;

const MOST_FAULTS = 20;

export type ParsedTest =
  | { readonly test: TestInput; readonly faults: readonly [] }
  | { readonly test: null; readonly faults: readonly FaultReport[] };

/** The test in a text of JSON, or every fault found in it with the path of its field. */
export function parseTestInput(json: string): ParsedTest {
  let raw: unknown;
  try {
    raw = JSON.parse(json);
  } catch (error) {
    const found = error instanceof Error ? error.message : 'not JSON';
    return { test: null, faults: [{ code: 'input-not-json', where: 'the whole text', found }] };
  }
  const parsed = testInput.safeParse(raw);
  if (!parsed.success) {
    const faults = parsed.error.issues.slice(0, MOST_FAULTS).map(
      (issue): FaultReport => ({
        code:
          issue.code === 'too_small' && issue.origin === 'array' ? 'input-too-few' : 'input-shape',
        where: pathOf(issue.path),
        found: issue.message,
      }),
    );
    return { test: null, faults };
  }
  const faults = contradictions(parsed.data);
  return faults.length > 0 ? { test: null, faults } : { test: parsed.data, faults: [] };
}

function pathOf(path: readonly PropertyKey[]): string {
  if (path.length === 0) return 'the whole test';
  return path.reduce<string>(
    (sum, key) =>
      typeof key === 'number' ? `${sum}[${key}]` : `${sum}${sum === '' ? '' : '.'}${String(key)}`,
    '',
  );
}

/** What fits its form and still cannot be meant. */
function contradictions(test: TestInput): FaultReport[] {
  const faults: FaultReport[] = [];
  const say = (where: string, found: string): void => {
    if (faults.length < MOST_FAULTS) faults.push({ code: 'input-contradiction', where, found });
  };
  const instruments = new Set(test.instruments.map((one) => one.instrument));
  const weights = new Set((test.weights ?? []).map((one) => one.weight));
  if (instruments.size < test.instruments.length) say('instruments', 'two have the same name');
  if (weights.size < (test.weights ?? []).length) say('weights', 'two have the same name');
  const byMoves = test.states.some((one) => one.moves !== undefined);
  for (const { where, found } of floatContradictions(test)) say(where, found);
  if (test.drift === true && test.states.some((one) => one.time === undefined)) {
    say('drift', 'not every state gives its time');
  }
  if (test.survey !== undefined && test.waterline === undefined) {
    say('survey', 'the lightship needs hull, waterline and water');
  }
  if (test.listFromWaterline === true && test.waterline === undefined) {
    say('listFromWaterline', 'no waterline is given');
  }
  if (test.displacement === undefined) {
    for (const field of ['km', 'metacentreMovement', 'together'] as const) {
      if (test[field] !== undefined) say(field, 'cannot be used without a displacement');
    }
  }
  if (byMoves && test.momentScaleUncertainty !== undefined) {
    say('momentScaleUncertainty', 'moments come from moves; state it of mass and distance');
  }
  if (!byMoves && test.distanceUncertainty !== undefined) {
    say('distanceUncertainty', 'moments are given; state momentScaleUncertainty instead');
  }
  test.states.forEach((one, i) => {
    const where = `states[${i}]`;
    if (byMoves && (one.heelingMoment !== undefined || one.verticalMoment !== undefined)) {
      say(`${where}.heelingMoment`, 'other states give moves; give the same for all');
    }
    if (!byMoves && one.heelingMoment === undefined) {
      say(`${where}.heelingMoment`, 'neither a moment nor moves');
    }
    for (const [k, move] of (one.moves ?? []).entries()) {
      if (!weights.has(move.weight)) {
        say(`${where}.moves[${k}].weight`, `no weight is called ${move.weight}`);
      }
    }
    for (const key of Object.keys(one.readings)) {
      if (!instruments.has(key)) say(`${where}.readings.${key}`, 'no such instrument');
    }
  });
  return faults;
}
