import type { Certificate } from './certificate.ts';

/** A scale less certain than this, relative, proves nothing a GM could rest on. Our setting. */
export const MOST_SCALE_UNCERTAINTY = 0.01;

/** What answers under an instrument's name: on which board, which part, at which addresses. */
export interface FoundAs {
  readonly board: string;
  readonly part: string;
  /** Empty: the board side did not say. */
  readonly addresses: readonly string[];
  /** The seal that was seen on it last; null: nobody looked. */
  readonly seal: string | null;
}

/**
 * Why an instrument with this newest certificate (or none) is shown but not used for GM; null:
 * used. A certificate that says what it was made for holds for that only; an old date removes
 * nothing (it is said elsewhere). `found` null: nothing has answered under this name.
 */
export function certificateRefusal(
  certificate: Certificate | undefined,
  found: FoundAs | null = null,
): string | null {
  if (certificate === undefined) return 'no calibration certificate';
  if (certificate.scaleUncertainty > MOST_SCALE_UNCERTAINTY) {
    return `scale uncertain by ${100 * certificate.scaleUncertainty} %`;
  }
  const { item, number } = certificate;
  if (item === undefined || found === null) return null;
  const is = (what: string, made: string, now: string) =>
    `certificate ${number} is of ${what} ${made}, what answers is ${now}`;
  if (item.part !== found.part) return is('part', item.part, found.part);
  if (item.seal !== undefined && found.seal !== null && item.seal !== found.seal)
    return is('seal', item.seal, found.seal);
  if (item.board !== found.board) return is('board', item.board, found.board);
  const addresses =
    item.address
      .toLowerCase()
      .match(/0x[0-9a-f]+|\d+/g)
      ?.map(Number) ?? [];
  const now = found.addresses.map(Number);
  const same = now.length === addresses.length && now.every((one) => addresses.includes(one));
  return now.length > 0 && !same
    ? is('address', item.address, found.addresses.join(' and '))
    : null;
}
