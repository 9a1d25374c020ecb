import type { HullAfloat } from '#core/flotation/hull-afloat.ts';
import { uncertainHalfWidth95 } from '#core/numerics/coverage.ts';
import { createRandom, type Random } from '#core/numerics/random.ts';
import { exactAnswer } from '#core/reduction/exact.ts';
import { liquidsLeverM } from '#core/reduction/liquids.ts';
import { exactHullOf, floatOfTest } from '#core/reduction/test-float.ts';
import type { TestInput } from '#core/reduction/test-input.ts';
import { problemOfTest } from '#core/reduction/test-problem.ts';
import { rectangularTank } from '#core/survey/tank-liquid.ts';
import { restingHeel } from '#tests/core/reduction/closed-hulls.ts';

/** What is true of the vessel, and the laws the surveyor's figures are drawn from. */
const TRUE = { draughtM: 1.5, kgSolid: 2, tcg: 0.004, kn: (heel: number) => boxKn(heel) };
const LAW = {
  freeboardM: 0.005,
  freeboardDatumM: 0.004,
  hydrometerKgM3: 0.5,
  hullVolumeShare: 0.002,
  hullKmM: 0.004,
  massT: 0.0005,
  balanceShare: 0.0005,
  distanceM: 0.005,
  instrumentShare: 0.0008,
  angleShare: 0.001,
  freeSurfaceShare: 0.05,
};
const WAYS = [0, 3, 3, -3, -3, -3, -3, 3, 3];
const WEIGHTS = ['A', 'A', 'B', 'B', 'A', 'C', 'D', 'D', 'C'];
const TANK = { fromXM: 4, toXM: 8, fromYM: -2, toYM: 2, fromZM: 0.2, toZM: 1 };

function boxKn(heelRad: number): number {
  return (2 + 0.75 + Math.tan(heelRad) ** 2) * Math.sin(heelRad);
}

/** A test of the box by nine states and two instruments, every figure drawn anew from its law. */
export function drawnTest(seed: number): TestInput {
  const random = createRandom(seed, 'coverage');
  // the vessel's own: what the surveyor calls density, volume and KM is off by these
  const densityT = 1.025;
  const displacement = 120 * TRUE.draughtM * densityT;
  const hullVolume = 1 + random.normal(LAW.hullVolumeShare);
  const masses = new Map(['A', 'B', 'C', 'D'].map((name) => [name, random.normal(LAW.massT)]));
  const balance = random.normal(LAW.balanceShare);
  const tape = random.normal(LAW.distanceM);
  const stateNoiseDeg = [0.002, 0.005, 0.01][seed % 3]!;
  const readNoiseDeg = [0.001, 0.004][seed % 2]!;
  const hullKmOff = random.normal(LAW.hullKmM);
  const surface = 1 + random.normal(LAW.freeSurfaceShare);
  const lever = liquidsLeverM(
    [{ tank: 'fuel', shape: rectangularTank(TANK), volumeM3: 8, densityTM3: 0.85 * surface }],
    displacement * hullVolume,
    0,
  );
  // a hull a little fuller than its lines displaces more at the same draught; its KM is off too
  const hull = {
    displacement: displacement * hullVolume,
    km: 2.75,
    c2: 1,
    kn: (heel: number) => boxKn(heel) + hullKmOff * Math.sin(heel),
  };
  let moment = 0;
  const heels = WAYS.map((way, i) => {
    const name = WEIGHTS[i]!;
    const mass = (1 + masses.get(name)!) * (1 + balance);
    if (i > 0) moment += mass * (way + Math.sign(way) * tape);
    return restingHeel(hull, { kg: TRUE.kgSolid, tcg: TRUE.tcg, my: moment }, lever);
  });
  const scales = [0, 1].map(() => random.normal(LAW.instrumentShare));
  const common = random.normal(LAW.angleShare);
  return {
    heelwrightTest: 1,
    name: `drawn ${seed}`,
    ...floatDrawn(random, Math.tan(heels[0]!)),
    liquids: {
      tanks: [
        { tank: 'fuel', densityTM3: 0.85, shape: { kind: 'rectangular', ...TANK }, volumeM3: 8 },
      ],
      freeSurfaceUncertaintyShare: LAW.freeSurfaceShare,
    },
    weights: ['A', 'B', 'C', 'D'].map((weight) => ({
      weight,
      mass: 1,
      standardUncertainty: LAW.massT,
    })),
    massScaleUncertainty: LAW.balanceShare,
    distanceUncertainty: LAW.distanceM,
    angleScaleUncertainty: LAW.angleShare,
    instruments: ['fore', 'aft'].map((instrument) => ({
      instrument,
      reads: 'heel-deg',
      scaleUncertainty: LAW.instrumentShare,
    })),
    states: WAYS.map((distance, i) => {
      const shared = (heels[i]! * 180) / Math.PI + random.normal(stateNoiseDeg);
      const read = (j: number) =>
        shared * (1 + scales[j]!) * (1 + common) + random.normal(readNoiseDeg);
      return {
        moves: i === 0 ? [] : [{ weight: WEIGHTS[i]!, distance }],
        readings: { fore: read(0), aft: read(1) },
      };
    }),
  };
}

function floatDrawn(
  random: Random,
  heelSlope: number,
): Pick<TestInput, 'waterline' | 'water' | 'hull'> {
  const datum = random.normal(LAW.freeboardDatumM);
  const freeboards = (['port', 'starboard'] as const).flatMap((side) =>
    [1, 5, 10, 15, 19].map((xM, i) => {
      const y = side === 'starboard' ? 3 : -3;
      const plumb = Math.sqrt(1 + heelSlope ** 2);
      const down = (2.6 - TRUE.draughtM - heelSlope * y) / plumb;
      const freeboardM = down + datum + random.normal(LAW.freeboardM);
      return { point: `${side} ${i + 1}`, side, xM, halfBreadthM: 3, heightM: 2.6, freeboardM };
    }),
  );
  return {
    waterline: {
      lengthM: 20,
      freeboards,
      readingUncertaintyM: LAW.freeboardM,
      freeboardDatumUncertaintyM: LAW.freeboardDatumM,
    },
    water: {
      samples: [
        {
          place: 'amidships',
          densityKgM3: 1025 + random.normal(LAW.hydrometerKgM3),
          temperatureC: 14,
        },
      ],
      hydrometerUncertaintyKgM3: LAW.hydrometerKgM3,
    },
    hull: {
      file: 'box',
      volumeUncertaintyShare: LAW.hullVolumeShare,
      kmUncertaintyM: LAW.hullKmM,
    },
  };
}

export interface Drawn {
  /** KG solid found less true, mm. */
  readonly errorMm: number;
  readonly halfWidthMm: number;
  readonly inside: boolean;
}

/** Reduces a drawn test by the exact equation and sets its interval against the truth. */
export function drawnTestScore(seed: number, hull: HullAfloat): Drawn {
  const written = drawnTest(seed);
  const float = floatOfTest(written, hull)!;
  const { problem, causes, trimMoments } = problemOfTest(float.test);
  const together = causes.together.map((one, k) => ({
    ...one,
    metacentreMovement: float.test.together![k]!.metacentreMovement ?? 0,
  }));
  const exact = exactHullOf(written, hull, float, trimMoments)!;
  const { answer } = exactAnswer(problem, { ...causes, together }, exact.hull);
  const kg = answer.kg!;
  const half = uncertainHalfWidth95(kg);
  const error = kg.value - TRUE.kgSolid;
  return { errorMm: 1000 * error, halfWidthMm: 1000 * half, inside: Math.abs(error) <= half };
}
