import { uncertainHalfWidth95 } from '../numerics/coverage.ts';
import { radiansFromDegrees } from '../quantity/angle.ts';
import type { SessionResult } from '../session/session-result.ts';

/** A mark of the plot: one state's moment and mean tangent. Hollow: live, not recorded. */
export interface PlotMark {
  readonly key: string;
  readonly state: number;
  readonly momentTM: number;
  readonly tangent: number;
  readonly leftOver: number | null;
  /** Half the width of the 95 % interval of the mean, in tangent. */
  readonly halfWidth: number | null;
  readonly hollow: boolean;
}

export interface PlotScale {
  readonly mostMomentTM: number;
  readonly momentTicks: readonly number[];
  readonly mostTangent: number;
  readonly tangentTicks: readonly number[];
}

/** States at one moment, numbered together. */
export interface Together {
  readonly key: string;
  readonly numbers: string;
  readonly momentTM: number;
  readonly tangent: number;
}

/** 1, 2 or 5 times a power of ten, so that about `parts` of it make the reach. */
export function roundStep(reach: number, parts: number): number {
  const rough = reach / parts;
  const power = 10 ** Math.floor(Math.log10(rough));
  const lead = rough / power;
  return power * (lead <= 1 ? 1 : lead <= 2 ? 2 : lead <= 5 ? 5 : 10);
}

/** Ticks 0, ± step, ± 2 steps ... up to the reach, in order. */
export function ticksTo(reach: number, parts: number): number[] {
  const step = roundStep(reach, parts);
  const most = Math.floor(reach / step + 1e-9);
  return Array.from({ length: 2 * most + 1 }, (_, k) => (k - most) * step);
}

/** Both axes reach equally far to port and to starboard, so that 0 is in the middle. */
export function scaleOf(marks: readonly PlotMark[]): PlotScale {
  const far = (values: readonly number[]) => Math.max(...values.map(Math.abs), 0);
  const mostMomentTM = far(marks.map((mark) => mark.momentTM)) * 1.2 || 1;
  const tangent = far(marks.map((mark) => mark.tangent)) * 1.15 || 0.01;
  const step = roundStep(tangent, 3);
  const mostTangent = Math.ceil(tangent / step) * step;
  return {
    mostMomentTM,
    momentTicks: ticksTo(mostMomentTM, 3),
    mostTangent,
    tangentTicks: ticksTo(mostTangent, 3),
  };
}

export function marksOfResult(result: Pick<SessionResult, 'points'>): PlotMark[] {
  return result.points.map((point) => ({
    key: `${point.state}-${point.readingLine ?? 'hand'}`,
    state: point.state,
    momentTM: point.heelingMomentTM,
    tangent: point.tangent,
    leftOver: point.tangent - point.fittedTangent,
    halfWidth:
      point.claimedErrorDeg === null
        ? null
        : uncertainHalfWidth95({
            value: point.tangent,
            standardUncertainty: radiansFromDegrees(point.claimedErrorDeg),
            degreesOfFreedom: Number.POSITIVE_INFINITY,
          }) *
          (1 + point.tangent ** 2),
    hollow: false,
  }));
}

/** Repeated states are numbered together: those whose marks would cover each other. */
export function numberedTogether(marks: readonly PlotMark[], nearTM: number): Together[] {
  const groups: { numbers: number[]; momentTM: number; tangent: number }[] = [];
  for (const mark of marks) {
    const near = groups.find((group) => Math.abs(group.momentTM - mark.momentTM) < nearTM);
    if (near === undefined) {
      groups.push({ numbers: [mark.state], momentTM: mark.momentTM, tangent: mark.tangent });
    } else near.numbers.push(mark.state);
  }
  return groups.map((group) => ({
    key: group.numbers.join('-'),
    numbers: group.numbers.join(', '),
    momentTM: group.momentTM,
    tangent: group.tangent,
  }));
}

/** Sideways steps, in marks, that keep bars of equal moments from covering each other. */
export function sideBySide(marks: readonly PlotMark[], nearTM: number): number[] {
  const steps: number[] = [];
  for (const mark of marks) {
    const alike = marks.filter((other) => Math.abs(other.momentTM - mark.momentTM) < nearTM);
    steps.push(alike.indexOf(mark) - (alike.length - 1) / 2);
  }
  return steps;
}
