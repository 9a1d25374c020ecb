import { type ClaimedScatter, PointsRest, supportOf } from './cause-fit.ts';
import type { CauseName } from './cause-names.ts';
import type { CauseEvidence } from './causes.ts';

/** What one instrument did, against the mean of the others in the same states. */
export interface InstrumentFinding {
  readonly cause: Extract<CauseName, 'scale' | 'slipped' | 'misread-instrument'>;
  readonly instrument: number;
  /** State it stands from, or stands in; null for a scale. */
  readonly state: number | null;
  /** Tangent, or share of the scale. */
  readonly size: number;
  readonly support: number;
}

/** Points that a claim counts as: four where readings claim an error, one where none does. Ours. */
export function believedFreedom(claimedTangent: number | null): number {
  return claimedTangent === null ? 1 : 4;
}

/** An instrument's own scatter as taken beforehand, tangent: 0.003 degree, our setting. */
const OWN_TANGENT = 0.003 * (Math.PI / 180);
const ROOT_OF_OTHERS = 1.25;

/** The likeliest of each kind; a scale only where it is seen beyond what certificates leave. */
export function instrumentFindings(evidence: CauseEvidence): InstrumentFinding[] {
  const count = evidence.instrumentNames.length;
  if (count < 2) return [];
  const found = evidence.instrumentNames.flatMap((_, j) => findingsOf(evidence, j));
  const kinds = ['scale', 'slipped', 'misread-instrument'] as const;
  return kinds.flatMap((kind) => {
    const of = found.filter((one) => one.cause === kind);
    return of.length === 0 ? [] : [of.reduce((a, b) => (b.support > a.support ? b : a))];
  });
}

function findingsOf(evidence: CauseEvidence, j: number): InstrumentFinding[] {
  const { moments, tangents, instrumentNames } = evidence;
  const read = tangents.flatMap((row, state) => {
    const own = row[j] ?? null;
    const others = row.filter((one, k): one is number => k !== j && one !== null);
    if (own === null || others.length === 0) return [];
    return [{ state, off: own - others.reduce((sum, one) => sum + one, 0) / others.length }];
  });
  if (read.length < 4) return [];
  const off = read.map((one) => one.off);
  const level = read.map(() => 1);
  const x = read.map(({ state }) => moments[state]!);
  const claimed = {
    deviation: OWN_TANGENT * ROOT_OF_OTHERS,
    freedom: believedFreedom(evidence.claimedTangent),
  };
  const beside = new PointsRest(off, [level, x]);
  const many = instrumentNames.length;
  const looked = (
    cause: 'slipped' | 'misread-instrument',
    k: number,
    column: number[],
    places: number,
  ) => {
    const fit = beside.with(column);
    if (fit === null) return [];
    const support = supportOf(fit, read.length, claimed, places * many);
    return [{ cause, instrument: j, state: read[k]!.state, size: fit.size, support }];
  };
  const places = read.map((_, k) => k);
  return [
    ...scaleFinding(evidence, j, new PointsRest(off, [level]).with(x), read.length, claimed),
    ...places.slice(1, -1).flatMap((k) =>
      looked(
        'slipped',
        k,
        places.map((i) => (i >= k ? 1 : 0)),
        places.length - 2,
      ),
    ),
    ...places.flatMap((k) =>
      looked(
        'misread-instrument',
        k,
        places.map((i) => (i === k ? 1 : 0)),
        places.length,
      ),
    ),
  ];
}

function scaleFinding(
  evidence: CauseEvidence,
  instrument: number,
  fit: ReturnType<PointsRest['with']>,
  count: number,
  claimed: ClaimedScatter,
): InstrumentFinding[] {
  const seen = evidence.shapes.some(
    (shape) => shape.shape === 'scale of one instrument' && shape.seen,
  );
  if (!seen || fit === null) return [];
  const support = supportOf(fit, count, claimed, evidence.instrumentNames.length);
  const size = fit.size / evidence.tangentPerMoment;
  return [{ cause: 'scale', instrument, state: null, size, support }];
}
