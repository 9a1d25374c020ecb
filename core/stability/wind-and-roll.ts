import { degreesFromRadians, radiansFromDegrees } from '../quantity/angle.ts';
import { rollC } from '../reduction/roll-coefficient.ts';
import { type Answer, known, type Unknown, unknown } from './answer.ts';
import { type Asked, acrossOf, leversOf, stopRad } from './asked.ts';
import { netAreaMRad, restUnderRad, secondMeetingRad } from './moment-arm.ts';
import { tableValue } from './printed-table.ts';
import type { Quantity } from './rule-quantity.ts';

/** Standard gravity, m/s2 (3rd CGPM, 1901); the decree prints g without a figure. */
const GRAVITY_M_S2 = 9.80665;

type WindAndRoll = Extract<Quantity, { kind: 'wind-and-roll' }>;
type WindHeel = Extract<Quantity, { kind: 'wind-heel' }>;

/** Steady wind lever Lw1 = P A Z / (1000 g displacement), m: P N/m2, A m2, Z m, displacement t. */
export function windLever(asked: Asked, of: WindHeel['wind']): Answer {
  const { windage, displacementT } = asked.evidence;
  if (windage === null) return unknown('windage-not-given', 'area and lever');
  const pressure = tableValue(of.pressure, windage.heightOverWaterM);
  const leverM =
    (pressure.value * windage.areaM2 * windage.leverM) / (1000 * GRAVITY_M_S2 * displacementT);
  return known(leverM, { fromMemory: pressure.fromMemory });
}

/** Heel under the steady wind, degrees. */
export function windHeelAnswer(asked: Asked, of: WindHeel): Answer {
  const wind = windLever(asked, of.wind);
  if (!wind.known) return wind;
  const restRad = restUnderRad({ levers: leversOf(asked), armM: () => wind.value });
  const { fromMemory } = wind;
  return restRad === null
    ? known(90, { note: 'no-rest', fromMemory })
    : known(degreesFromRadians(restRad), { fromMemory });
}

/**
 * Roll to windward th1 = 109 k X1 X2 sqrt(r s), degrees (Spain, RD 543/2007 annex II 8), with the
 * period T = 2 C B / sqrt(GM). A vessel without GM rolls as slowly as the table goes.
 */
export function rollToWindward(asked: Asked, of: WindAndRoll['roll']): Answer {
  const { evidence, method } = asked;
  const { vessel, meanDraughtM, kgM, waterlineLengthM, blockCoefficient } = evidence;
  const { beamM } = vessel;
  if (beamM === null) return unknown('particulars-not-given', 'beam');
  const keel = keelFactor(asked, of);
  if (!keel.known) return keel;
  const gmM = evidence.gmFluidM(method);
  const c = rollC(beamM, meanDraughtM, waterlineLengthM);
  const periodS = gmM > 0 ? (2 * c * beamM) / Math.sqrt(gmM) : Number.POSITIVE_INFINITY;
  const s = tableValue(of.s, periodS);
  const x1 = tableValue(of.x1, beamM / meanDraughtM);
  const x2 = tableValue(of.x2, blockCoefficient);
  const r = 0.73 + (0.6 * (kgM - meanDraughtM)) / meanDraughtM;
  if (!(r * s.value >= 0)) return unknown('outside-validity', `r ${r}`);
  const heelDeg = 109 * keel.value * x1.value * x2.value * Math.sqrt(r * s.value);
  const fromMemory = [s, x1, x2, keel].some((one) => one.fromMemory);
  return known(heelDeg, { fromMemory });
}

function keelFactor({ evidence }: Asked, of: WindAndRoll['roll']): Answer {
  const { bilge, keelAreaM2, beamM } = evidence.vessel;
  if (bilge === 'sharp') return known(of.kSharp);
  if (bilge === null) return unknown('particulars-not-given', 'bilge: round or sharp');
  if (keelAreaM2 === null) return unknown('particulars-not-given', 'area of bilge and bar keels');
  if (keelAreaM2 === 0) return known(of.kRoundBare);
  if (beamM === null) return unknown('particulars-not-given', 'beam');
  return known(tableValue(of.k, (100 * keelAreaM2) / (evidence.waterlineLengthM * beamM)).value);
}

/**
 * Area b over area a. From the heel under the steady wind she rolls to windward; a gust then heels
 * her from there: a up to where the levers meet the gust's, b on from there to the least of flooding,
 * `toDeg` and the second meeting. 0 where she finds no rest under the gust or floods before it.
 */
export function windAndRollAnswer(asked: Asked, of: WindAndRoll): Answer {
  const levers = leversOf(asked);
  const wind = windLever(asked, of.wind);
  if (!wind.known) return wind;
  const roll = rollToWindward(asked, of.roll);
  if (!roll.known) return roll;
  const fromMemory = wind.fromMemory || roll.fromMemory;
  const steadyRad = restUnderRad({ levers, armM: () => wind.value });
  const gustM = of.gustTimes * wind.value;
  const gust = { levers, armM: () => gustM };
  const meetRad = restUnderRad(gust);
  if (steadyRad === null || meetRad === null) return known(0, { note: 'no-rest', fromMemory });
  const floods = stopRad(asked, of.stops) ?? Number.POSITIVE_INFINITY;
  if (floods <= meetRad) return known(0, { note: 'floods-before', fromMemory });
  const again = secondMeetingRad(gust, meetRad) ?? Number.POSITIVE_INFINITY;
  const endRad = Math.min(floods, radiansFromDegrees(of.toDeg), again);
  const startRad = steadyRad - radiansFromDegrees(roll.value);
  const short = reach(asked, startRad, endRad);
  if (short !== null) return short;
  if (endRad <= meetRad) return known(0, { fromMemory });
  const a = areaToWindward(asked, gustM, startRad, meetRad);
  return known(netAreaMRad(gust, meetRad, endRad) / a, { fromMemory });
}

function reach(asked: Asked, startRad: number, endRad: number): Unknown | null {
  const tooFar =
    -startRad > acrossOf(asked).mostHeelRad || endRad > leversOf(asked).mostHeelRad + 1e-9;
  if (!tooFar) return null;
  const [from, to] = [degreesFromRadians(startRad), degreesFromRadians(endRad)];
  return unknown('levers-too-short', `wanted from ${from} to ${to} degrees`);
}

/** Gust over righting lever from the windward roll up to their meeting, m rad. */
function areaToWindward(asked: Asked, gustM: number, startRad: number, meetRad: number): number {
  const righting =
    startRad < 0
      ? leversOf(asked).areaMRad(0, meetRad) - acrossOf(asked).areaMRad(0, -startRad)
      : leversOf(asked).areaMRad(startRad, meetRad);
  return gustM * (meetRad - startRad) - righting;
}
