import { restingWaterline } from '#core/hull/equilibrium.ts';
import { upwardNormal, type Waterline } from '#core/hull/waterline.ts';
import { createRandom } from '#core/numerics/random.ts';
import type { EntryLine, EntrySheet, EntryValue } from '#core/record/entry-line.ts';
import { LIGHTSHIP_MATTERS } from '#core/survey/survey-input.ts';
import { marramAfloat, marramReality, marramTest } from './marram.ts';
import { marramDeckM, marramHull, marramHullText } from './marram-hull.ts';

/**
 * The survey of *Marram* as her architect wrote it before the shifts: people, things and figures are
 * invented. Freeboards and density are those of the water she really lies in, read with the errors
 * anybody makes.
 */
const READING_M = 0.004;
const HYDROMETER_KG_M3 = 0.4;
const POINTS_M = [1.4, 4.6, 7.8, 11, 13.8];

/** The rows in the order they were entered; one seed gives one survey. */
export function marramSurvey(seed: number): EntryLine[] {
  return [
    row('matter', LIGHTSHIP_MATTERS[0], { agreed: 'in' }),
    ...LIGHTSHIP_MATTERS.slice(1).map((matter) =>
      row('matter', matter, { agreed: matter === 'live-well' ? 'not-there' : 'in' }),
    ),
    row('agreed', 'A. Rowan', { as: 'architect' }),
    row('agreed', 'B. Heron', { as: 'for the owner' }),
    row('hull', 'hull', {
      form: 'hull',
      file: 'marram.json',
      text: marramHullText(),
      knText: null,
      densityKgM3: null,
      volumeUncertaintyShare: 0.001,
      kmUncertaintyM: marramTest().particulars.kmUncertaintyM ?? 0,
    }),
    row('vessel', 'vessel', {
      lengthM: 15,
      readingUncertaintyM: READING_M,
      freeboardDatumUncertaintyM: 0.003,
      hydrometerUncertaintyKgM3: HYDROMETER_KG_M3,
      freeSurfaceUncertaintyShare: 0.1,
    }),
    ...freeboards(seed),
    ...water(seed),
    ...tanks(),
    ...things(),
    ...marramTest().weights.map(({ weight, massT, massUncertaintyT, at }) =>
      row('item', `test weight ${weight}`, {
        kind: 'test-weight',
        massT,
        massUncertaintyT,
        at: { ...at, zM: at.zM + 0.15 },
        placeUncertaintyM: 0.01,
      }),
    ),
    ...['engine bilge', 'fish hold bilge', 'steering flat'].map((space) =>
      row('space', space, { sounded: true, opened: true, by: 'B. Heron' }),
    ),
  ];
}

function row<S extends EntrySheet>(sheet: S, key: string, value: EntryValue<S>): EntryLine {
  // The union of all sheets does not follow a sheet that is a type of its own.
  return { sheet, occasion: 'before', key, value, was: null, fromPaper: false } as EntryLine;
}

function freeboards(seed: number): EntryLine[] {
  const { form } = marramReality(seed);
  const { xM, densityTM3 } = marramAfloat();
  const hull = marramHull();
  const centre = { xM, yM: form.tcgM, zM: form.kgM };
  const afloat = restingWaterline(hull, { massT: form.displacementT, centre }, densityTM3);
  const chance = createRandom(seed, 'freeboards');
  return POINTS_M.flatMap((pointM, k) =>
    (['port', 'starboard'] as const).map((side) => {
      const heightM = marramDeckM(pointM);
      const halfBreadthM = HALF_BREADTHS_M[k]!;
      const yM = side === 'starboard' ? halfBreadthM : -halfBreadthM;
      const freeboardM = heightM - waterAt(afloat, pointM, yM) + chance.normal(READING_M);
      return row('freeboard', `${k + 1} ${side}`, {
        side,
        xM: pointM,
        halfBreadthM,
        heightM,
        // To the millimetre, as a rule is read.
        freeboardM: Math.round(1000 * freeboardM) / 1000,
      });
    }),
  );
}

/** Outside of the shell at the deck's edge, at those points. */
const HALF_BREADTHS_M = [2.46, 2.53, 2.53, 2.3, 1.36];

/** Height of the water over the baseline at a place of the ship. */
function waterAt(waterline: Waterline, xM: number, yM: number): number {
  const up = upwardNormal(waterline);
  return (waterline.levelM - up.xM * xM - up.yM * yM) / up.zM;
}

function water(seed: number): EntryLine[] {
  const chance = createRandom(seed, 'density');
  const read = 1000 * marramAfloat().densityTM3 + chance.normal(HYDROMETER_KG_M3);
  return [
    row('water', 'amidships, 1 m down', {
      densityKgM3: Math.round(10 * read) / 10,
      temperatureC: 11.4,
    }),
  ];
}

/**
 * The tanks of her loading file, pressed full: the simulated vessel has no free surface unless a
 * disturbance gives her one.
 */
const TANKS = [
  { tank: 'fuel, port', densityTM3: 0.84, x: [3.2, 5], y: [-1.9, -0.9], z: [0.75, 1.75] },
  { tank: 'fuel, starboard', densityTM3: 0.84, x: [3.2, 5], y: [0.9, 1.9], z: [0.75, 1.75] },
  { tank: 'fresh water', densityTM3: 1, x: [12.2, 13.4], y: [-0.6, 0.6], z: [0.7, 1.7] },
] as const;

function tanks(): EntryLine[] {
  return TANKS.map(({ tank, densityTM3, x, y, z }) =>
    row('tank', tank, {
      densityTM3,
      shape: {
        kind: 'rectangular',
        ...{ fromXM: x[0], toXM: x[1], fromYM: y[0], toYM: y[1], fromZM: z[0], toZM: z[1] },
      },
      volumeM3: (x[1] - x[0]) * (y[1] - y[0]) * (z[1] - z[0]),
      massUncertaintyT: 0.01,
    }),
  );
}

const THINGS: readonly [
  item: string,
  kind: 'deduct' | 'add' | 'relocate' | 'to-be-fitted' | 'person' | 'own-gear',
  massT: number,
  at: readonly [number, number, number],
][] = [
  ['A. Rowan at the middle of the deck', 'person', 0.082, [5.6, 0, 3.05]],
  ['B. Heron in the wheelhouse', 'person', 0.076, [10.4, 0, 4.1]],
  ['hand at the weights', 'person', 0.088, [5, 0, 3.05]],
  ['sensors, boards and cable', 'own-gear', 0.031, [6.2, 0, 1.9]],
  ['empty bags and ropes on deck', 'deduct', 0.6, [6.9, 0, 2.35]],
  ['stores', 'deduct', 0.5, [11.6, 0, 2.2]],
  ['spare hydraulic oil in cans', 'deduct', 0.09, [3.6, -1.4, 2.2]],
  ['life-raft, at service ashore', 'add', 0.11, [9.4, 0, 4.9]],
  ['mussel winch on the upper deck', 'to-be-fitted', 0.62, [8.6, 0.4, 3.4]],
];

function things(): EntryLine[] {
  return THINGS.map(([item, kind, massT, [xM, yM, zM]]) =>
    row('item', item, {
      kind,
      massT,
      massUncertaintyT: 0.02 * massT,
      at: { xM, yM, zM },
      placeUncertaintyM: 0.05,
    }),
  );
}
