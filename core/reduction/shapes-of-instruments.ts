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

/** One instrument shows another heel for the same moment than the others. */
export function oneScale(plotted: PlottedTest): LookedFor {
  const { ownSlope, alone } = compareInstruments(plotted.readings);
  const candidates = ownSlope.flatMap((tested, place) => {
    const own = alone[place];
    if (tested === null || own === null || own === undefined) return [];
    const t = Math.sign(own.slope - plotted.fit.slope.value) * Math.sqrt(tested.f);
    return [{ t, degreesOfFreedom: tested.lowerDof, place }];
  });
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
