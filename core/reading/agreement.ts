import { Fault } from '../fault/fault.ts';
import { straightLine } from '../numerics/least-squares.ts';
import { checkAllFinite, checkEqualLength } from '../quantity/check.ts';

/** Heels of one instrument, state by state; null where it was not read. */
export interface InstrumentHeels {
  readonly instrument: string;
  readonly heelDeg: readonly (number | null)[];
}

/** How one instrument tells the story of the others. Uncertainties are one standard uncertainty. */
export interface Agreement {
  readonly instrument: string;
  /** States in which it and another were read. */
  readonly states: number;
  /** What it shows beyond the mean of the others, at the middle of the heels. */
  readonly offsetDeg: number;
  readonly offsetUncertaintyDeg: number;
  /** How much more of a heel it shows than they do: 0.002 is 0.2 % more. */
  readonly scaleDifference: number;
  readonly scaleUncertainty: number;
  /** Standard deviation of what offset and scale leave. */
  readonly scatterDeg: number;
  readonly degreesOfFreedom: number;
}

/** A line through differences wants one state more than it has numbers. */
const FEWEST_STATES = 3;

/**
 * Compares instruments within states, where roll, wind and the true heel are the same for all and
 * cancel: the difference of each to the mean of the others, as a straight line over the heel. An
 * offset is the zero of a mounting and does no harm; a scale difference goes straight into GM;
 * the scatter is what the instruments themselves add to a reading.
 *
 * States in which an instrument or all others are missing are left out for it; an instrument with
 * fewer than three states left is not in the answer. Throws `input-too-few` for fewer than two
 * instruments, `input-unequal-length`, `input-not-finite`.
 */
export function agreementOfInstruments(instruments: readonly InstrumentHeels[]): Agreement[] {
  if (instruments.length < 2) {
    throw new Fault('input-too-few', 'instruments', `${instruments.length}, wanted 2`);
  }
  const states = instruments[0]!.heelDeg.length;
  for (const { instrument, heelDeg } of instruments) {
    checkEqualLength(heelDeg, instruments[0]!.heelDeg, instrument);
    checkAllFinite(
      heelDeg.filter((value) => value !== null),
      instrument,
    );
  }
  return instruments.flatMap((one) => agreementOf(one, instruments, states) ?? []);
}

function agreementOf(
  one: InstrumentHeels,
  instruments: readonly InstrumentHeels[],
  states: number,
): Agreement | null {
  const heels: number[] = [];
  const differences: number[] = [];
  for (let state = 0; state < states; state++) {
    const own = one.heelDeg[state] ?? null;
    const others = instruments
      .filter((other) => other !== one)
      .map((other) => other.heelDeg[state] ?? null)
      .filter((heel) => heel !== null);
    if (own === null || others.length === 0) continue;
    const mean = others.reduce((sum, heel) => sum + heel, 0) / others.length;
    heels.push(mean);
    differences.push(own - mean);
  }
  if (heels.length < FEWEST_STATES) return null;
  const middle = heels.reduce((sum, heel) => sum + heel, 0) / heels.length;
  const line = straightLine(
    heels.map((heel) => heel - middle),
    differences,
  );
  return {
    instrument: one.instrument,
    states: heels.length,
    offsetDeg: line.intercept,
    offsetUncertaintyDeg: line.interceptUncertainty,
    scaleDifference: line.slope,
    scaleUncertainty: line.slopeUncertainty,
    scatterDeg: line.residualDeviation,
    degreesOfFreedom: line.degreesOfFreedom,
  };
}
