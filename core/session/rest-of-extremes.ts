import { checkFinite } from '../quantity/check.ts';

/**
 * Where a swinging bob comes to rest, from its successive extremes in order, mm: the mean of
 * (left + 2 middle + right) / 4 over all three neighbours, in which steady swing and steady
 * decay cancel. Two extremes give their mean, one stands for itself.
 */
export function restOfExtremes(extremesMm: readonly number[]): number {
  extremesMm.forEach((extreme, k) => {
    checkFinite(extreme, `extremesMm[${k}]`);
  });
  if (extremesMm.length < 3) {
    return extremesMm.reduce((sum, extreme) => sum + extreme, 0) / extremesMm.length;
  }
  let sum = 0;
  for (let k = 1; k < extremesMm.length - 1; k++) {
    sum += (extremesMm[k - 1]! + 2 * extremesMm[k]! + extremesMm[k + 1]!) / 4;
  }
  return sum / (extremesMm.length - 2);
}
