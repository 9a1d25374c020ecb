import { ICE_RD_543_2007, iceItems } from './ice.ts';
import type { ItemInput } from './item.ts';
import type { FillingInput, Space } from './space.ts';
import { TRIP_STAGES, type TripInput, type TripStage } from './trip-input.ts';

/** A loading condition made from the trip. */
export interface TripCondition {
  readonly condition: string;
  readonly kind: TripStage | 'worst' | 'with-ice' | 'hold-flooded' | 'working';
  readonly fillings: readonly FillingInput[];
  readonly items: readonly ItemInput[];
}

/** What the trip sheet leaves open and the survey has to settle. */
export const TRIP_QUESTIONS = {
  'change-not-weighed': 'what was changed has no mass or no place: weigh and measure it',
  'change-not-in-lightship': 'is this change in the lightship that was measured?',
  'worst-not-said':
    'which moment of the trip is the worst: gear lifted, catch on deck, a full cod end?',
  'wet-gear': 'is this gear carried wet on deck? Nets take 15 % (RD 543/2007 annex II 3(f)2)',
  'no-crew': 'where are the crew? Nobody is among the items',
  'no-consumables': 'no tank for this is among the spaces',
  'hatch-open': 'an opening is open at the worst moment, and no hold is said to flood through it',
  'no-ice': 'does she go where ice forms on her?',
} as const;
export type TripQuestionCode = keyof typeof TRIP_QUESTIONS;

export interface TripQuestion {
  readonly code: TripQuestionCode;
  readonly where: string;
}

export interface TripAnswer {
  readonly conditions: readonly TripCondition[];
  readonly questions: readonly TripQuestion[];
}

/** Left on leaving the grounds and on arrival (RD 543/2007 annex II 3(a)). */
const USUAL = { leavingGroundsShare: 0.35, arrivalShare: 0.1 };
const PART_CATCH_SHARE = 0.2;
const CONSUMABLES = ['fuel', 'fresh-water', 'lubricating-oil'] as const;
/** A hold half full of sea water, three quarters of the consumables (RD 543/2007 annex II 2(c)). */
const FLOODED = { share: 0.5, consumablesShare: 0.75, seaWaterTM3: 1.025 };

/**
 * The standard set in one step: departure with all tanks full; leaving the grounds and arrival with the
 * full catch; arrival with part of it; the worst moment; that with ice; the hold half flooded; and what
 * they would like to carry. All tanks of one use stand alike. With them, what is still to be asked.
 */
export function tripConditions(
  trip: TripInput,
  spaces: ReadonlyMap<string, Space>,
  openAtWorst: readonly string[],
): TripAnswer {
  const stageOf = (stage: TripStage): TripCondition => ({
    condition: STAGE_WORDS[stage],
    kind: stage,
    fillings: fillingsAt(trip, spaces, (use) => shareLeft(trip, use, stage)),
    items: itemsAt(trip, stage),
  });
  const stages = TRIP_STAGES.filter(
    (stage) => stage !== 'arrival-part-catch' || trip.catch !== null,
  ).map(stageOf);
  const worst = worstOf(trip, stageOf);
  const conditions: TripCondition[] = [...stages, ...(worst === null ? [] : [worst])];
  const iced = worst ?? stages[1]!;
  if (trip.ice !== null) {
    conditions.push({
      ...iced,
      condition: `${iced.condition}, with ice`,
      kind: 'with-ice',
      items: [...iced.items, ...iceItems(trip.ice.areas, ICE_RD_543_2007, trip.ice.zone)],
    });
  }
  if (trip.flooded !== null) conditions.push(floodedOf(trip, trip.flooded, spaces));
  for (const wish of trip.wouldCarry) {
    const base = stageOf(wish.like);
    conditions.push({
      ...base,
      condition: `${base.condition}, with ${wish.items.map(({ item }) => item).join(', ')}`,
      kind: 'working',
      items: [...base.items, ...wish.items],
    });
  }
  return { conditions, questions: questionsOf(trip, spaces, openAtWorst) };
}

const STAGE_WORDS: Readonly<Record<TripStage, string>> = {
  departure: 'departure',
  'leaving-grounds': 'leaving the grounds',
  arrival: 'arrival',
  'arrival-part-catch': 'arrival with part of the catch',
};

function shareLeft(trip: TripInput, use: string, stage: TripStage): number {
  if (stage === 'departure') return 1;
  const told = trip.consumables?.find((one) => one.use === use) ?? USUAL;
  return stage === 'leaving-grounds' ? told.leavingGroundsShare : told.arrivalShare;
}

function fillingsAt(
  trip: TripInput,
  spaces: ReadonlyMap<string, Space>,
  left: (use: string) => number,
): FillingInput[] {
  const always = trip.always ?? [];
  const used = [...spaces.values()].filter(
    ({ space, use }) =>
      CONSUMABLES.some((one) => one === use) && !always.some((one) => one.space === space),
  );
  return [...always, ...used.map(({ space, use }) => ({ space, share: left(use) }))];
}

function itemsAt(trip: TripInput, stage: TripStage): ItemInput[] {
  const aboard = trip.items
    .filter((item) => item.aboard.includes(stage))
    .map(({ aboard: _, ...item }): ItemInput => item);
  if (trip.catch === null || stage === 'departure') return aboard;
  const partShare = trip.catch.partShare ?? PART_CATCH_SHARE;
  const share = stage === 'arrival-part-catch' ? partShare : 1;
  const caught = trip.catch.items.map((item) => ({ ...item, massT: share * item.massT }));
  return [...aboard, ...caught];
}

function worstOf(
  trip: TripInput,
  stageOf: (stage: TripStage) => TripCondition,
): TripCondition | null {
  if (trip.worst === null) return null;
  const base = stageOf(trip.worst.like);
  return {
    ...base,
    condition: `worst: ${trip.worst.words}`,
    kind: 'worst',
    items: [...base.items, ...trip.worst.items],
  };
}

function floodedOf(
  trip: TripInput,
  flooded: NonNullable<TripInput['flooded']>,
  spaces: ReadonlyMap<string, Space>,
): TripCondition {
  const fillings = fillingsAt(trip, spaces, () => FLOODED.consumablesShare);
  return {
    condition: `${flooded.space} half flooded`,
    kind: 'hold-flooded',
    fillings: [
      ...fillings.filter(({ space }) => space !== flooded.space),
      {
        space: flooded.space,
        share: flooded.share ?? FLOODED.share,
        densityTM3: FLOODED.seaWaterTM3,
      },
    ],
    // the hold is open and empty but for the water
    items: itemsAt({ ...trip, catch: null }, 'leaving-grounds'),
  };
}

function questionsOf(
  trip: TripInput,
  spaces: ReadonlyMap<string, Space>,
  openAtWorst: readonly string[],
): TripQuestion[] {
  const questions: TripQuestion[] = [];
  const ask = (code: TripQuestionCode, where: string) => questions.push({ code, where });
  for (const { what, massT, at } of trip.changes) {
    ask(massT === null || at === null ? 'change-not-weighed' : 'change-not-in-lightship', what);
  }
  if (trip.worst === null) ask('worst-not-said', trip.trip);
  for (const item of trip.items) {
    if (item.use === 'gear' && item.wetShare === undefined) ask('wet-gear', item.item);
  }
  if (!trip.items.some(({ use }) => use === 'crew')) ask('no-crew', trip.trip);
  for (const use of ['fuel', 'fresh-water'] as const) {
    if (![...spaces.values()].some((space) => space.use === use)) ask('no-consumables', use);
  }
  if (trip.flooded === null) for (const opening of openAtWorst) ask('hatch-open', opening);
  if (trip.ice === null) ask('no-ice', trip.trip);
  return questions;
}
