import { expect, it } from 'vitest';
import { leadingOf, PROMPT_S } from '#core/steadiness/leading.ts';

const fore = { instrument: 'fore', settlingS: 1 };
const tube = { instrument: 'tube', settlingS: 35 };

const settling = (one: { settlingS: number }) => one.settlingS;

it('takes the prompt instruments where there are any, else all', () => {
  expect(leadingOf([fore, tube], settling)).toEqual([fore]);
  expect(leadingOf([tube], settling)).toEqual([tube]);
  expect(leadingOf([], settling)).toEqual([]);
  expect(leadingOf([{ settlingS: PROMPT_S }, tube], settling)).toEqual([{ settlingS: PROMPT_S }]);
});
