import type { Figure, ReductionOutput } from '#core/reduction/reduction-output.ts';
import { fixedWords, measuredWords, significantWords, tableWords } from './figure.ts';
import {
  adviceWords,
  floatWords,
  hangsOnWords,
  lightshipWords,
  movesWords,
  worthWords,
} from './reduce-float-words.ts';

/** A reduced test as a person reads it. ± is 95 %, by Student's t where the data are few. */
export function reductionWords(output: ReductionOutput): string[] {
  return [
    ...headWords(output),
    '',
    ...floatWords(output),
    ...answersWords(output),
    '',
    ...lightshipWords(output),
    ...adviceWords(output.advice),
    ...budgetWords(output),
    '',
    ...worthWords(output),
    ...lineWords(output),
    '',
    ...instrumentWords(output),
    '',
    ...pointWords(output),
    '',
    ...movesWords(output),
    ...hangsOnWords(output),
    '',
    ...diagnosisWords(output.diagnosis),
    '',
    ...besideWords(output.cannotShow),
    ...(output.notStated.length > 0
      ? ['', `Counted as without uncertainty, none being stated: ${output.notStated.join(', ')}.`]
      : []),
    '',
    LAST_WORDS,
  ];
}

export const LAST_WORDS =
  '± is 95 %. No approval: local rules, the licensed practitioner and the authority decide.';

const words = (one: Figure) => measuredWords(one.value, one.halfWidth95, one.unit);

function headWords({ test, source, points }: ReductionOutput): string[] {
  return [test, ...(source === null ? [] : [source]), `${points.length} states`];
}

function answersWords(output: ReductionOutput): string[] {
  const rows: string[][] = [];
  for (const [name, answer] of [
    ['classical line', output.classical],
    ["metacentre's movement taken out", output.metacentreMovement],
  ] as const) {
    if (answer === null) continue;
    if (answer.gmFluid !== null) rows.push([`GM (fluid), ${name}`, words(answer.gmFluid)]);
    if (answer.kgFluid !== null) rows.push([`KG (of fluid GM), ${name}`, words(answer.kgFluid)]);
    rows.push([`displacement × GM (fluid), ${name}`, words(answer.stiffness)]);
    rows.push([`list before any shift, ${name}`, `${significantWords(answer.listDeg, 4)} deg`]);
  }
  return tableWords([...exactRows(output), ...rows]);
}

function exactRows({ exact, units }: ReductionOutput): string[][] {
  if (exact === null) return [];
  const name = 'exact equation';
  const km = `${fixedWords(exact.km, 4)} ${units.length}`;
  return [
    [`KG (solid), ${name}`, words(exact.kgSolid)],
    [`GM (solid), ${name}`, words(exact.gmSolid)],
    [`GM (fluid), ${name}`, words(exact.gmFluid)],
    ['lost to free surfaces', `${fixedWords(exact.freeSurface, 4)} ${units.length}`],
    ['KM upright, by the hull', km],
    [`list before any shift, ${name}`, `${significantWords(exact.listDeg, 4)} deg`],
  ];
}

function budgetWords(output: ReductionOutput): string[] {
  const head = {
    classical: output.classical,
    'metacentre-movement': output.metacentreMovement,
    exact: output.exact,
  }[output.headline];
  if (head === null) return [];
  const withKg = head.budget.some((row) => row.kg !== null);
  const unit = head.budget[0]?.unit ?? '';
  const size = (value: number) => significantWords(unit === 'm' ? 1000 * value : value, 3);
  return [
    `What makes it uncertain (one standard uncertainty, ${unit === 'm' ? 'mm' : unit})`,
    ...tableWords([
      ['', 'of GM', ...(withKg ? ['of KG'] : []), 'freedom'],
      ...head.budget.map((row) => [
        row.cause,
        size(row.gm),
        ...(withKg ? [size(row.kg ?? 0)] : []),
        row.degreesOfFreedom === null ? '-' : significantWords(row.degreesOfFreedom, 3),
      ]),
    ]),
  ];
}

function lineWords({ line }: ReductionOutput): string[] {
  const rows = [
    ['slope', words(line.slope)],
    ['freedom of the states, within them', `${line.statesDof}, ${line.withinDof}`],
  ];
  if (line.stateDeviationDeg !== null && line.readingDeviationDeg !== null) {
    rows.push(['states scatter', `${significantWords(line.stateDeviationDeg, 2)} deg`]);
    rows.push(['one reading scatters', `${significantWords(line.readingDeviationDeg, 2)} deg`]);
  }
  for (const [name, tested] of [
    ['error shared in a state', line.stateEffect],
    ['instruments differ in zero', line.intercepts],
    ['instruments differ in slope', line.slopes],
  ] as const) {
    if (tested === null) continue;
    const { f, upperDof, lowerDof, probability } = tested;
    rows.push([
      name,
      `F(${upperDof},${lowerDof}) ${significantWords(f, 5)}, by chance ${significantWords(probability, 2)}`,
    ]);
  }
  return ['The classical line (tangent of heel on moment)', ...tableWords(rows)];
}

function instrumentWords({ instruments }: ReductionOutput): string[] {
  return tableWords([
    ['Instrument', 'readings', 'share', 'shows at no moment, deg', 'its own line'],
    ...instruments.map(({ instrument, readings, weight, interceptDeg, alone }) => [
      instrument,
      String(readings),
      `${fixedWords(100 * weight, 0)} %`,
      significantWords(interceptDeg, 4),
      alone === null ? '-' : words(alone.gmFluid ?? alone.slope),
    ]),
  ]);
}

function pointWords({ points, units }: ReductionOutput): string[] {
  return tableWords([
    ['State', `moment, ${units.moment}`, 'tangent', 'line', 'left over, deg'],
    ...points.map((point) => [
      point.state,
      significantWords(point.heelingMoment, 7),
      fixedWords(point.tangent, 6),
      fixedWords(point.fittedTangent, 6),
      fixedWords(point.leftOverDeg, 4),
    ]),
  ]);
}

interface DiagnosisWords {
  readonly verdict: string;
  readonly shapes: readonly {
    readonly shape: string;
    readonly words: string;
    readonly seen: boolean;
    readonly probability: number | null;
  }[];
  readonly causes: readonly {
    readonly words: string;
    readonly todo: string;
    readonly evidence: readonly { readonly speaksFor: boolean; readonly words: string }[];
  }[];
}

export function diagnosisWords({ verdict, shapes, causes }: DiagnosisWords): string[] {
  return [
    `${verdict.charAt(0).toUpperCase()}${verdict.slice(1)}.`,
    ...shapes.map(({ shape, words: said, probability }) => {
      const chance = probability === null ? '' : ` (by chance ${significantWords(probability, 2)})`;
      return `  ${shape}: ${said}${chance}`;
    }),
    causes.length === 0
      ? 'No cause is named: the evidence speaks clearly for none.'
      : 'What may be wrong, the likeliest first, by all evidence together',
    ...causes.flatMap(({ words: said, todo, evidence }, k) => [
      `  ${k + 1}. ${said}`,
      ...evidence.map((one) => `     ${one.speaksFor ? 'for' : 'against'}: ${one.words}`),
      `     ${todo}`,
    ]),
  ];
}

export function besideWords(
  cannotShow: readonly { readonly what: string; readonly evidence: string }[],
): string[] {
  return [
    'What no plot can show, and the evidence taken instead',
    ...cannotShow.map(({ what, evidence }) => `  ${what}: ${evidence}`),
  ];
}
