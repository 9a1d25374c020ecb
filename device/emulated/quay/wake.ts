import { GRAVITY_M_S2 } from '../vessel.ts';

/** A boat that passed at a speed and distance, deep water. */
export interface PassingBoat {
  readonly speedMS: number;
  readonly distanceM: number;
  /** Wave slope at the height of the wake, radians. */
  readonly slopeRad: number;
}

/** Seconds in which the waves grow after the first arrival, and in which they die away. */
const GROWING_S = 2.5;
const DYING_S = 13;
/** Beyond this the wake is under a ten-thousandth. */
const LONGEST_S = 120;

/**
 * Kelvin's wake in deep water: the cusp line reaches the quay 2 sqrt2 y0/U after the boat is
 * abeam, at the frequency sqrt(3/2) g / (2 pi U).
 */
export function wakeArrivalS(boat: PassingBoat): number {
  return (2 * Math.SQRT2 * boat.distanceM) / boat.speedMS;
}

export function wakeArrivalFrequencyHz(boat: PassingBoat): number {
  return (Math.sqrt(1.5) * GRAVITY_M_S2) / (2 * Math.PI * boat.speedMS);
}

/** Ever shorter waves follow: the frequency rises by g / (4 pi y0) each second. */
export function wakeFrequencyRiseHzS(boat: PassingBoat): number {
  return GRAVITY_M_S2 / (4 * Math.PI * boat.distanceM);
}

/** Wave frequency at the quay, Hz, `sinceAbeamS` after the boat was abeam; null before it arrives. */
export function wakeFrequencyHz(boat: PassingBoat, sinceAbeamS: number): number | null {
  const sinceS = sinceAbeamS - wakeArrivalS(boat);
  if (sinceS < 0) return null;
  return wakeArrivalFrequencyHz(boat) + wakeFrequencyRiseHzS(boat) * sinceS;
}

/** Wave slope at the quay, radians; 0 before the wake arrives and when it has died away. */
export function wakeSlopeRad(boat: PassingBoat, sinceAbeamS: number): number {
  const sinceS = sinceAbeamS - wakeArrivalS(boat);
  if (sinceS <= 0 || sinceS > LONGEST_S) return 0;
  const turns =
    wakeArrivalFrequencyHz(boat) * sinceS + (wakeFrequencyRiseHzS(boat) * sinceS * sinceS) / 2;
  const height = (1 - Math.exp(-((sinceS / GROWING_S) ** 2))) * Math.exp(-sinceS / DYING_S);
  return boat.slopeRad * height * Math.sin(2 * Math.PI * turns);
}

/**
 * Share of a wave's slope that turns a vessel of this beam: the mean slope over her breadth, for
 * short waves lift both sides at once. Wavelength g / (2 pi f2) (deep water).
 */
export function waveSlopeShare(beamM: number, frequencyHz: number): number {
  const wavelengthM = GRAVITY_M_S2 / (2 * Math.PI * frequencyHz ** 2);
  const half = (Math.PI * beamM) / wavelengthM;
  return half === 0 ? 1 : Math.sin(half) / half;
}
