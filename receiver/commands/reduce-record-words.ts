import type { ResultValue, SessionResult } from '#core/session/session-result.ts';
import { fixedWords, measuredWords, significantWords, tableWords } from './figure.ts';
import { besideWords, diagnosisWords, LAST_WORDS } from './reduce-words.ts';
import { safetyWords } from './safety-words.ts';

/** The result of a recorded day as a person reads it. */
export function resultWords(result: SessionResult): string[] {
  return [
    `${result.statesRead} states read`,
    ...answers(result),
    '',
    ...budget(result),
    '',
    ...instruments(result),
    '',
    ...points(result),
    ...(result.diagnosis === null ? [] : ['', ...diagnosisWords(result.diagnosis)]),
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
  const put = result.withVoidedPutBack;
  if (put?.gmFluidM != null) {
    rows.push([`GM (fluid) with ${put.readings} voided readings put back`, metres(put.gmFluidM)]);
  }
  if (result.truth !== null) {
    rows.push(["simulator's truth, GM (fluid)", `${significantWords(result.truth.gmFluidM, 6)} m`]);
  }
  return tableWords(rows);
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
