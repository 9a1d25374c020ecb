import { degreesFromRadians, radiansFromDegrees } from '../quantity/angle.ts';
import type { Certificate, Mounting } from './certificate.ts';

/** How one instrument of a stream is to be read. */
export interface MountedInstrument {
  readonly mounting: Mounting;
  /** Null: the indication is taken as it is, and says so by `calibrated: false`. */
  readonly certificate: Certificate | null;
}

/** Indication to truth by the certificate's fitted line, in the unit of the fit. */
export function correctedIndication(indicated: number, certificate: Certificate | null): number {
  return certificate === null ? indicated : certificate.zero + certificate.scale * indicated;
}

/**
 * Heel from the sine of an inclinometer (specific force along y over gravity, so local gravity
 * must be that of the calibration within what GM can bear). Null beyond the vertical.
 */
export function heelDegFromSine(indicatedSine: number, of: MountedInstrument): number | null {
  const sine = correctedIndication(indicatedSine, of.certificate);
  if (Math.abs(sine) > 1) return null;
  return of.mounting.sign * degreesFromRadians(Math.asin(sine));
}

/**
 * Heel from a water tube: levels along the legs differ by span times tangent of heel. The
 * difference is starboard less port, mm. RangeError when the mounting has no span.
 */
export function heelDegFromLevelDifference(differenceMm: number, of: MountedInstrument): number {
  const trueMm = correctedIndication(differenceMm, of.certificate);
  return of.mounting.sign * degreesFromRadians(Math.atan(trueMm / spanMmOf(of.mounting)));
}

/**
 * Heel from a water tube whose feet feel pressure: they differ by span times the sine of heel.
 * The difference is that of the columns of water, starboard less port, mm. Null beyond the
 * vertical. RangeError when the mounting has no span.
 */
export function heelDegFromFootDifference(
  differenceMm: number,
  of: MountedInstrument,
): number | null {
  const sine = correctedIndication(differenceMm, of.certificate) / spanMmOf(of.mounting);
  return Math.abs(sine) > 1 ? null : of.mounting.sign * degreesFromRadians(Math.asin(sine));
}

/**
 * What an instrument must have indicated to tell a heel, in the unit of its fit: sine of an
 * inclinometer, mm of difference of a water tube whose legs are read as `senses` says. The way
 * back of the functions above. RangeError when a water tube's mounting has no span.
 */
export function indicationOfHeel(
  heelDeg: number,
  { mounting, certificate }: MountedInstrument,
  senses: 'level' | 'pressure',
): number {
  const angle = mounting.sign * radiansFromDegrees(heelDeg);
  const truth =
    mounting.kind === 'inclinometer'
      ? Math.sin(angle)
      : spanMmOf(mounting) * (senses === 'level' ? Math.tan(angle) : Math.sin(angle));
  return certificate === null ? truth : (truth - certificate.zero) / certificate.scale;
}

function spanMmOf({ spanM, instrument }: Mounting): number {
  if (spanM === null) throw new RangeError(`the water tube ${instrument} has no span`);
  return spanM * 1000;
}
