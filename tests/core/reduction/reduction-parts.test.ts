import { expect, test } from 'vitest';
import { inDegrees, notStated, statedEvidence } from '#core/reduction/reduction-parts.ts';
import type { TestInput } from '#core/reduction/test-input.ts';

const test1: TestInput = {
  heelwrightTest: 1,
  name: 'x',
  instruments: [{ instrument: 'a', reads: 'tangent' }],
  states: [{ heelingMoment: 0, readings: {} }],
};

test('an uncertainty nobody states is named', () => {
  expect(notStated(test1)).toEqual(['scale of a', 'scale of the moments']);
  expect(notStated({ ...test1, momentScaleUncertainty: 0 })).toEqual(['scale of a']);
  expect(notStated({ ...test1, angleScaleUncertainty: 0.001 })).toEqual(['scale of the moments']);
});

test('a figure that is only stated is no more evidence than that', () => {
  const displacement = { value: 60, standardUncertainty: 1 };
  expect(statedEvidence({ ...test1, displacement })).toEqual({
    displacement: 'stated in the test',
  });
  const evidence = { displacement: 'five freeboards a side' };
  expect(statedEvidence({ ...test1, displacement, evidence })).toEqual(evidence);
});

test('a tangent of one is 45 degrees', () => {
  expect(inDegrees(1)).toBeCloseTo(45, 12);
});
