import { z } from 'zod';
import { loadedCondition } from '../condition/condition.ts';
import {
  ICE_RD_543_2007,
  ICE_ZONE_TIMES,
  type IceZone,
  icedAreas,
  iceItems,
} from '../condition/ice.ts';
import { canadianIceInput, canadianIceItems } from '../condition/ice-canada.ts';
import { type ItemInput, itemInput } from '../condition/item.ts';
import { lightshipInput } from '../condition/lightship-input.ts';
import { type FillingInput, fillingInput, spaceInput, spacesFrom } from '../condition/space.ts';
import { type TripQuestion, tripConditions } from '../condition/trip.ts';
import { tripInput } from '../condition/trip-input.ts';
import { Fault } from '../fault/fault.ts';
import type { Hull } from '../hull/hull.ts';
import type { EvidenceQuestion } from './condition-evidence.ts';
import { CONDITION_KINDS, type ConditionKind } from './evidence.ts';
import { heelingMomentFrom, heelingMomentInput } from './heeling-moment-input.ts';
import { historyInput } from './history-input.ts';
import { openingsKept, openingUse } from './opening-use.ts';
import { verification } from './verification.ts';
import { vesselFrom, vesselInput } from './vessel-input.ts';
import { windageInput } from './windage.ts';

const name = z.string().trim().min(1).max(120);
const density = z.number().min(900).max(1100).describe('of the water, kg/m3');
const zones = Object.keys(ICE_ZONE_TIMES) as [IceZone, ...IceZone[]];

const conditionInput = z
  .strictObject({
    condition: name,
    kind: z.enum(CONDITION_KINDS),
    fillings: z.array(fillingInput).max(60),
    items: z.array(itemInput).max(200),
    ice: z.strictObject({ zone: z.enum(zones), areas: icedAreas }).optional(),
    iceByCanada: canadianIceInput.optional().describe('by the Canadian regulation instead'),
    densityKgM3: density.optional().describe('where this condition floats in other water'),
    moments: z.array(heelingMomentInput).max(20).optional(),
  })
  .refine(
    ({ ice, iceByCanada }) => ice === undefined || iceByCanada === undefined,
    'ice by one regulation only',
  );

/** A loading file: the vessel, what she can hold, and her conditions or the trip that makes them. */
export const loadingInput = z
  .strictObject({
    heelwrightLoading: z.literal(1),
    vessel: name,
    invented: z.boolean().optional().describe('true for a vessel that does not exist'),
    hull: z.string().min(1).max(200).describe('its file beside this one'),
    notCounted: z
      .array(name)
      .max(20)
      .optional()
      .describe('superstructures of the hull file that may not count as buoyant'),
    densityKgM3: density,
    particulars: vesselInput,
    lightship: lightshipInput,
    spaces: z.array(spaceInput).max(60),
    openings: z.array(openingUse).max(60),
    windage: windageInput.optional(),
    ruleSets: z.array(z.string().min(1).max(60)).min(1).max(12).describe('by their names'),
    ownRuleSets: z
      .array(z.string().min(1).max(200))
      .max(12)
      .optional()
      .describe("files of an authority's own sets beside this one (heelwright schema rules)"),
    verified: z
      .array(verification)
      .max(200)
      .optional()
      .describe('clauses from memory that a named person looked up'),
    signed: z
      .array(
        z.strictObject({
          ruleSet: z.string().min(1).max(60),
          clause: z.string().min(1).max(60),
          by: name,
        }),
      )
      .max(200)
      .optional()
      .describe('margins within their uncertainty that the architect lets count as met'),
    conditions: z.array(conditionInput).max(40).optional(),
    trip: tripInput.optional(),
    history: historyInput.optional(),
  })
  .refine(
    ({ conditions, trip }) => (conditions?.length ?? 0) > 0 || trip !== undefined,
    'give conditions, or the trip that makes them',
  )
  .refine(isPrintable, 'a text holds a control character');
export type LoadingInput = z.infer<typeof loadingInput>;

/** What is printed is what stands there: no text of a stranger's file steers a terminal. */
function isPrintable(value: unknown): boolean {
  if (typeof value === 'string') return !/[\p{Cc}\p{Cf}]/u.test(value);
  if (typeof value !== 'object' || value === null) return true;
  return Object.values(value).every(isPrintable);
}

/** All conditions of a loading file, ready to be asked, and what its trip leaves open. */
export interface Loading {
  readonly questions: readonly EvidenceQuestion[];
  readonly asked: readonly TripQuestion[];
  /** The hull with those superstructures that count. */
  readonly hull: Hull;
}

/**
 * Throws `loading-unknown` for a space, opening or superstructure that is not there,
 * `input-contradiction` for two conditions of one name, and what spaces and fillings throw.
 */
export function loadingOf(input: LoadingInput, whole: Hull): Loading {
  const hull = countedHull(whole, input.notCounted ?? []);
  const openings = openingsKept(hull, input.openings);
  const spaces = spacesFrom(input.spaces);
  const openAtWorst = input.openings
    .filter(({ kept }) => kept === 'open-at-worst')
    .map(({ opening }) => opening);
  const trip =
    input.trip === undefined
      ? { conditions: [], questions: [] }
      : tripConditions(input.trip, spaces, openAtWorst);
  const vessel = vesselFrom(input.vessel, input.particulars);
  const conditions = [...(input.conditions ?? []), ...trip.conditions];
  checkNames(conditions.map(({ condition }) => condition));
  const questions = conditions.map(
    (one: WrittenCondition): EvidenceQuestion => ({
      loaded: loadedCondition({
        name: one.condition,
        lightship: input.lightship,
        spaces,
        fillings: one.fillings,
        items: [
          ...one.items,
          ...(one.ice === undefined ? [] : iceItems(one.ice.areas, ICE_RD_543_2007, one.ice.zone)),
          ...(one.iceByCanada === undefined ? [] : canadianIceItems(one.iceByCanada)),
        ],
      }),
      kind: one.kind,
      vessel,
      hull,
      densityTM3: (one.densityKgM3 ?? input.densityKgM3) / 1000,
      openings,
      windage: input.windage ?? null,
      heelingMoments: (one.moments ?? []).map(heelingMomentFrom),
    }),
  );
  return { questions, asked: trip.questions, hull };
}

type WrittenCondition = Pick<
  Partial<z.infer<typeof conditionInput>>,
  'ice' | 'iceByCanada' | 'densityKgM3' | 'moments'
> & {
  readonly condition: string;
  readonly kind: ConditionKind;
  readonly fillings: readonly FillingInput[];
  readonly items: readonly ItemInput[];
};

function countedHull(hull: Hull, notCounted: readonly string[]): Hull {
  for (const one of notCounted) {
    if (one === hull.main.name || !hull.bodies.some((body) => body.name === one)) {
      throw new Fault('loading-unknown', 'notCounted', one);
    }
  }
  return { ...hull, bodies: hull.bodies.filter((body) => !notCounted.includes(body.name)) };
}

function checkNames(names: readonly string[]): void {
  const twice = names.find((one, k) => names.indexOf(one) < k);
  if (twice !== undefined) {
    throw new Fault('input-contradiction', 'conditions', `${twice} stands twice`);
  }
}
