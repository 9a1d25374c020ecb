import { degreesFromRadians } from '../quantity/angle.ts';
import type { ColumnFit } from './cause-fit.ts';
import type { InstrumentFinding } from './cause-instruments.ts';
import { CAUSES } from './cause-names.ts';
import type { CausePattern } from './cause-patterns.ts';
import type { CauseTrace, TraceSupport } from './cause-traces.ts';
import type { Cause, CauseEvidence, CauseReason } from './causes.ts';

/** A pattern with what speaks for it. */
export interface JudgedPattern {
  readonly pattern: CausePattern;
  readonly fit: ColumnFit;
  readonly plot: number;
  readonly roll: number | null;
  readonly told: TraceSupport;
  /** Shape it makes that is seen in the plot; null: none. */
  readonly shape: string | null;
  readonly support: number;
}

const degrees = (tangent: number) => degreesFromRadians(Math.atan(tangent));
const degWords = (tangent: number) => `${Math.abs(degrees(tangent)).toFixed(3)} deg`;
const percent = (share: number) => `${Math.abs(100 * share).toFixed(1)} %`;
const sideOf = (size: number) => (size > 0 ? 'starboard' : 'port');

export function patternEvidence(evidence: CauseEvidence, judged: JudgedPattern): Cause {
  const { pattern, fit, support } = judged;
  return {
    cause: pattern.cause,
    words: `${CAUSES[pattern.cause].is} (${placeWords(evidence, pattern, fit)})`,
    todo: CAUSES[pattern.cause].todo,
    support,
    evidence: [
      ...shapeReason(judged),
      plotReason(evidence, judged),
      ...rollReason(evidence, judged),
      ...traceReason(evidence, judged.told.traces),
    ],
    states: pattern.states,
    instrument: null,
    weight: pattern.weight,
  };
}

function placeWords(evidence: CauseEvidence, pattern: CausePattern, fit: ColumnFit): string {
  const { stateNames, weights } = evidence;
  const from = pattern.from === null ? '' : `from state ${stateNames[pattern.from]} on`;
  switch (pattern.cause) {
    case 'weight': {
      const { weight, distance } = weights[pattern.weight!]!;
      const whole =
        fit.size / (evidence.tangentPerMoment * largest(weights[pattern.weight!]!.moments));
      const acts =
        distance === null
          ? `${percent(whole)} ${whole > 0 ? 'more' : 'less'} moment than written`
          : `acts as carried ${(distance * (1 + whole)).toFixed(2)}, not ${distance.toFixed(2)}, or as ${percent(whole)} ${whole > 0 ? 'heavier' : 'lighter'}`;
      return `${weight} ${acts}`;
    }
    case 'disturbed-state':
      return `state ${stateNames[pattern.states[0]!]}, ${degWords(fit.size)} to ${sideOf(fit.size)}`;
    case 'moved':
      return `${from}, ${degWords(fit.size)} to ${sideOf(fit.size)}`;
    case 'line':
    case 'hull-asymmetry':
    case 'tank-wall': {
      const where = pattern.side === null ? 'to both sides' : `to ${sideOf(pattern.side)}`;
      return `${where}, where she is ${percent(1 / (1 + fit.size) - 1)} stiffer`;
    }
    case 'ground':
    case 'free-surface':
      return `${from}, ${percent(1 / (1 + fit.size) - 1)} ${fit.size < 0 ? 'stiffer' : 'softer'}`;
    case 'cross-connection':
      return `${percent(fit.size)} of a heel come late`;
    case 'list-drift': {
      const { column } = pattern;
      const whole = fit.size * (column.at(-1)! - column[0]!);
      return `${degWords(whole)} to ${sideOf(whole)} over the test`;
    }
    default:
      return `${degWords(fit.size)}`;
  }
}

const largest = (moments: readonly number[]) => Math.max(...moments.map(Math.abs));

function shapeReason({ shape }: JudgedPattern): CauseReason[] {
  return shape === null
    ? []
    : [{ from: 'plot', speaksFor: true, words: `the plot shows ${shape}` }];
}

function plotReason(evidence: CauseEvidence, { fit, plot }: JudgedPattern): CauseReason {
  const count = evidence.moments.length;
  const off = (rest: number, dof: number) => degWords(Math.sqrt(rest / Math.max(1, dof)));
  const before = off(fit.restBefore, count - 2);
  return {
    from: 'plot',
    speaksFor: plot > 0,
    words: `with it the states lie ${off(fit.rest, count - 3)} off the line, without it ${before}`,
  };
}

function rollReason(evidence: CauseEvidence, judged: JudgedPattern): CauseReason[] {
  const { roll, pattern, fit } = judged;
  if (roll === null || pattern.held === null || Math.abs(roll) < 1) return [];
  const asked = percent((1 + fit.size) ** 0.5 - 1);
  const faster = fit.size < 0 ? 'faster' : 'slower';
  const where = pattern.held.flatMap((one, i) => (one === 0 ? [] : [evidence.stateNames[i]!]));
  const words =
    roll > 0
      ? `her roll is ${faster} in states ${where.join(', ')}, as it asks for (about ${asked})`
      : `her roll is not ${faster} in states ${where.join(', ')} by the ${asked} it asks for`;
  return [{ from: 'roll', speaksFor: roll > 0, words }];
}

function traceReason(evidence: CauseEvidence, traces: readonly CauseTrace[]): CauseReason[] {
  if (traces.length === 0) return [];
  const kinds = [...new Set(traces.map(({ kind }) => kind))].join(', ');
  const states = [...new Set(traces.map(({ state }) => evidence.stateNames[state]!))].join(', ');
  const words = `seen in the course of the heel while waiting for state ${states}: ${kinds}`;
  return [{ from: 'traces', speaksFor: true, words }];
}

export function instrumentEvidence(
  evidence: CauseEvidence,
  found: InstrumentFinding & { readonly traces: readonly CauseTrace[] },
): Cause {
  const { cause, instrument, state, size, support } = found;
  const name = evidence.instrumentNames[instrument]!;
  const two = evidence.instrumentNames.length === 2;
  const who = two ? `${evidence.instrumentNames.join(' or ')}: these two disagree` : name;
  const at = state === null ? '' : evidence.stateNames[state]!;
  const off = `${degWords(size)} to ${sideOf(size)}`;
  const words = {
    scale: `${who}, ${percent(size)} ${size > 0 ? 'more' : 'less'} heel than the others`,
    slipped: `${who}, from state ${at} on, by ${off}`,
    'misread-instrument': `${who}, state ${at}, ${off}`,
  }[cause];
  return {
    cause,
    words: `${CAUSES[cause].is} (${words})`,
    todo: CAUSES[cause].todo,
    support,
    evidence: [
      {
        from: 'instruments',
        speaksFor: true,
        words: `the others of the same states, which share wind and people with it, agree with each other`,
      },
      ...traceReason(evidence, found.traces),
    ],
    states: state === null ? [] : [state],
    instrument: two ? null : instrument,
    weight: null,
  };
}

export function scatterEvidence(
  evidence: CauseEvidence,
  found: {
    readonly rest: number;
    readonly count: number;
    readonly claimed: number;
    readonly told: TraceSupport;
    readonly support: number;
  },
): Cause {
  const deviation = degWords(Math.sqrt(found.rest / (found.count - 2)));
  const repeats = evidence.repeatsProbability;
  return {
    cause: 'wind',
    words: `${CAUSES.wind.is} (${deviation} from state to state)`,
    todo: CAUSES.wind.todo,
    support: found.support,
    evidence: [
      {
        from: 'plot',
        speaksFor: true,
        words: `the states scatter by ${deviation}, their readings claim ${degWords(found.claimed)}`,
      },
      ...(repeats === null
        ? []
        : [
            {
              from: 'repeats' as const,
              speaksFor: repeats < 0.05,
              words:
                repeats < 0.05
                  ? 'the same arrangements, read again, differ by more than they claim'
                  : 'the same arrangements, read again, agree within what they claim',
            },
          ]),
      ...traceReason(evidence, found.told.traces),
    ],
    states: [],
    instrument: null,
    weight: null,
  };
}
