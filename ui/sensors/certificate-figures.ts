import { degreesFromRadians } from '#core/quantity/angle.ts';
import type { Certificate } from '#core/sample/certificate.ts';
import { fixed, signed } from '../show/figure.ts';
import { halfWidth95 } from '../show/half-width.ts';

/** What a certificate proved, in the units of its instrument: a water tube's are millimetres. */
export function certificateFigures(
  certificate: Certificate,
  tube: boolean,
): { readonly name: string; readonly value: string }[] {
  const { zero, scale, scaleUncertainty, leftOver, method, madeBy, date } = certificate;
  return [
    { name: 'Number', value: certificate.number },
    {
      name: 'Zero',
      value: tube ? `${signed(zero, 2)} mm` : `${signed(degreesFromRadians(Math.asin(zero)), 4)}°`,
    },
    {
      name: 'Scale',
      value: `${fixed(scale, 4)} ± ${fixed(halfWidth95(scaleUncertainty * scale, Infinity), 4)}`,
    },
    {
      name: 'Left over by the fit',
      value: tube ? `${fixed(leftOver, 2)} mm` : `${fixed(degreesFromRadians(leftOver), 4)}°`,
    },
    { name: 'How, by whom', value: `${method}; ${madeBy}, ${date}` },
  ];
}
