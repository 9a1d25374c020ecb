import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import {
  bodyWith,
  type CorrectableBody,
  correctableFields,
  correctedBody,
} from '#core/record/correctable.ts';
import type { Correction, FieldPath, FieldValue } from '#core/record/correction.ts';
import { PLACE, TEST_BODY } from '#tests/support/record-lines.ts';

const opening: CorrectableBody = { kind: 'test-opened', body: TEST_BODY };
const byHand: CorrectableBody = {
  kind: 'hand-reading',
  body: {
    state: 0,
    instrument: 'pendulum',
    kind: 'pendulum',
    lengthMm: 3000,
    extremesMm: [24, 28, 25],
    reader: 'B. Hale',
  },
};
const shift: CorrectableBody = {
  kind: 'shift-begun',
  body: {
    state: 1,
    moves: [{ weight: 'A', from: PLACE(-2), to: PLACE(2) }],
    heelingMomentTM: 1,
    predictedHeelDeg: null,
    predictedStandardErrorDeg: null,
  },
};

const change = (field: FieldPath, was: FieldValue, is: FieldValue): Correction['changes'] => [
  { field, was, is },
];

function refusal(body: CorrectableBody, changes: Correction['changes']): string {
  const before = JSON.stringify(body);
  try {
    correctedBody(body, changes);
  } catch (error) {
    expect(JSON.stringify(body)).toBe(before);
    if (error instanceof Fault) return `${error.code} ${error.report.where}: ${error.report.found}`;
    throw error;
  }
  return 'taken';
}

describe('the fields that can be corrected', () => {
  it('are those a person enters, each with what stands there', () => {
    expect(correctableFields(byHand)).toEqual([
      { field: ['instrument'], value: 'pendulum' },
      { field: ['kind'], value: 'pendulum' },
      { field: ['lengthMm'], value: 3000 },
      { field: ['extremesMm'], value: [24, 28, 25] },
      { field: ['reader'], value: 'B. Hale' },
    ]);
    const tube = {
      ...byHand,
      body: {
        ...byHand.body,
        ...{ kind: 'u-tube' as const, portLegMm: [300, 298, 299], starboardLegMm: [324, 326, 324] },
      },
    } as typeof byHand;
    expect(correctableFields(tube).map(({ field }) => field[0])).toContain('starboardLegMm');
    expect(correctableFields(shift).map(({ field }) => field.join('.'))).toEqual([
      'moves.0.to.xM',
      'moves.0.to.yM',
      'moves.0.to.zM',
    ]);
    const named = correctableFields(opening).map(({ field }) => field.join('.'));
    expect(named).toContain('weights.1.massT');
    expect(named).toContain('particulars.kmM');
    expect(named).not.toContain('mode');
    expect(named).not.toContain('weights.0.weight');
  });

  it('put right, leave everything else as it was, and the line itself untouched', () => {
    const corrected = correctedBody(opening, [
      { field: ['weights', 1, 'massT'], was: 0.25, is: 0.26 },
      { field: ['particulars', 'kmM'], was: 3, is: null },
    ]);
    expect(corrected.body).toEqual({
      ...TEST_BODY,
      particulars: { ...TEST_BODY.particulars, kmM: null },
      weights: [TEST_BODY.weights[0], { ...TEST_BODY.weights[1], massT: 0.26 }],
    });
    expect(TEST_BODY.weights[1]!.massT).toBe(0.25);
    expect(bodyWith(byHand, change(['extremesMm'], [1], [24, 28, 26])).body).toMatchObject({
      extremesMm: [24, 28, 26],
    });
  });

  it.each<[string, CorrectableBody, Correction['changes'], RegExp]>([
    ['another value', opening, change(['at'], 'Quay', 'Kettle'), /"Kettle Sound" stands there/],
    ['the same value', opening, change(['at'], 'Kettle Sound', 'Kettle Sound'), /stands there/],
    ['no mass', opening, change(['weights', 0, 'massT'], 0.25, 0), /massT: Too small/],
    ['a text for a mass', opening, change(['weights', 0, 'massT'], 0.25, '0.2'), /massT/],
    ['a weight there is not', opening, change(['weights', 2, 'massT'], null, 1), /there is no 2/],
    ['the mode', opening, change(['mode'], 'demo', 'test'), /no field of test-opened/],
    ['a name others refer by', opening, change(['weights', 0, 'weight'], 'A', 'B'), /no field/],
    ['where a move began', shift, change(['moves', 0, 'from', 'yM'], -2, -3), /no field/],
    ['the moment', shift, change(['heelingMomentTM'], 1, 2), /no field of shift-begun/],
    ['an extreme alone', byHand, change(['extremesMm', 0], 24, 25), /no field of hand-reading/],
    ['a prototype', opening, change(['__proto__', 'massT'], null, 1), /no field/],
    ['a constructor', opening, change(['weights', 0, 'constructor'], null, 1), /no field/],
    ['a list by name', opening, change(['weights', '0', 'massT'], 0.25, 1), /no field/],
    ['a dotted name', opening, change(['particulars.kmM'], 3, 1), /no field/],
    [
      'a field twice',
      opening,
      [...change(['at'], 'Kettle Sound', 'A'), ...change(['at'], 'A', 'B')],
      /named twice/,
    ],
  ])('refuse %s, and change nothing', (_, body, changes, found) => {
    expect(refusal(body, changes)).toMatch(/^correction-unfit /);
    expect(refusal(body, changes)).toMatch(found);
  });

  it('never reach a prototype, whatever path is given', () => {
    const wicked = fc.constantFrom('__proto__', 'constructor', 'prototype', 'toString', 'weights');
    const steps = fc.array(fc.oneof(wicked, fc.nat(3)), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(steps, fc.constantFrom(null, 1, 'x'), (field, was) => {
        expect(refusal(opening, change(field, was, 2))).toMatch(/^correction-unfit /);
        expect(({} as Record<string, unknown>)['massT']).toBeUndefined();
      }),
    );
  });
});
