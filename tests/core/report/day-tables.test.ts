import Papa from 'papaparse';
import { expect, it } from 'vitest';
import { readingsTable, wordsTable } from '#core/report/day-tables.ts';
import { FakeDay } from '../../support/fake-day.ts';

const parsed = (text: string) =>
  Papa.parse<Record<string, string>>(text, { header: true, skipEmptyLines: true }).data;

it('has every reading of the session, voided ones with their reason, in full', () => {
  const day = new FakeDay();
  day.goOn(3);
  const rows = parsed(readingsTable(day.session));
  const read = day.session.states.flatMap((state) => [
    ...state.voided.map((one) => one.reading),
    ...(state.reading === null ? [] : [state.reading]),
  ]);
  const heels = read.flatMap((reading) => reading.instruments.map((one) => one.heelDeg));
  expect(rows.map(({ heelDeg }) => Number(heelDeg))).toEqual(heels);
  expect(rows.filter(({ voidedFor }) => voidedFor !== '').length).toBe(
    day.session.states.flatMap(({ voided }) => voided.flatMap((one) => one.reading.instruments))
      .length,
  );
});

it('has what people wrote, in the order of the lines', () => {
  const day = new FakeDay();
  day.write('remark', { text: '=1+1, "quoted"\nand more', line: null }, 'witness');
  const asked = { what: 'objection', text: 'A line was tight.', line: null } as const;
  day.write('witness-asked', asked, 'witness');
  const line = day.session.people.asks[0]!.written.line;
  day.write('witness-answered', { line, text: 'Slackened.' }, 'architect');
  const rows = parsed(wordsTable(day.session));
  expect(rows.map(({ what, words }) => [what, words]).slice(-3)).toEqual([
    ['remark', '\'=1+1, "quoted"\nand more'],
    ['objection', 'A line was tight.'],
    ['answer', 'Slackened.'],
  ]);
});
