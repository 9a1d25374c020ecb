import type { Certificate } from '#core/sample/certificate.ts';
import { CERTIFICATE } from './every-kind-record.ts';
import { PLACE, RecordLines, readingBody, TEST_BODY } from './record-lines.ts';

const GM_M = 0.9;
const MOVES = [
  { weight: 'A', from: PLACE(-2), to: PLACE(2), momentTM: 1 },
  { weight: 'A', from: PLACE(2), to: PLACE(-2), momentTM: 0 },
  { weight: 'B', from: PLACE(2), to: PLACE(-2), momentTM: -1 },
];

/** Exact heel of a moment on 46 t at this GM, with a list of 0.02 in the tangent. */
export const heelDegOf = (momentTM: number) =>
  (Math.atan(0.02 + momentTM / (46 * GM_M)) * 180) / Math.PI;

/** A record of a day of up to four states, read without error; with the numbers of its lines. */
export function fourStates(shiftsWanted = 3): {
  readonly record: RecordLines;
  readonly opened: number;
  readonly byHand: number;
  readonly shifts: readonly number[];
  readonly landings: readonly number[];
  readonly readings: readonly number[];
} {
  const record = new RecordLines();
  const opened = record.add('test-opened', TEST_BODY);
  record.add('mounting', {
    instrument: 'fore',
    label: 'Fore',
    kind: 'inclinometer',
    sign: 1,
    spanM: null,
    heightOverRollAxisM: 1,
    settlingS: 0,
  });
  record.add('certificate', CERTIFICATE);
  const readings = [record.add('reading', readingBody(0, heelDegOf(0)))];
  const byHand = record.add('hand-reading', {
    state: 0,
    instrument: 'pendulum',
    kind: 'pendulum',
    lengthMm: 3000,
    extremesMm: [4, 5, 4],
    reader: 'B. Hale',
  });
  const shifts = [-1];
  const landings = [-1];
  MOVES.slice(0, shiftsWanted).forEach(({ momentTM, ...move }, k) => {
    const state = k + 1;
    shifts.push(
      record.add('shift-begun', {
        state,
        moves: [move],
        heelingMomentTM: momentTM,
        predictedHeelDeg: null,
        predictedStandardErrorDeg: null,
      }),
    );
    landings.push(record.add('weight-landed', { state, landedS: 10 * state }));
    readings.push(record.add('reading', readingBody(state, heelDegOf(momentTM))));
  });
  return { record, opened, byHand, shifts, landings, readings };
}

/** Another certificate of the one instrument. */
export const SECOND: Certificate = { ...CERTIFICATE, number: 'C2', scale: 1.01 };
