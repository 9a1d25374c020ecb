import { expect, test } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import type { EntryLine } from '#core/record/entry-line.ts';
import { actOfSurvey, type SurveyParts } from '#receiver/conduct-survey.ts';
import { aDay } from '#tests/core/session/a-day.ts';
import { entered, surveyOf } from '../support/entries.ts';
import { SMALL_JPEG } from '../support/small-jpeg.ts';

const WHO = { author: 'A. Rowan', role: 'architect' } as const;
const WATER = entered('water', 'amidships', { densityKgM3: 1020, temperatureC: 12 });
const HULL = entered('hull', 'hull', {
  form: 'offsets',
  file: 'lines.csv',
  text: 'xM,zM,halfBreadthM',
  knText: null,
  densityKgM3: null,
  volumeUncertaintyShare: 0,
  kmUncertaintyM: 0,
});

function parts(more: Partial<SurveyParts> = {}) {
  const written: unknown[] = [];
  const append = ((kind: string, body: unknown) => {
    written.push({ kind, body });
  }) as unknown as SurveyParts['record']['append'];
  const session = () => aDay();
  return {
    written,
    parts: { record: { append }, session, checkHull: () => Promise.resolve(), ...more },
  };
}

test('a row becomes a line, a stale one none', async () => {
  const { written, parts: all } = parts();
  await actOfSurvey({ kind: 'enter', entry: WATER }, all, WHO);
  expect(written).toEqual([{ kind: 'entry', body: WATER }]);
  const stale = { ...WATER, was: 3 } as EntryLine;
  await expect(actOfSurvey({ kind: 'enter', entry: stale }, all, WHO)).rejects.toThrow(
    /entry-stale/,
  );
  expect(written).toHaveLength(1);
});

test('a hull that cannot be read is refused with its own fault', async () => {
  const bad = new Fault('hull-columns', 'lines.csv: row 1', 'no zM');
  const { written, parts: all } = parts({ checkHull: () => Promise.reject(bad) });
  await expect(actOfSurvey({ kind: 'enter', entry: HULL }, all, WHO)).rejects.toBe(bad);
  expect(written).toEqual([]);
});

test('a hull is refused when another was entered while it was read', async () => {
  let survey = surveyOf([]);
  const { written, parts: all } = parts({
    session: () => ({ ...aDay(), survey }),
    checkHull: async () => {
      survey = surveyOf([HULL]);
    },
  });
  await expect(actOfSurvey({ kind: 'enter', entry: HULL }, all, WHO)).rejects.toThrow(
    /entry-stale/,
  );
  expect(written).toEqual([]);
});

test('only a picture is kept as one', async () => {
  const { written, parts: all } = parts();
  const photograph = { of: null, caption: '', jpeg: SMALL_JPEG };
  await actOfSurvey({ kind: 'photograph', photograph }, all, WHO);
  expect(written).toHaveLength(1);
  const text = { ...photograph, jpeg: Buffer.from('<script>').toString('base64') };
  await expect(actOfSurvey({ kind: 'photograph', photograph: text }, all, WHO)).rejects.toThrow(
    /photograph-unfit/,
  );
});
