import { US_WORKING } from '#core/stability/rules/united-states.ts';
import { stabilityAnswer } from '#core/stability/stability-answer.ts';
import type { StabilityOutput } from '#core/stability/stability-output.ts';
import { BOX_HULL } from '#tests/core/stability/box-condition.ts';
import { BOX_LOADING } from '#tests/core/stability/box-loading.ts';

let answered: StabilityOutput | null = null;

/** Every condition of the box, judged once for all who ask. */
export function boxAnswer(): StabilityOutput {
  answered ??= stabilityAnswer(BOX_LOADING, BOX_HULL, [US_WORKING], undefined);
  return answered;
}
