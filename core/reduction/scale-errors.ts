import type { ScaleSpace } from './scale.ts';

/** How well one instrument's scale is known. */
export interface InstrumentScale {
  readonly instrument: string;
  /** Relative, altogether; 0 where none is stated. */
  readonly scaleUncertainty: number;
  /** The standard it was calibrated on, and its part of that, which all of that standard share. */
  readonly standard?: { readonly number: string; readonly commonShare: number } | undefined;
  readonly space: ScaleSpace;
}

/** One error of scale, and by how much (relative, one standard uncertainty) it moves each instrument. */
export interface ScaleError {
  readonly cause: string;
  readonly shareOf: (instrument: number) => number;
}

/**
 * The independent errors of scale among some instruments: what is left to each alone, and one for
 * each calibration standard, which moves all it calibrated together (JCGM 100:2008, F.1.2.3).
 */
export function scaleErrors(instruments: readonly InstrumentScale[]): ScaleError[] {
  const standards = [...new Set(instruments.flatMap(({ standard }) => standard?.number ?? []))];
  return [
    ...instruments.map((one, j) => ({
      cause: `scale of ${one.instrument}`,
      shareOf: (k: number) => (k === j ? ownUncertainty(one) : 0),
    })),
    ...standards.map((number) => ({
      cause: `calibration standard ${number}`,
      shareOf: (k: number) => {
        const { standard } = instruments[k]!;
        return standard?.number === number ? standard.commonShare : 0;
      },
    })),
  ];
}

/** What is left when the standard's part, counted once, is taken out. */
function ownUncertainty({ scaleUncertainty, standard }: InstrumentScale): number {
  const common = Math.min(standard?.commonShare ?? 0, scaleUncertainty);
  return Math.sqrt(scaleUncertainty ** 2 - common ** 2);
}
