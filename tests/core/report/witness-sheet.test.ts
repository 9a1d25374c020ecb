import { expect, it } from 'vitest';
import { receiptOf } from '#core/record/receipt.ts';
import { witnessSheet } from '#core/report/witness-sheet.ts';
import { aDay, withVoided } from '#tests/core/session/a-day.ts';
import { reportedDayOf, textsOf } from '#tests/support/reported-day.ts';

it('binds what is signed in ink to the record by its words, with a row for each reading accepted', () => {
  const day = reportedDayOf(withVoided(aDay({ readingDeg: 0.002 }), 4));
  const document = witnessSheet(day);
  const text = textsOf(document.blocks).join('\n');
  expect(text).toContain(`${day.head.lines} ${receiptOf(day.head).words.join(' ')}`);
  expect(text).toContain(day.head.head);
  const table = document.blocks.find((block) => block.kind === 'table');
  expect(table?.kind === 'table' && table.rows).toHaveLength(8);
  expect(document.marks).toContain('Unsigned');
});
