/** Her period in one of the states of the plot. */
export interface StatePeriod {
  /** Place of the state. */
  readonly state: number;
  readonly periodS: number;
  readonly uncertaintyS: number;
}

/** A fit's uncertainty leaves out damping that is not linear and swings that differ: taken so much wider, ours. */
const WIDENED = 1.4;
const LEAST_SHARE = 0.005;
/** Held by so much of what the plot asks for at the amplitude she rolled with. */
const SHARES_FELT = [0.4, 0.7, 1];
const MOST_SUPPORT = 10;

/**
 * Do her periods change with the stiffness as a cause asks? Logarithm of how much better they are
 * explained with the change than without; negative where the change is missing. Null: fewer than
 * three periods, or no state differs from another. `stiffness`: share by which each state is stiffer.
 */
export function rollSupport(
  periods: readonly StatePeriod[],
  stiffness: readonly number[],
): number | null {
  if (periods.length < 3) return null;
  const shares = periods.map(({ state }) => stiffness[state]!);
  if (shares.every((share) => share === shares[0])) return null;
  const alike = misfit(
    periods,
    shares.map(() => 1),
  );
  const changed = SHARES_FELT.map((felt) =>
    misfit(
      periods,
      shares.map((share) => 1 / Math.sqrt(Math.max(0.05, 1 + felt * share))),
    ),
  );
  const support = (alike - Math.min(...changed)) / 2;
  return Math.max(-MOST_SUPPORT, Math.min(MOST_SUPPORT, support));
}

/** Chi squared of the periods about one mean, each times its factor. */
function misfit(periods: readonly StatePeriod[], factors: readonly number[]): number {
  const weights = periods.map(
    ({ periodS, uncertaintyS }) => Math.max(WIDENED * uncertaintyS, LEAST_SHARE * periodS) ** -2,
  );
  const top = periods.reduce((sum, one, k) => sum + weights[k]! * factors[k]! * one.periodS, 0);
  const mean = top / weights.reduce((sum, weight, k) => sum + weight * factors[k]! ** 2, 0);
  return periods.reduce(
    (sum, one, k) => sum + weights[k]! * (one.periodS - factors[k]! * mean) ** 2,
    0,
  );
}
