/**
 * The cells the estimator is tried on: how she rolls, how the instrument is, and how hard the
 * weight lands. The first eighteen are an orthogonal array (Taguchi's L18: every pair of levels of
 * any two columns comes equally often), so that each range's ends are met with all others; their
 * records are the estimator's own model with white noise and no wind, for which generalised least
 * squares is the bound. The others are deliberately something else than the estimator's model.
 */
export interface EstimatorCell {
  readonly name: string;
  readonly periodS: number;
  readonly dampingRatio: number;
  /** Standard deviation of the driven roll. */
  readonly rollDeg: number;
  /** Standard deviation of one 10 Hz sample by the instrument. */
  readonly noiseDeg: number;
  /** Amplitude of the ringing at the beginning. */
  readonly ringingDeg: number;
  readonly truth: 'model' | 'turbulent wind' | 'wave band' | 'two waves' | 'quadratic' | 'drift';
  /** Standard deviation of the heel by turbulent wind, or drift over a minute. */
  readonly slowDeg: number;
}

const PERIOD_S = [3, 5, 8] as const;
const DAMPING = [0.02, 0.05, 0.1] as const;
const ROLL_DEG = [0.05, 0.15, 0.5] as const;
const NOISE_DEG = [0.002, 0.02] as const;
const RINGING_DEG = [0, 0.5, 2] as const;

/** Columns: noise, period, damping, roll, ringing. */
const L18 = [
  ['00000', '00111', '00222', '01001', '01112', '01220', '02010', '02121', '02202'],
  ['10022', '10100', '10211', '11012', '11120', '11201', '12021', '12102', '12210'],
].flat();

const modelCells: readonly EstimatorCell[] = L18.map((row, k) => {
  const [noise, period, damping, roll, ringing] = [...row].map(Number);
  return {
    name: `m${String(k + 1).padStart(2, '0')}`,
    periodS: PERIOD_S[period!]!,
    dampingRatio: DAMPING[damping!]!,
    rollDeg: ROLL_DEG[roll!]!,
    noiseDeg: NOISE_DEG[noise!]!,
    ringingDeg: RINGING_DEG[ringing!]!,
    truth: 'model',
    slowDeg: 0,
  };
});

const other = (name: string, cell: Partial<EstimatorCell>): EstimatorCell => ({
  periodS: 5,
  dampingRatio: 0.05,
  rollDeg: 0.1,
  noiseDeg: 0.005,
  ringingDeg: 0.5,
  truth: 'model',
  slowDeg: 0,
  ...cell,
  name,
});

const otherCells: readonly EstimatorCell[] = [
  other('o-wind-light', { truth: 'turbulent wind', slowDeg: 0.006 }),
  other('o-wind-fresh', { truth: 'turbulent wind', slowDeg: 0.02 }),
  other('o-band', { truth: 'wave band' }),
  other('o-band-short', { truth: 'wave band', periodS: 3.5, rollDeg: 0.2 }),
  other('o-two-waves', { truth: 'two waves' }),
  other('o-quadratic', { truth: 'quadratic', ringingDeg: 2, dampingRatio: 0.03 }),
  other('o-drift', { truth: 'drift', slowDeg: 0.003 }),
];

export const ESTIMATOR_CELLS: readonly EstimatorCell[] = [...modelCells, ...otherCells];
