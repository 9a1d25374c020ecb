import type { HistoryInput } from '#core/stability/history-input.ts';

const figure = (value: number, standardUncertainty?: number) =>
  standardUncertainty === undefined ? { value } : { value, standardUncertainty };

/** A test of a lightship of 40 t, or of so much more; its VCG by so much higher. */
export function tested(on: string, moreT = 0, higherM = 0, uncertain = true) {
  return {
    on,
    kind: 'inclining' as const,
    lightship: {
      mass: figure(40 + moreT, uncertain ? 0.2 : undefined),
      lcg: figure(6.4, uncertain ? 0.02 : undefined),
      tcg: figure(0, uncertain ? 0.002 : undefined),
      vcg: figure(2.3 + higherM, uncertain ? 0.01 : undefined),
    },
  };
}

export const HISTORY: HistoryInput = {
  asOf: '2026-05-04',
  carriesPassengers: false,
  tests: [tested('2006-05-04'), tested('2016-05-04', 1.5)],
  changes: [],
};
