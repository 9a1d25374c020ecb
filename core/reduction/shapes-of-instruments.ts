import { compareInstruments } from './instrument-comparison.ts';
import { type Column, interceptColumns, lineRows, shrunkRest } from './line-model.ts';
import { type Candidate, type LookedFor, largest, type PlottedTest } from './shape.ts';

/** One reading that the other instruments of its state contradict. */
export function oneReadingOff(plotted: PlottedTest): LookedFor {
  const candidates = readingCandidates(plotted);
  return largest(
    'one reading off',
    candidates,
    ({ place }) => {
      const { state, instrument } = candidates[place]!;
      const who = plotted.instrumentNames[instrument];
      return `${who} disagrees with the other instruments in state ${plotted.stateNames[state]} alone; read it again`;
    },
    ({ place }) => ({
      states: [candidates[place]!.state],
      instrument: candidates[place]!.instrument,
    }),
  );
}

interface ReadingCandidate extends Candidate {
  readonly state: number;
  readonly instrument: number;
}

/** Each reading's residual within its state, studentised without itself. */
function readingCandidates({ readings }: PlottedTest): ReadingCandidate[] {
  const rows = lineRows(readings);
  const intercepts = interceptColumns(rows);
  const before = shrunkRest(rows, intercepts, Number.POSITIVE_INFINITY);
  const degreesOfFreedom = rows.rows.length - rows.states - before.rank - 1;
  if (degreesOfFreedom < 1) return [];
  return rows.rows
    .flatMap(({ state, instrument }) => {
      const only: Column = (i, j) => (i === state && j === instrument ? 1 : 0);
      const after = shrunkRest(rows, [...intercepts, only], Number.POSITIVE_INFINITY);
      if (after.rank === before.rank || after.rest <= 1e-12 * before.rest) return [];
      const f = ((before.rest - after.rest) / after.rest) * degreesOfFreedom;
      return [{ t: Math.sqrt(Math.max(0, f)), degreesOfFreedom, place: 0, state, instrument }];
    })
    .map((candidate, place) => ({ ...candidate, place }));
}

/**
 * One instrument shows another heel for the same moment than the others, by more than the readings'
 * scatter and what the certificates leave of the scales account for together. Quiet readings would
 * otherwise show every calibration's own small error as trouble.
 */
export function oneScale(plotted: PlottedTest): LookedFor {
  const candidates = scaleCandidates(plotted);
  return largest(
    'scale of one instrument',
    candidates,
    ({ place, t }) =>
      candidates.length === 2
        ? 'the two instruments differ in scale; a third would tell which is wrong'
        : `${plotted.instrumentNames[place]} shows ${t > 0 ? 'more' : 'less'} heel for the same moment than the others; check its scale, length or span`,
    ({ place }) => ({ instrument: place }),
  );
}

function scaleCandidates(plotted: PlottedTest): Candidate[] {
  const { ownSlope, alone } = compareInstruments(plotted.readings);
  const slope = plotted.fit.slope.value;
  return ownSlope.flatMap((tested, place) => {
    const own = alone[place];
    const others = alone.flatMap((one, k) => (k === place || one == null ? [] : [one.slope]));
    if (tested === null || own === null || own === undefined || others.length === 0) return [];
    const difference = own.slope - others.reduce((sum, one) => sum + one, 0) / others.length;
    const scatterVariance = tested.f === 0 ? Number.POSITIVE_INFINITY : difference ** 2 / tested.f;
    const variance = scatterVariance + (slope * scaleDifferenceUncertainty(plotted, place)) ** 2;
    if (variance === 0) return [];
    // Welch and Satterthwaite: the certificates' part counts as known (JCGM 100, G.4).
    const share = Number.isFinite(scatterVariance) ? scatterVariance / variance : 1;
    const degreesOfFreedom = share === 0 ? Number.POSITIVE_INFINITY : tested.lowerDof / share ** 2;
    return [{ t: difference / Math.sqrt(variance), degreesOfFreedom, place }];
  });
}

/** Relative standard uncertainty of one instrument's scale less the mean of the others'. */
function scaleDifferenceUncertainty(
  { instrumentScaleUncertainties: scales }: PlottedTest,
  place: number,
): number {
  const others = scales.filter((_, k) => k !== place);
  const othersVariance = others.reduce((sum, one) => sum + one ** 2, 0) / others.length ** 2;
  return Math.sqrt((scales[place] ?? 0) ** 2 + othersVariance);
}
