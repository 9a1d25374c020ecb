import { straightLine } from '#core/numerics/least-squares.ts';
import { createRandom } from '#core/numerics/random.ts';
import { PGA_FIELD, voltsFromCounts } from '#core/part/ads1115.ts';
import { levelMmFromVolts } from '#core/part/current-loop-level.ts';
import { gFromCounts, RANGE_G } from '#core/part/iis2iclx.ts';
import { radiansFromDegrees } from '#core/quantity/angle.ts';
import type { Certificate } from '#core/sample/certificate.ts';
import { INSTRUMENTS } from '#core/sample/layout.ts';
import { convertedCounts } from './elements/conversion.ts';
import { createInclinometerElement } from './elements/inclinometer.ts';
import { createLevelLegs } from './elements/level-legs.ts';
import { IIS2ICLX } from './elements/part-character.ts';
import type { World } from './world.ts';

/**
 * The simulator's workshop: it measures each emulated instrument at known angles, up and down,
 * twice, fits a line and writes the certificate. The workshop's own length standard is wrong by
 * an amount drawn from the seed, which stays in every angle as it would in a real workshop; its
 * standard deviation is what the certificate states.
 */
export const RESIDUAL_SCALE = 0.0015;

const ANGLES_DEG = [-4, -3, -2, -1, -0.5, 0, 0.5, 1, 2, 3, 4];
const RUNS = 2;
/** Setting a gauge block under the bar, relative to the bar's metre. */
const SETTING_SINE = 2e-6;
/** Setting a leg on gauge blocks, mm. */
const SETTING_MM = 0.02;
const LIFTS_MM = [-320, -240, -160, -80, -40, 0, 40, 80, 160, 240, 320];

/** Settings of the chip in the workshop: those of the day would do as well, this is quicker. */
const WORKSHOP_ODR_HZ = 104;
const WORKSHOP_BANDWIDTH_HZ = 10.4;
const SETTLING_S = 1;
const AVERAGED_S = 4;
const CONVERSION_S = 1 / 128;
const WORKSHOP_C = 20;
/** Degrees from the workshop's warmth within which a certificate is stated to hold. */
const HOLDS_WITHIN_K = 10;
const DATE = '2026-11-24';
const MADE_BY = 'simulated workshop, Kettle Sound';

/** Points in the order they are measured: up, down, up, down. */
function upAndDown(values: readonly number[]): number[] {
  const down = [...values].reverse();
  return Array.from({ length: RUNS }, () => [...values, ...down]).flat();
}

/** A bench instead of a vessel: what stands on it feels this sine and this level difference. */
function benchWorld(): World & { sine: number; differenceMm: number } {
  const bench = {
    sine: 0,
    differenceMm: 0,
    specificForceG: () => ({ xG: 0, yG: bench.sine, zG: Math.sqrt(1 - bench.sine ** 2) }),
    legLevelMm: (_instrument: string, leg: 'port' | 'starboard') =>
      480 + (leg === 'starboard' ? 0.5 : -0.5) * bench.differenceMm,
    temperatureC: () => WORKSHOP_C,
  };
  return bench;
}

/** Certificate of an inclinometer: sin(true) = zero + scale sin(indicated). */
export function inclinometerCertificate(seed: number, instrument: string): Certificate {
  const chance = createRandom(seed, `${instrument} sine bar`);
  const standardError = chance.normal(RESIDUAL_SCALE);
  const world = benchWorld();
  const element = createInclinometerElement({ world, instrument, seed });
  const settings = {
    odrHz: WORKSHOP_ODR_HZ,
    bandwidthHz: WORKSHOP_BANDWIDTH_HZ,
    rangeG: RANGE_G,
  };
  element.configure(settings, 0);
  let timeS = 0;
  const points = upAndDown(ANGLES_DEG).map((angleDeg): [number, number] => {
    const reference = Math.sin(radiansFromDegrees(angleDeg));
    world.sine = reference * (1 + standardError) + chance.normal(SETTING_SINE);
    element.read(timeS + SETTLING_S);
    let sum = 0;
    const readings = AVERAGED_S * WORKSHOP_ODR_HZ;
    for (let k = 1; k <= readings; k++) {
      sum += element.read(timeS + SETTLING_S + k / WORKSHOP_ODR_HZ).yCounts;
    }
    timeS += SETTLING_S + AVERAGED_S;
    return [gFromCounts(sum / readings), reference];
  });
  const method = 'sine bar 1000 mm, 11 angles up and down, twice; holds within 10 K';
  return certificateOf(instrument, method, { points, scalePerK: IIS2ICLX.sensitivityPerK });
}

/** Certificate of the water tube: true level difference = zero + scale indicated, mm. */
export function waterTubeCertificate(seed: number, instrument: string): Certificate {
  const chance = createRandom(seed, `${instrument} gauge blocks`);
  const standardError = chance.normal(RESIDUAL_SCALE);
  const world = benchWorld();
  const legs = createLevelLegs({ world, instrument, seed });
  const levelMm = (input: number, startS: number): number =>
    levelMmFromVolts(
      voltsFromCounts(
        convertedCounts(legs, input, { startS, lastsS: CONVERSION_S, pgaField: PGA_FIELD }),
      ),
    );
  let timeS = 0;
  const points = upAndDown(LIFTS_MM).map((reference): [number, number] => {
    world.differenceMm = reference * (1 + standardError) + chance.normal(SETTING_MM);
    let sum = 0;
    const readings = AVERAGED_S * 25;
    for (let k = 0; k < readings; k++) {
      sum += levelMm(1, timeS) - levelMm(0, timeS + 0.02);
      timeS += 0.04;
    }
    return [sum / readings, reference];
  });
  const method = 'one leg lifted on gauge blocks, 11 heights, twice';
  return certificateOf(instrument, method, { points, scalePerK: 0 });
}

function certificateOf(
  instrument: string,
  method: string,
  { points, scalePerK }: { points: [number, number][]; scalePerK: number },
): Certificate {
  const line = straightLine(
    points.map(([indicated]) => indicated),
    points.map(([, reference]) => reference),
  );
  return {
    number: `KS-${instrument.toUpperCase()}-2611`,
    instrument,
    method,
    madeBy: MADE_BY,
    date: DATE,
    zero: line.intercept,
    scale: line.slope,
    scaleUncertainty: Math.hypot(
      RESIDUAL_SCALE,
      scalePerK * HOLDS_WITHIN_K,
      line.slopeUncertainty / line.slope,
    ),
    leftOver: line.residualDeviation,
    temperatureC: WORKSHOP_C,
    points,
  };
}

/** Certificates of the demo's outfit, without those of the instruments left uncalibrated. */
export function sineBarCertificates(
  seed: number,
  uncalibrated: readonly string[] = [],
): Certificate[] {
  return [
    inclinometerCertificate(seed, INSTRUMENTS.fore),
    inclinometerCertificate(seed, INSTRUMENTS.aft),
    waterTubeCertificate(seed, INSTRUMENTS.tube),
  ].filter((one) => !uncalibrated.includes(one.instrument));
}
