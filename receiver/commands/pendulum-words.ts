import type { SessionResult } from '#core/session/session-result.ts';
import { fixedWords } from './figure.ts';

/** How many pendulums were read, how long they are, and what the texts ask of them. */
export function pendulumWords({
  used,
  lengthsMm,
  asks,
}: SessionResult['agreement']['pendulums']): string[] {
  const named = used.map((name, k) => {
    const lengths = (lengthsMm[k] ?? []).map((one) => fixedWords(one, 0));
    return `${name} (${lengths.join(', then ')} mm)`;
  });
  const head =
    used.length === 0
      ? 'No pendulum was read.'
      : `Pendulums read: ${used.length}: ${named.join(', ')}`;
  const rows = asks.map(
    ({ asks: asked, found, met, source }) =>
      `  ${met ? 'met    ' : 'not met'}  ${asked}: ${found} (${source})`,
  );
  return [head, 'What the texts ask:', ...rows];
}
