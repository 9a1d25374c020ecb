import { BOX } from '#tests/core/reduction/closed-hulls.ts';

/** The box L 20, B 6, depth 2.6 m as files: offsets, hydrostatics at four draughts, KN at one volume and near it. */
export const BOX_OFFSETS_CSV = [
  'xM,zM,halfBreadthM',
  ...[0, 4, 8, 12, 16, 20].flatMap((xM) =>
    [
      [0, 0],
      [0, 3],
      [0, 3],
      [1.3, 3],
      [2.6, 3],
    ].map(([zM, half]) => `${xM},${zM},${half}`),
  ),
].join('\n');

export const BOX_TABLE_CSV = [
  'draughtM,displacementT,lcbM,kmTransverseM,kbM,trimMomentTMPerCm',
  ...[1.2, 1.3, 1.4, 1.5, 1.6, 1.7, 1.8].map((t) =>
    [t, 123 * t, 10, t / 2 + 3 / t, t / 2, (123 * t * 400) / 12 / t / 20 / 100].join(','),
  ),
].join('\n');

export const BOX_KN_CSV = [
  'displacementT,heelDeg,knM',
  ...[1.3, 1.4, 1.5, 1.6, 1.7].flatMap((t) =>
    [0, 1, 2, 3, 4, 5, 6, 8, 10].map((heelDeg) => {
      const heel = (heelDeg * Math.PI) / 180;
      const kn = (3 / t + t / 2 + (1.5 / t) * Math.tan(heel) ** 2) * Math.sin(heel);
      return [123 * t, heelDeg, t === 1.5 ? BOX.kn(heel) : kn].join(',');
    }),
  ),
].join('\n');
