import type { AdmittedRole } from '#core/wire/access-message.ts';

/** How a connection reached us. */
export interface WayIn {
  /** The other end's address. */
  readonly address: string;
  /** From this very machine. */
  readonly loopback: boolean;
  /** Over TLS. */
  readonly secure: boolean;
}

export function isLoopback(address: string): boolean {
  return /^(::ffff:)?127(\.\d{1,3}){3}$/.test(address) || address === '::1';
}

/** What goes in clear over a dock's network may be read there: only what a witness may see does. */
export function mayComeBy(way: WayIn, role: AdmittedRole): boolean {
  return role === 'witness' || way.loopback || way.secure;
}

/** The way in words, for the record. */
export function wayWords({ address, loopback, secure }: WayIn): string {
  if (loopback) return 'this machine';
  return `${address} over ${secure ? 'TLS' : 'plain http'}`;
}
