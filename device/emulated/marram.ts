import { createRandom } from '#core/numerics/random.ts';
import type { Place, TestOpened } from '#core/record/line.ts';
import type { Mounting } from '#core/sample/certificate.ts';
import { INSTRUMENTS } from '#core/sample/layout.ts';
import { marramHull } from './marram-hull.ts';
import type { Berth } from './quay.ts';
import { type AfloatWith, type Levers, leversOf, TabulatedRighting } from './righting-table.ts';
import { gmM, type RollProperties, type VesselForm } from './vessel.ts';
import { type TubeGeometry, tubeSlowTimeS } from './water-tube.ts';

/**
 * *Marram*, a 16.4 m mussel-rope workboat in Kettle Sound. Vessel, people, berth and figures are
 * invented for the demo; every figure here is made up.
 */
const LENGTH_M = 16.4;
/** At the deck edge, shell included. */
const BEAM_M = 5.06;
const STATED = {
  displacementT: 46.82,
  displacementUncertaintyT: 0.06,
  /** KM and c2 of her hull at this displacement, by `core/hull`; a test holds them to it. */
  kmM: 3.201,
  kmUncertaintyM: 0.004,
  metacentreMovementM: 0.93,
  /** Her centre of gravity fore and aft, which gives her trim, and the water she lies in. */
  lcgM: 6.46,
  densityTM3: 1.025,
  gmM: 0.942,
  gmGuessM: 0.95,
  gmGuessUncertaintyM: 0.09,
};
/** Her exact levers are worked out at displacements this far to both sides of the stated one. */
const LEVERS_APART_T = 0.15;

export const MARRAM_ROLL: RollProperties = {
  gyrationM: 2.284,
  dampingRatio: 0.045,
  quadraticDamping: 0.8,
};

/** From a port mark to its starboard mark, metres. */
const MOVED_M = 4.2;
const DISTANCE_UNCERTAINTY_M = 0.004;
const MASS_UNCERTAINTY_T = 0.00015;
const DECK_M = 2.05;
const PORT_Y_M = -MOVED_M / 2;
const STARBOARD_Y_M = MOVED_M / 2;

const WEIGHTS = [
  { weight: 'A', massT: 0.251, xM: 3.1, yM: PORT_Y_M },
  { weight: 'B', massT: 0.249, xM: 3.9, yM: PORT_Y_M },
  { weight: 'C', massT: 0.25, xM: 6.4, yM: STARBOARD_Y_M },
  { weight: 'D', massT: 0.252, xM: 7.2, yM: STARBOARD_Y_M },
] as const;

/** The order of the day: which weight goes to which side. */
const SHIFTS: readonly (readonly [weight: string, yM: number])[] = [
  ['A', STARBOARD_Y_M],
  ['B', STARBOARD_Y_M],
  ['B', PORT_Y_M],
  ['A', PORT_Y_M],
  ['C', PORT_Y_M],
  ['D', PORT_Y_M],
  ['D', STARBOARD_Y_M],
  ['C', STARBOARD_Y_M],
];

function markOf(weight: string, yM?: number): Place {
  const found = WEIGHTS.find((one) => one.weight === weight);
  if (found === undefined) throw new RangeError(`Marram has no weight ${weight}`);
  return { xM: found.xM, yM: yM ?? found.yM, zM: DECK_M };
}

/** The test as the architect opened it: what is stated, with its uncertainties, and the plan. */
export function marramTest(): TestOpened {
  return {
    test: 'marram-inclining',
    vessel: 'Marram',
    at: 'Kettle Sound, inner quay',
    mode: 'demo',
    particulars: {
      displacementT: STATED.displacementT,
      displacementUncertaintyT: STATED.displacementUncertaintyT,
      kmM: STATED.kmM,
      kmUncertaintyM: STATED.kmUncertaintyM,
      metacentreMovementM: STATED.metacentreMovementM,
      gmGuessM: STATED.gmGuessM,
      gmGuessUncertaintyM: STATED.gmGuessUncertaintyM,
      beamM: BEAM_M,
      lengthM: LENGTH_M,
    },
    weights: WEIGHTS.map(({ weight, massT }, index) => ({
      weight,
      massT,
      massUncertaintyT: MASS_UNCERTAINTY_T,
      certificate: `KS-W-${2601 + index}`,
      at: markOf(weight),
    })),
    distanceUncertaintyM: DISTANCE_UNCERTAINTY_M,
    plan: SHIFTS.map(([weight, yM]) => ({ moves: [{ weight, to: markOf(weight, yM) }] })),
  };
}

let levers: readonly [Levers, Levers, Levers] | null = null;

/** Her righting at a displacement, by her hull. The levers are worked out once. */
export function marramRighting(displacementT: number): TabulatedRighting {
  if (levers === null) {
    const hull = marramHull();
    const at = (awayT: number) =>
      leversOf(hull, { ...marramAfloat(), massT: STATED.displacementT + awayT });
    levers = [at(-LEVERS_APART_T), at(0), at(LEVERS_APART_T)];
  }
  return new TabulatedRighting(levers, displacementT);
}

/** What she weighs and where, as stated, and the water of Kettle Sound. */
export function marramAfloat(): AfloatWith {
  const { displacementT: massT, lcgM: xM, kmM, gmM: gm, densityTM3 } = STATED;
  return { massT, xM, zM: kmM - gm, densityTM3 };
}

/** The vessel and her weights as they really are: the stated figures with errors inside their uncertainties. */
export interface Reality {
  readonly form: VesselForm;
  readonly massT: Readonly<Record<string, number>>;
  /** Where the mark of an athwartships place really is, a few millimetres off. */
  realYM(yM: number): number;
}

export function marramReality(seed: number): Reality {
  const chance = createRandom(seed, 'reality');
  const kmM = STATED.kmM + chance.normal(STATED.kmUncertaintyM);
  const displacementT = STATED.displacementT + chance.normal(STATED.displacementUncertaintyT);
  const form: VesselForm = {
    displacementT,
    kmM,
    righting: marramRighting(displacementT),
    kgM: kmM - (STATED.gmM + chance.normal(0.008)),
    tcgM: 0.0007 + chance.normal(0.0006),
  };
  const massT = Object.fromEntries(
    WEIGHTS.map(({ weight, massT: stated }) => [
      weight,
      stated + chance.normal(MASS_UNCERTAINTY_T),
    ]),
  );
  // One tape laid out every mark, so its error lengthens all distances together.
  const stretch = chance.normal(DISTANCE_UNCERTAINTY_M) / MOVED_M;
  return { form, massT, realYM: (yM) => yM * (1 + stretch) };
}

/** Fluid GM, upright, as inclined. The closed form has no free surface: her GM is fluid as it stands. */
export function marramTruth(reality: Reality): { gmFluidM: number; displacementT: number } {
  return { gmFluidM: gmM(reality.form), displacementT: reality.form.displacementT };
}

export function marramBerth(form: VesselForm): Berth {
  return {
    windage: { areaM2: 36, leverM: 2.5 },
    beamM: BEAM_M,
    stiffnessTM: form.displacementT * gmM(form),
    swellSlopeRad: 0.0002,
  };
}

/** Wide legs and a narrow cross tube led round the wheelhouse. */
export const MARRAM_TUBE: TubeGeometry = {
  legBoreM: 0.025,
  legFillM: 0.5,
  tubeBoreM: 0.006,
  tubeLengthM: 8,
  spanM: 4.8,
  heightOverRollAxisM: 0.3,
};

/** Time constants after which the tube is taken as settled: 0.1 % is left. */
const TUBE_SETTLING_CONSTANTS = 7;

/** How the three instruments stand aboard. */
export function marramMountings(): Mounting[] {
  const inclinometer = (instrument: string, label: string, heightOverRollAxisM: number) => ({
    instrument,
    label,
    kind: 'inclinometer' as const,
    sign: 1 as const,
    spanM: null,
    heightOverRollAxisM,
    settlingS: 1,
  });
  return [
    inclinometer(INSTRUMENTS.fore, 'Fore', 1.6),
    inclinometer(INSTRUMENTS.aft, 'Aft', 0.4),
    {
      instrument: INSTRUMENTS.tube,
      label: 'Water tube',
      kind: 'water-tube',
      sign: 1,
      spanM: MARRAM_TUBE.spanM,
      heightOverRollAxisM: MARRAM_TUBE.heightOverRollAxisM,
      settlingS: Math.ceil(TUBE_SETTLING_CONSTANTS * tubeSlowTimeS(MARRAM_TUBE)),
    },
  ];
}
