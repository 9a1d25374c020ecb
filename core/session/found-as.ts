import type { FoundAs } from '../sample/certificate-refusal.ts';
import type { SessionState } from './session.ts';

/**
 * What answered under an instrument's name last, of the streams opened until a receiver time; null:
 * nothing did. On a serial line the line's name stands for the board.
 */
export function foundAs(
  { streams, signs }: Pick<SessionState, 'streams' | 'signs'>,
  instrument: string,
  untilS = Number.POSITIVE_INFINITY,
): FoundAs | null {
  const stream = streams.findLast(
    ({ openedS, parts }) => openedS <= untilS && parts.some((one) => one.instrument === instrument),
  );
  const own = stream?.parts.find((one) => one.instrument === instrument);
  if (stream === undefined || own === undefined) return null;
  const seal = signs.findLast(
    (one) => one.instrument === instrument && one.seal !== null && one.written.receiverS <= untilS,
  )?.seal;
  return {
    ...{ board: stream.board, part: own.part, addresses: own.addresses ?? [] },
    seal: seal ?? null,
  };
}
