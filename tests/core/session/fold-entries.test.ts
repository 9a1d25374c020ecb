import { describe, expect, it } from 'vitest';
import type { Line } from '#core/record/line.ts';
import { entryPlaceRefusal, photographRefusal, surveyAfter } from '#core/session/fold-entries.ts';
import { EMPTY_SURVEY } from '#core/session/survey-state.ts';
import { entered, entryAt } from '../../support/entries.ts';
import { SMALL_JPEG } from '../../support/small-jpeg.ts';

const water = (densityKgM3: number, was: number | null = null) =>
  entered('water', 'amidships', { densityKgM3, temperatureC: 11 }, { was });

const picture = (n: number): Extract<Line, { kind: 'photograph' }> => ({
  ...entryAt(n, water(1020)),
  kind: 'photograph',
  body: { of: { sheet: 'item', key: 'pump' }, caption: 'as found', jpeg: SMALL_JPEG },
});

describe('rows of the survey', () => {
  it('stand until another line takes their place, which says which one it was made from', () => {
    const first = surveyAfter(EMPTY_SURVEY, entryAt(5, water(1019)));
    const second = surveyAfter(first, entryAt(9, water(1021, 5)));
    expect(second.entries).toHaveLength(1);
    expect(second.entries[0]).toMatchObject({
      value: { densityKgM3: 1021 },
      earlier: [5],
      written: { line: 9 },
    });
    const off = surveyAfter(second, entryAt(11, { ...water(0, 9), value: null }));
    expect(off.entries).toEqual([]);
  });

  it('are refused from a window that did not see the newest', () => {
    const first = surveyAfter(EMPTY_SURVEY, entryAt(5, water(1019)));
    const second = surveyAfter(first, entryAt(9, water(1021, 5)));
    expect(entryPlaceRefusal(second, water(1018, 5))?.code).toBe('entry-stale');
    expect(entryPlaceRefusal(second, water(1018))?.report.found).toMatch(/line 9 by A. Rowan/);
    expect(() => surveyAfter(second, entryAt(12, water(1018, 5)))).toThrow(/record-line/);
    expect(entryPlaceRefusal(EMPTY_SURVEY, { ...water(0), value: null })?.code).toBe('entry-unfit');
  });

  it('are apart by occasion, and have a limit', () => {
    const before = surveyAfter(EMPTY_SURVEY, entryAt(5, water(1019)));
    const closing = entryAt(6, { ...water(1017), occasion: 'closing' } as never);
    expect(surveyAfter(before, closing).entries).toHaveLength(2);
    const many = { ...before, entries: Array.from({ length: 1500 }, () => before.entries[0]!) };
    const another = entered('water', 'aft', { densityKgM3: 1020, temperatureC: null });
    expect(entryPlaceRefusal(many, another)?.report.found).toMatch(/over 1500/);
    const [row] = before.entries;
    const often = { ...before, entries: [{ ...row!, earlier: Array(200).fill(1) }] };
    expect(entryPlaceRefusal(often, water(1020, 5))?.report.found).toMatch(/changed 200 times/);
  });

  it('keep of a picture what it is of and how large it is, and have a limit of them too', () => {
    const survey = surveyAfter(EMPTY_SURVEY, picture(7));
    expect(survey.photographs[0]).toMatchObject({
      of: { sheet: 'item', key: 'pump' },
      bytes: Buffer.from(SMALL_JPEG, 'base64').length,
    });
    const full = {
      ...survey,
      photographs: Array.from({ length: 300 }, () => survey.photographs[0]!),
    };
    expect(photographRefusal(full)?.code).toBe('entry-unfit');
  });
});
