import { inclinometerPart } from '#core/part/inclinometer-parts.ts';
import type { Mounting } from '#core/sample/certificate.ts';
import type { StreamOpened } from '#core/sample/stream-item.ts';

/**
 * How an inclinometer stands that nobody has described: so that a stranger who plugs a board in
 * sees it move. Which side is down is not known, and without a certificate it is never used for
 * GM; a mounting the technician writes takes its place. A pair of legs cannot be guessed.
 */
export function assumedMountings(
  opened: StreamOpened,
  mountings: readonly Mounting[],
): readonly Mounting[] {
  const known = new Set(mountings.map(({ instrument }) => instrument));
  const assumed: Mounting[] = [];
  for (const { instrument, part, quantity } of opened.channels) {
    if (inclinometerPart(part) === undefined || quantity !== 'y' || known.has(instrument)) continue;
    known.add(instrument);
    assumed.push({
      instrument,
      label: instrument.slice(0, 40),
      kind: 'inclinometer',
      sign: 1,
      spanM: null,
      heightOverRollAxisM: 0,
      settlingS: 1,
    });
  }
  return assumed;
}
