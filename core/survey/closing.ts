import type { Advice } from '../quantity/advice.ts';

/** What is taken before the first shift and again after the last. Null: not taken. */
export interface EndOfTest {
  /** Heel at no moment by instrument, degrees, with one standard error. */
  readonly zeros: readonly {
    readonly instrument: string;
    readonly heelDeg: number;
    readonly standardErrorDeg: number;
  }[];
  /** The same points each time: at least two a side. */
  readonly freeboards: readonly {
    readonly point: string;
    readonly side: 'port' | 'starboard';
    readonly freeboardM: number;
  }[];
  readonly densityKgM3: number | null;
  readonly soundings: readonly { readonly tank: string; readonly depthM: number }[];
  readonly people: readonly { readonly person: string; readonly station: string }[];
  /** Each instrument shown its own zero (turned about, or on its plate), degrees. */
  readonly sensorZeros: readonly { readonly instrument: string; readonly zeroDeg: number }[];
  readonly weights: readonly { readonly weight: string; readonly massT: number }[];
}

/** How far two takings of the same thing may differ. One standard uncertainty of a single one. */
export interface ClosingUncertainties {
  readonly freeboardM: number;
  readonly densityKgM3: number;
  readonly soundingM: number;
  readonly sensorZeroDeg: number;
  readonly massShare: number;
  /** Mass that sinks her by a metre; null: not known. */
  readonly tonnesPerM: number | null;
}

export interface ClosingFound {
  /** She lies deeper by so much, mean of the sides, m, and what mass that is. */
  readonly deeperM: number | null;
  readonly gainedT: number | null;
  /** Mean change of the zeros, degrees to starboard. */
  readonly zeroMovedDeg: number | null;
  /** What it points to; several may be. `unchanged` when all was taken and nothing moved. */
  readonly causes: readonly ClosingCause[];
  readonly advice: readonly Advice[];
}

export type ClosingCause =
  | 'unchanged'
  | 'leak'
  | 'rain'
  | 'transfer'
  | 'people-moved'
  | 'sensor-zero'
  | 'weights-soaked'
  | 'water-changed'
  | 'not-all-taken';

/** Differences of two takings beyond so many standard uncertainties count. Our setting. */
const BEYOND = 3;

/**
 * The end of a test against its beginning. A leak: deeper, with the tanks as they were. Rain: deeper
 * with weights heavier or soaked (open decks catch alike). A transfer: the zero moved while she
 * lies no deeper, or two soundings changed against each other. Names what it points to; a person
 * decides.
 */
export function compareEnds(
  before: EndOfTest,
  after: EndOfTest,
  uncertainties: ClosingUncertainties,
): ClosingFound {
  const limit = (uncertainty: number) => BEYOND * Math.SQRT2 * uncertainty;
  const advice: Advice[] = [...notTaken(before, after)];
  const add = (code: Advice['code'], where: string, found: number, most: number, unit: string) => {
    if (Math.abs(found) > most) advice.push({ code, where, found, limit: most, unit });
    return Math.abs(found) > most;
  };
  const deeperM = deeper(before, after);
  const sinks =
    deeperM !== null &&
    add(
      'closing-deeper',
      'freeboards',
      deeperM.mean,
      limit(uncertainties.freeboardM) / Math.sqrt(deeperM.points),
      'm',
    );
  const zeroMovedDeg = zeroMoved(before, after);
  const moved =
    zeroMovedDeg !== null &&
    add(
      'closing-zero-moved',
      'zero',
      zeroMovedDeg.mean,
      BEYOND * zeroMovedDeg.standardErrorDeg,
      'deg',
    );
  const density = difference(before.densityKgM3, after.densityKgM3);
  const water =
    density !== null &&
    add('closing-water-changed', 'water', density, limit(uncertainties.densityKgM3), 'kg/m3');
  const changes = pairs(before.soundings, after.soundings, 'tank', 'depthM');
  const tanks = changes.filter(({ name, change }) =>
    add('closing-sounding', name, change, limit(uncertainties.soundingM), 'm'),
  );
  const sensors = pairs(before.sensorZeros, after.sensorZeros, 'instrument', 'zeroDeg').filter(
    ({ name, change }) =>
      add('closing-sensor-zero', name, change, limit(uncertainties.sensorZeroDeg), 'deg'),
  );
  const weights = pairs(before.weights, after.weights, 'weight', 'massT').filter(
    ({ name, change, from }) =>
      add('closing-weight', name, change, limit(uncertainties.massShare) * from, 't'),
  );
  const walked = after.people.filter(({ person, station }) =>
    before.people.some((one) => one.person === person && one.station !== station),
  );
  for (const { person } of walked)
    advice.push({ code: 'closing-person', where: person, found: null, limit: null, unit: '' });
  const heavier = weights.some(({ change }) => change > 0);
  const down = sinks && deeperM!.mean > 0;
  const flowed = tanks.some(({ change }) => change > 0) && tanks.some(({ change }) => change < 0);
  const causes: ClosingCause[] = [
    ...(down && tanks.length === 0 && !heavier && !water ? (['leak'] as const) : []),
    ...(down && heavier ? (['rain'] as const) : []),
    ...(flowed || (moved && !sinks && walked.length === 0 && sensors.length === 0)
      ? (['transfer'] as const)
      : []),
    ...(walked.length > 0 ? (['people-moved'] as const) : []),
    ...(sensors.length > 0 ? (['sensor-zero'] as const) : []),
    ...(heavier ? (['weights-soaked'] as const) : []),
    ...(water ? (['water-changed'] as const) : []),
    ...(advice.some((one) => one.code === 'closing-not-taken') ? (['not-all-taken'] as const) : []),
  ];
  return {
    deeperM: deeperM?.mean ?? null,
    gainedT:
      deeperM === null || uncertainties.tonnesPerM === null
        ? null
        : deeperM.mean * uncertainties.tonnesPerM,
    zeroMovedDeg: zeroMovedDeg?.mean ?? null,
    causes: causes.length === 0 && advice.length === 0 ? ['unchanged'] : causes,
    advice,
  };
}

function difference(before: number | null, after: number | null): number | null {
  return before === null || after === null ? null : after - before;
}

interface Pair {
  readonly name: string;
  readonly from: number;
  readonly change: number;
}

function pairs<Key extends string, Value extends string>(
  before: readonly (Readonly<Record<Key, string>> & Readonly<Record<Value, number>>)[],
  after: readonly (Readonly<Record<Key, string>> & Readonly<Record<Value, number>>)[],
  key: Key,
  value: Value,
): Pair[] {
  return before.flatMap((one): Pair[] => {
    const again = after.find((other) => other[key] === one[key]);
    if (again === undefined) return [];
    return [{ name: one[key], from: one[value], change: again[value] - one[value] }];
  });
}

/** The fall of the freeboards, the mean of each side weighing alike so that heel does not enter. */
function deeper(before: EndOfTest, after: EndOfTest): { mean: number; points: number } | null {
  const sides = (['port', 'starboard'] as const).map((side) => {
    const own = (end: EndOfTest) => end.freeboards.filter((one) => one.side === side);
    return pairs(own(before), own(after), 'point', 'freeboardM');
  });
  if (sides.some((side) => side.length === 0)) return null;
  const means = sides.map((side) => side.reduce((sum, one) => sum - one.change, 0) / side.length);
  return { mean: (means[0]! + means[1]!) / 2, points: sides[0]!.length + sides[1]!.length };
}

function zeroMoved(
  before: EndOfTest,
  after: EndOfTest,
): { mean: number; standardErrorDeg: number } | null {
  const changes = before.zeros.flatMap((one) => {
    const again = after.zeros.find((other) => other.instrument === one.instrument);
    return again === undefined
      ? []
      : [
          {
            change: again.heelDeg - one.heelDeg,
            error: Math.hypot(again.standardErrorDeg, one.standardErrorDeg),
          },
        ];
  });
  if (changes.length === 0) return null;
  const mean = changes.reduce((sum, one) => sum + one.change, 0) / changes.length;
  // instruments of one state share its error: the best of them says how well it is known
  const standardErrorDeg = Math.min(...changes.map((one) => one.error));
  return { mean, standardErrorDeg };
}

const LEAST_FREEBOARDS_A_SIDE = 2;

function notTaken(before: EndOfTest, after: EndOfTest): Advice[] {
  const missing: string[] = [];
  const of = (side: 'port' | 'starboard') =>
    after.freeboards.filter(
      (one) => one.side === side && before.freeboards.some(({ point }) => point === one.point),
    ).length;
  if (after.zeros.length === 0) missing.push('zero');
  for (const side of ['port', 'starboard'] as const) {
    if (of(side) < LEAST_FREEBOARDS_A_SIDE) missing.push(`two freeboards to ${side}`);
  }
  if (after.densityKgM3 === null) missing.push('water density');
  for (const { tank } of before.soundings) {
    if (!after.soundings.some((one) => one.tank === tank)) missing.push(`sounding of ${tank}`);
  }
  for (const { person } of before.people) {
    if (!after.people.some((one) => one.person === person)) missing.push(`place of ${person}`);
  }
  for (const { instrument } of before.sensorZeros) {
    if (!after.sensorZeros.some((one) => one.instrument === instrument)) {
      missing.push(`zero of ${instrument}`);
    }
  }
  for (const { weight } of before.weights) {
    if (!after.weights.some((one) => one.weight === weight)) missing.push(`weighing of ${weight}`);
  }
  return missing.map((where) => ({
    code: 'closing-not-taken',
    where,
    found: null,
    limit: null,
    unit: '',
  }));
}
