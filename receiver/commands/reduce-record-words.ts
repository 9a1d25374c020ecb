import type { FieldValue } from '#core/record/correction.ts';
import { safetyWords } from '#core/report/safety-words.ts';
import type { Change } from '#core/session/changes.ts';
import type { Issue } from '#core/session/issues.ts';
import type { ResultValue, SessionResult } from '#core/session/session-result.ts';
import { fixedWords, measuredWords, significantWords, tableWords } from './figure.ts';
import { pendulumWords } from './pendulum-words.ts';
import { besideWords, diagnosisWords, LAST_WORDS } from './reduce-words.ts';

/** The result of a recorded day as a person reads it. */
export function resultWords(result: SessionResult, issues: readonly Issue[]): string[] {
  return [
    `${result.statesRead} states read`,
    ...answers(result),
    ...issueWords(issues),
    '',
    ...budget(result),
    '',
    ...instruments(result),
    '',
    ...points(result),
    ...flags(result),
    ...(result.repeats === null ? [] : ['', result.repeats.words]),
    ...(result.diagnosis === null ? [] : ['', ...diagnosisWords(result.diagnosis)]),
    '',
    ...pendulumWords(result.agreement.pendulums),
    '',
    ...besideWords(result.cannotShow),
    ...result.safety.map(safetyWords),
    '',
    LAST_WORDS,
  ];
}

const metres = (one: ResultValue) => measuredWords(one.value, one.halfWidth95, 'm');

function answers(result: SessionResult): string[] {
  const rows: string[][] = [];
  for (const [name, answer] of [
    ['classical line', result.classical],
    ["metacentre's movement taken out", result.metacentreMovement],
  ] as const) {
    if (answer === null) continue;
    rows.push([`GM (fluid), ${name}`, metres(answer.gmFluidM)]);
    if (answer.kgFluidM !== null) rows.push([`KG (of fluid GM), ${name}`, metres(answer.kgFluidM)]);
  }
  const otherwise = [
    ['with', 'voided readings put back', result.withVoidedPutBack],
    ['without', 'readings that stand by overruling', result.withoutOverruled],
  ] as const;
  for (const [how, which, put] of otherwise) {
    if (put === null) continue;
    const gm = put.gmFluidM === null ? `none: ${put.refused?.found}` : metres(put.gmFluidM);
    rows.push([`GM (fluid) ${how} ${put.readings} ${which}`, gm]);
  }
  if (result.truth !== null) {
    rows.push(["simulator's truth, GM (fluid)", `${significantWords(result.truth.gmFluidM, 6)} m`]);
  }
  return tableWords(rows);
}

/** The issues of the result with what changed between them; nothing where nothing changed. */
export function issueWords(issues: readonly Issue[]): string[] {
  if (issues.length < 2) return [];
  return [
    '',
    'Issues of the result, the last in force',
    ...issues.flatMap(({ issue, change, gmFluidM, refused }) => {
      const gm = gmFluidM === null ? `none: ${refused?.found}` : metres(gmFluidM);
      const said = `Issue ${issue}: GM (fluid) ${gm}`;
      return change === null ? [`${said}, as first written`] : [said, ...changeWords(change)];
    }),
  ];
}

function changeWords({ what, reason, fields, written }: Change): string[] {
  const by = `line ${written.line}, ${written.author}, ${written.role}, ${written.wall}`;
  return [
    `  ${what}: ${reason} (${by})`,
    ...fields.map(({ field, was, is }) => `  ${field}: ${valueWords(was)}, now ${valueWords(is)}`),
  ];
}

/** A value as the line has it. */
function valueWords(value: FieldValue): string {
  if (value === null) return 'none';
  return Array.isArray(value) ? value.join(', ') : String(value);
}

function budget(result: SessionResult): string[] {
  const head =
    result.headline === 'metacentre-movement' ? result.metacentreMovement : result.classical;
  return tableWords([
    ['What makes it uncertain (one standard uncertainty)', 'GM, mm', 'KG, mm'],
    ...(head?.budget ?? []).map(({ cause, gmMm, kgMm }) => [
      cause,
      significantWords(gmMm, 3),
      kgMm === null ? '-' : significantWords(kgMm, 3),
    ]),
  ]);
}

function instruments(result: SessionResult): string[] {
  return tableWords([
    ['Instrument', 'readings', 'GM alone'],
    ...result.instruments.map(({ label, readings, gmAloneM, refused }) => [
      label,
      refused === null ? String(readings) : `left out: ${refused}`,
      gmAloneM === null ? '-' : metres(gmAloneM),
    ]),
  ]);
}

/** What is to be said beside readings, each with its state. */
function flags(result: SessionResult): string[] {
  const said = result.points.flatMap((point) =>
    point.flags.map((words) => `  state ${point.state}: ${words}`),
  );
  return said.length === 0 ? [] : ['', 'To be said beside these readings', ...said];
}

function points(result: SessionResult): string[] {
  return tableWords([
    ['State', 'moment, t·m', 'tangent', 'left over, deg'],
    ...result.points.map((point) => [
      String(point.state),
      significantWords(point.heelingMomentTM, 6),
      fixedWords(point.tangent, 6),
      fixedWords(point.leftOverDeg, 4),
    ]),
  ]);
}
