import type { Certificate } from '../sample/certificate.ts';

/** One raw pair of a certificate and what its line leaves over, in the unit of the fit. */
export interface CertificateResidual {
  readonly indicated: number;
  readonly reference: number;
  /** Reference less zero + scale * indicated. */
  readonly residual: number;
}

/** In the order the points were taken; drift with warmth is not taken off. */
export function certificateResiduals({
  points,
  zero,
  scale,
}: Pick<Certificate, 'points' | 'zero' | 'scale'>): CertificateResidual[] {
  return points.map(([indicated, reference]) => ({
    indicated,
    reference,
    residual: reference - (zero + scale * indicated),
  }));
}
