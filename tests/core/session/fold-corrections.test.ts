import { describe, expect, it } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import type { Correction } from '#core/record/correction.ts';
import { readLine } from '#core/record/read-line.ts';
import { foldLines } from '#core/session/fold.ts';
import { checkCorrection, lineInForce, MOST_CORRECTIONS } from '#core/session/fold-corrections.ts';
import { resultOfSession } from '#core/session/result.ts';
import type { SessionState } from '#core/session/session.ts';
import { fourStates } from '#tests/support/four-states.ts';
import { PLACE, type RecordLines } from '#tests/support/record-lines.ts';

const folded = (record: RecordLines): SessionState =>
  foldLines(record.lines.map((bytes) => readLine(bytes, 'test').line));

function correct(
  record: RecordLines,
  line: number,
  ...changes: Correction['changes']
): SessionState {
  record.add('correction', { line, changes, reason: 'entered wrongly' });
  return folded(record);
}

const gm = (session: SessionState) => resultOfSession(session).gmFluidM!.value;

describe('a correction', () => {
  it('of a mass moves every moment of that weight, and GM as the moments', () => {
    const { record, opened } = fourStates();
    const before = folded(record);
    const heavier = correct(
      record,
      opened,
      { field: ['weights', 0, 'massT'], was: 0.25, is: 0.275 },
      { field: ['weights', 1, 'massT'], was: 0.25, is: 0.275 },
    );
    expect(before.states.map((s) => s.heelingMomentTM)).toEqual([0, 1, 0, -1]);
    for (const [k, expected] of [0, 1.1, 0, -1.1].entries())
      expect(heavier.states[k]!.heelingMomentTM).toBeCloseTo(expected, 12);
    expect(resultOfSession(heavier).refused).toBeNull();
    expect(gm(heavier) / gm(before)).toBeCloseTo(1.1, 9);
    expect(heavier.corrected).toMatchObject([
      {
        line: opened,
        asWritten: { body: { weights: [{ massT: 0.25 }, { massT: 0.25 }] } },
        corrections: [{ reason: 'entered wrongly', written: { author: 'architect' } }],
      },
    ]);
  });

  it('of where a weight was set down carries to where it was taken from next', () => {
    const { record, shifts } = fourStates();
    const after = correct(record, shifts[1]!, {
      field: ['moves', 0, 'to', 'yM'],
      was: 2,
      is: 2.1,
    });
    // 0.25 t over 4.1 m; then carried back to where it began.
    expect(after.states[1]!.heelingMomentTM).toBeCloseTo(1.025, 12);
    expect(after.states[1]!.moves[0]!.to).toEqual(PLACE(2.1));
    expect(after.states[2]!.moves[0]!.from).toEqual(PLACE(2.1));
    expect(after.states[2]!.heelingMomentTM).toBe(0);
    expect(after.states[1]!.asWritten!.moves[0]!.to).toEqual(PLACE(2));
    expect(resultOfSession(after).refused).toBeNull();
  });

  it('of the last place moves where the weight stands, and of the first where it began', () => {
    const { record, shifts, opened } = fourStates();
    correct(record, shifts[3]!, { field: ['moves', 0, 'to', 'yM'], was: -2, is: -2.2 });
    const after = correct(record, opened, {
      field: ['weights', 1, 'at', 'yM'],
      was: 2,
      is: 1.9,
    });
    expect(after.weightsAt['B']).toEqual(PLACE(-2.2));
    expect(after.states[3]!.moves[0]!.from).toEqual(PLACE(1.9));
    expect(after.states[3]!.heelingMomentTM).toBeCloseTo(-0.25 * 4.1, 12);
  });

  it('of a landing time, a pendulum and the particulars stands in their place', () => {
    const { record, landings, opened, byHand } = fourStates();
    correct(record, landings[1]!, { field: ['landedS'], was: 10, is: 12 });
    correct(
      record,
      byHand,
      { field: ['lengthMm'], was: 3000, is: 2990 },
      { field: ['extremesMm'], was: [4, 5, 4], is: [4, 6, 4] },
    );
    const after = correct(record, opened, {
      field: ['particulars', 'displacementT'],
      was: 46,
      is: 47,
    });
    expect(after.states[1]!.landedS).toBe(12);
    expect(after.states[0]!.handReadings[0]!.reading).toMatchObject({
      lengthMm: 2990,
      extremesMm: [4, 6, 4],
    });
    expect(after.test?.particulars.displacementT).toBe(47);
  });

  it('is followed by another of the same field, and falls away to what was before', () => {
    const { record, opened } = fourStates();
    const mass = (was: number, is: number) => ({ field: ['weights', 0, 'massT'], was, is });
    const before = folded(record);
    const first = record.lines.length;
    correct(record, opened, mass(0.25, 0.26));
    const second = record.lines.length;
    expect(correct(record, opened, mass(0.26, 0.27)).test?.weights[0]?.massT).toBe(0.27);
    record.add('overruled', { line: first, reason: 'the scale was sound' });
    expect(folded(record).test?.weights[0]?.massT).toBe(0.27);
    record.add('overruled', { line: second, reason: 'this too' });
    const back = folded(record);
    expect(back.test).toEqual(before.test);
    expect(back.states).toEqual(before.states);
    expect(back.weightsAt).toEqual(before.weightsAt);
    expect(back.corrected[0]?.corrections.map(({ overruled }) => overruled?.reason)).toEqual([
      'the scale was sound',
      'this too',
    ]);
  });

  it('before a shift is begun counts once: the shift rests on what stood then', () => {
    const { record, opened } = fourStates(1);
    const at = record.lines.length;
    correct(record, opened, { field: ['weights', 0, 'massT'], was: 0.25, is: 0.3 });
    record.add('shift-begun', {
      state: 2,
      moves: [{ weight: 'A', from: PLACE(2), to: PLACE(0) }],
      heelingMomentTM: 0.6,
      predictedHeelDeg: null,
      predictedStandardErrorDeg: null,
    });
    expect(folded(record).states[2]!.heelingMomentTM).toBe(0.6);
    record.add('overruled', { line: at, reason: 'no' });
    expect(folded(record).states[2]!.heelingMomentTM).toBeCloseTo(0.5, 12);
  });

  it('leaves a moment that contradicts its moves contradicting them', () => {
    const { record, opened } = fourStates(1);
    record.add('shift-begun', {
      state: 2,
      moves: [{ weight: 'A', from: PLACE(2), to: PLACE(-2) }],
      heelingMomentTM: 0.4,
      predictedHeelDeg: null,
      predictedStandardErrorDeg: null,
    });
    const after = correct(record, opened, { field: ['weights', 0, 'massT'], was: 0.25, is: 0.3 });
    expect(after.states[2]!.heelingMomentTM).toBeCloseTo(0.4, 12);
  });

  it('that does not fit is refused, and as a line throws record-line', () => {
    const { record, opened, readings } = fourStates();
    const session = folded(record);
    const code = (correction: Correction) => {
      try {
        checkCorrection(session, correction);
        return null;
      } catch (error) {
        return error instanceof Fault ? `${error.code}: ${error.report.found}` : 'other';
      }
    };
    const mass = { field: ['weights', 0, 'massT'], was: 0.25, is: 0.26 };
    const reason = 'r';
    expect(code({ line: opened, changes: [mass], reason })).toBeNull();
    for (const line of [0, readings[0]!, 10_000])
      expect(code({ line, changes: [mass], reason })).toMatch(/^correction-unfit: is none/);
    const plan = { field: ['plan', 0, 'moves', 0, 'to', 'yM'], was: 2, is: 2.1 };
    expect(code({ line: opened, changes: [plan], reason })).toMatch(/shift 1 is begun/);
    const huge = { field: ['weights', 0, 'massT'], was: 0.25, is: 1.7e308 };
    expect(code({ line: opened, changes: [huge], reason })).toMatch(/^input-not-finite/);
    record.add('correction', { line: 0, changes: [mass], reason });
    expect(() => folded(record)).toThrow(/record-line.*none that can be corrected/);
  });

  it('has a limit in number', () => {
    const { record, opened } = fourStates(1);
    for (let k = 0; k < MOST_CORRECTIONS; k++)
      record.add('correction', {
        line: opened,
        changes: [{ field: ['at'], was: k === 0 ? 'Kettle Sound' : `${k - 1}`, is: `${k}` }],
        reason: 'r',
      });
    const session = folded(record);
    const next = { field: ['at'], was: '199', is: 'x' };
    expect(() => checkCorrection(session, { line: opened, changes: [next], reason: 'r' })).toThrow(
      /200 corrections/,
    );
  });

  it('finds every line that can be corrected, and no other', () => {
    const { record, opened, shifts, landings, byHand } = fourStates();
    const session = folded(record);
    const kinds = record.lines.map((_, n) => lineInForce(session, n)?.kind ?? null);
    expect(kinds[opened]).toBe('test-opened');
    for (const n of [1, 2, 3]) {
      expect(kinds[shifts[n]!]).toBe('shift-begun');
      expect(kinds[landings[n]!]).toBe('weight-landed');
    }
    expect(kinds[byHand]).toBe('hand-reading');
    expect(kinds.filter((kind) => kind !== null)).toHaveLength(8);
  });
});
