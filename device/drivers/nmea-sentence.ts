import { Fault } from '#core/fault/fault.ts';

/** A sentence whose checksum holds. */
export interface NmeaSentence {
  /** Who speaks: two letters, or `P` for a maker's own sentence. */
  readonly talker: string;
  /** XDR, or a maker's own word such as ASHR. */
  readonly type: string;
  readonly fields: readonly string[];
}

/**
 * Takes a sentence apart. `*` and two hexadecimal digits end it: all characters between `$` and `*`
 * combined by exclusive or, the high half first (gpsd's notes on NMEA 0183, "Checksum"). One
 * without is not believed. Throws `nmea-checksum`, `nmea-malformed`.
 */
export function readSentence(text: string, where: string): NmeaSentence {
  const match = /^\$([^*]*)(?:\*([0-9A-Fa-f]{2}))?$/.exec(text);
  const [, body = '', check] = match ?? [];
  if (match === null) throw new Fault('nmea-checksum', where, text);
  if (check === undefined) throw new Fault('nmea-checksum', where, `${text} has none`);
  const computed = checksumOf(body);
  if (computed !== check.toUpperCase()) {
    throw new Fault('nmea-checksum', where, `${text}, computed ${computed}`);
  }
  const [address = '', ...fields] = body.split(',');
  const named = /^(?:(P)([A-Z0-9]{2,})|([A-Z0-9]{2})([A-Z0-9]{3}))$/.exec(address);
  if (named === null) throw new Fault('nmea-malformed', where, `${text}: address ${address}`);
  return { talker: named[1] ?? named[3] ?? '', type: named[2] ?? named[4] ?? '', fields };
}

/** Two hexadecimal digits. */
export function checksumOf(body: string): string {
  let sum = 0;
  for (const character of body) sum ^= character.charCodeAt(0);
  return sum.toString(16).toUpperCase().padStart(2, '0');
}
