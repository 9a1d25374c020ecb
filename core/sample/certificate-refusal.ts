import type { Certificate } from './certificate.ts';

/** A scale less certain than this, relative, proves nothing a GM could rest on. Our setting. */
export const MOST_SCALE_UNCERTAINTY = 0.01;

/** Why an instrument with this newest certificate (or none) is shown but not used for GM; null: used. */
export function certificateRefusal(certificate: Certificate | undefined): string | null {
  if (certificate === undefined) return 'no calibration certificate';
  if (certificate.scaleUncertainty > MOST_SCALE_UNCERTAINTY) {
    return `scale uncertain by ${100 * certificate.scaleUncertainty} %`;
  }
  return null;
}
