import type { RollOutput, RollPeriodOutput, RollRunOutput } from '#core/reduction/roll-output.ts';
import { fixedWords, measuredWords, significantWords, tableWords } from './figure.ts';

const seconds = (value: number) => `${fixedWords(value, 1)} s`;

/** A roll test as lines of the terminal. */
export function rollWords(answer: RollOutput): string[] {
  const words = answer.instruments.flatMap(instrumentWords);
  const { period } = answer;
  if (period === null) return [...words, '', 'No free roll is seen in this record.'];
  words.push('', `Roll period, by ${answer.used}:`, ...periodWords(period));
  if (answer.gm.length > 0) words.push('', 'Fluid GM by the roll period:', ...gmWords(answer));
  if (answer.kept?.ownCoefficient != null) {
    const { ownCoefficient, ownCoefficientUncertainty, condition } = answer.kept;
    const f = `${significantWords(ownCoefficient, 4)} ± ${significantWords(ownCoefficientUncertainty ?? 0, 2)}`;
    words.push('', `Her own f = T sqrt(GM) / B: ${f} (one standard uncertainty), ${condition}`);
  }
  if (answer.years !== null) words.push('', ...yearsWords(answer.years));
  return words;
}

function instrumentWords(one: RollOutput['instruments'][number]): string[] {
  const left = [
    ...(one.missing > 0 ? [`${one.missing} missing`] : []),
    ...(one.late > 0 ? [`${one.late} late or doubled, not used`] : []),
  ];
  const head = `${one.instrument}: ${[`${one.samples} samples`, ...left].join(', ')}`;
  return [head, ...one.runs.flatMap(runWords)];
}

function runWords(run: RollRunOutput): string[] {
  const span = `  ${fixedWords(run.fromS, 1)} to ${seconds(run.toS)}`;
  if (run.refused !== null)
    return [`${span}  refused (${run.refused.reason}): ${run.refused.words}`];
  const period = measuredWords(run.periodS.value, run.periodS.halfWidth95, 's');
  const damping = measuredWords(
    run.dampingRatio.value,
    run.dampingRatio.halfWidth95,
    'of critical',
  );
  const swing = `${fixedWords(run.amplitudeFromDeg, 2)} falling to ${fixedWords(run.amplitudeToDeg, 2)} deg`;
  return [
    `${span}  ${fixedWords(run.cycles, 1)} cycles, ${swing}: period ${period}, damping ${damping}`,
  ];
}

function periodWords(period: RollPeriodOutput): string[] {
  const words = [
    `  ${measuredWords(period.periodS.value, period.periodS.halfWidth95, 's')} (95 %), damping ${measuredWords(period.dampingRatio.value, period.dampingRatio.halfWidth95, 'of critical')}`,
  ];
  const { froude } = period;
  if (froude !== null) {
    const a = measuredWords(froude.a.value, froude.a.halfWidth95, '');
    const b = measuredWords(froude.bPerDeg.value, froude.bPerDeg.halfWidth95, 'per degree');
    words.push(`  Froude's decrement of a half cycle, a A + b A^2: a ${a.trim()}, b ${b}`);
  }
  if (!period.enough) {
    words.push(
      `  ${period.runs} of 3 runs asked; let her roll again and let it die (A.749(18) annex 3).`,
    );
  }
  if (period.runsDiffer) words.push('  The runs differ by more than each of them leaves open.');
  return words;
}

function gmWords({ gm }: RollOutput): string[] {
  return gm.flatMap((one) => {
    const wide =
      one.halfWidthM === null
        ? `${measuredWords(one.gmFluidM, one.periodHalfWidthM, 'm')} by the period alone`
        : measuredWords(one.gmFluidM, one.halfWidthM, 'm');
    const words = [`  f ${significantWords(one.f, 4)}: ${wide} (${one.source})`];
    if (one.beside !== null) words.push(`    beside the inclining it ${one.beside.words}`);
    if (one.small) {
      words.push(
        '    Under 0.20 m, or not shown to be over it: unreliable there (A.749(18) annex 3, 3.7-3.8, from memory).',
      );
    }
    return words;
  });
}

function yearsWords(years: NonNullable<RollOutput['years']>): string[] {
  const rows = years.points.map((point) => [
    point.date,
    measuredWords(point.periodS, point.halfWidth95S, 's'),
    point.gmFluidM === null ? '' : `GM ${significantWords(point.gmFluidM, 3)} m`,
    point.sameCondition ? 'this condition' : point.condition.slice(0, 60),
  ]);
  return [
    `${years.vessel} over the years:`,
    ...tableWords(rows).map((row) => `  ${row}`),
    years.words,
  ];
}
