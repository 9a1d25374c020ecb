import { expect, test } from 'vitest';
import { CANNOT_SHOW, cannotShowList } from '#core/reduction/cannot-show.ts';

test('every item stands in the list, with its evidence or none', () => {
  const list = cannotShowList({ displacement: 'five freeboards a side' });
  expect(list).toHaveLength(Object.keys(CANNOT_SHOW).length);
  expect(list.filter((one) => one.evidence !== 'none')).toEqual([
    { what: CANNOT_SHOW.displacement, evidence: 'five freeboards a side' },
  ]);
});
