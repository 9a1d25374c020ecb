import { MOST_SWING, type SteadyMean, steadyMean } from '#core/calibration/steady-mean.ts';
import { degreesFromRadians } from '#core/quantity/angle.ts';
import { indicationOfHeel, type MountedInstrument } from '#core/sample/indicated-heel.ts';

/** The receiver's picture has ten samples a second; a number is read over the last five seconds. */
const SAMPLES_PER_S = 10;
const READ_OVER_S = 5;

/** What an instrument itself shows, without certificate and sign: degrees, of a water tube mm. */
export function shownOf(
  heelDeg: number | null,
  of: MountedInstrument,
  senses: 'level' | 'pressure',
): number | null {
  if (heelDeg === null) return null;
  const indicated = indicationOfHeel(heelDeg, of, senses);
  if (of.mounting.kind === 'water-tube') return indicated;
  return Math.abs(indicated) > 1 ? null : degreesFromRadians(Math.asin(indicated));
}

export function shownNow(
  heelDeg: readonly (number | null)[],
  of: MountedInstrument,
  senses: 'level' | 'pressure',
): SteadyMean | null {
  const latest = heelDeg.slice(-SAMPLES_PER_S * READ_OVER_S);
  return steadyMean(
    latest.map((one) => shownOf(one, of, senses)),
    {
      samplesPerS: SAMPLES_PER_S,
      seconds: READ_OVER_S,
      mostSwing: MOST_SWING[of.mounting.kind],
    },
  );
}

/** Why what it shows cannot be taken yet; null: it stands still. */
export function whyNotYet(reading: SteadyMean | null, old: boolean): string | null {
  if (old) return 'the link is lost';
  if (reading === null) return 'nothing comes from it';
  if (reading.seconds < READ_OVER_S) return `${READ_OVER_S - reading.seconds} s more`;
  return reading.isSteady ? null : 'not at rest';
}
