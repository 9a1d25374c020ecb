import { expect, test } from 'vitest';
import { ENTRY_SHEETS, entryLine, photographLine } from '#core/record/entry-line.ts';
import { entered } from '../../support/entries.ts';

const WATER = entered('water', 'amidships', { densityKgM3: 1020, temperatureC: 12 });
const holds = (entry: unknown) => entryLine.safeParse(entry).success;

test('a row has the value of its own sheet, and there is a form for every sheet', () => {
  expect(holds(WATER)).toBe(true);
  expect(holds({ ...WATER, value: null, was: 4 })).toBe(true);
  expect(holds({ ...WATER, sheet: 'zero' })).toBe(false);
  expect(holds({ ...WATER, value: { densityKgM3: -1, temperatureC: null } })).toBe(false);
  expect(entryLine.options.map((option) => option.shape.sheet.value).sort()).toEqual(
    Object.keys(ENTRY_SHEETS).sort(),
  );
});

test('what stands once has no closing, and sheets of one row no other key', () => {
  const space = entered('space', 'bilge', { sounded: true, opened: true, by: 'B. Heron' });
  expect(holds(space)).toBe(true);
  expect(holds({ ...space, occasion: 'closing' })).toBe(false);
  expect(holds(entered('statement', 'wind', { text: 'light, from the west' }))).toBe(true);
  expect(holds(entered('statement', 'tides', { text: 'none' }))).toBe(false);
  expect(holds({ ...WATER, key: '' })).toBe(false);
  expect(holds({ ...WATER, key: 'x'.repeat(65) })).toBe(false);
});

test('a photograph is base64 of at most a megabyte', () => {
  const photograph = { of: { sheet: 'item', key: 'pump' }, caption: '', jpeg: '/9g=' };
  expect(photographLine.safeParse(photograph).success).toBe(true);
  expect(photographLine.safeParse({ ...photograph, jpeg: 'not base64!' }).success).toBe(false);
  const large = 'A'.repeat(1_398_108);
  expect(photographLine.safeParse({ ...photograph, jpeg: large }).success).toBe(false);
});
