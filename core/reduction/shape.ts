import { studentTBeyond } from '../numerics/student-t.ts';
import type { LineFit } from './line.ts';
import type { LineReadings } from './line-model.ts';
import { type StateTest, testStateColumns } from './state-test.ts';

export type ShapeName =
  | 'one state off'
  | 'one reading off'
  | 'a step'
  | 'one side short'
  | 'a curve'
  | 'scale of one instrument'
  | 'moment of one weight';

/** A shape as looked for in the points: what the plot would show, not what caused it. */
export interface LookedFor {
  readonly shape: ShapeName;
  /** In words, what it would be if it is more than chance, and what to do. */
  readonly words: string;
  /** t with its sign; null when the shape could not be looked for. */
  readonly t: number | null;
  readonly degreesOfFreedom: number | null;
  /** Probability of so much by chance, the number of places looked at counted in (Bonferroni). */
  readonly probability: number | null;
  /** Number of places it was looked for at. */
  readonly places: number;
  /** States the shape points at, by their place in the input. */
  readonly states: readonly number[];
  readonly instrument: number | null;
  readonly weight: number | null;
}

/** What the shapes are looked for in. */
export interface PlottedTest {
  readonly readings: LineReadings;
  readonly fit: LineFit;
  readonly stateNames: readonly string[];
  readonly instrumentNames: readonly string[];
  /** What each instrument's certificate leaves of its scale, relative; 0 where it is taken as exact. */
  readonly instrumentScaleUncertainties: readonly number[];
  /** Moment each weight has brought, by state; empty when only totals are known. */
  readonly weights: readonly { readonly weight: string; readonly moments: readonly number[] }[];
}

/** One place a shape could stand at, and its t. */
export interface Candidate {
  readonly t: number;
  readonly degreesOfFreedom: number;
  readonly place: number;
}

/** The largest of several, its probability times how many were looked at. */
export function largest(
  shape: ShapeName,
  candidates: readonly Candidate[],
  words: (found: Candidate) => string,
  marks: (found: Candidate) => Partial<Pick<LookedFor, 'states' | 'instrument' | 'weight'>>,
): LookedFor {
  const found = candidates.reduce<Candidate | null>(
    (most, one) => (most === null || Math.abs(one.t) > Math.abs(most.t) ? one : most),
    null,
  );
  const nothing = { states: [], instrument: null, weight: null };
  if (found === null) {
    const why = 'could not be looked for: too few readings, or none that tell it apart';
    return {
      shape,
      words: why,
      t: null,
      degreesOfFreedom: null,
      probability: null,
      places: 0,
      ...nothing,
    };
  }
  const { t, degreesOfFreedom } = found;
  const probability = Math.min(1, studentTBeyond(t, degreesOfFreedom) * candidates.length);
  return {
    shape,
    words: words(found),
    t,
    degreesOfFreedom,
    probability,
    places: candidates.length,
    ...nothing,
    ...marks(found),
  };
}

export function candidateOf(tested: StateTest | null, place: number): Candidate[] {
  if (tested === null) return [];
  const size = Math.sqrt(tested.test.f);
  const t = tested.coefficients[0]! < 0 && size > 0 ? -size : size;
  return [{ t, degreesOfFreedom: tested.test.lowerDof, place }];
}

export function columnCandidates(
  plotted: PlottedTest,
  columns: readonly (readonly number[])[],
): Candidate[] {
  return columns.flatMap((column, place) =>
    candidateOf(testStateColumns(plotted.readings, plotted.fit, [column]), place),
  );
}

export const sideOf = (t: number) => (t > 0 ? 'to starboard' : 'to port');
