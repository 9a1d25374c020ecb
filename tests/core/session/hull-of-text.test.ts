import { expect, test } from 'vitest';
import { hullAfloatOfText, hullOfText } from '#core/session/hull-of-text.ts';
import { BOX_KN_CSV, BOX_TABLE_CSV } from '../../support/box-files.ts';
import { OFFSETS, OFFSETS_HULL } from './a-floating-day.ts';

test('a bad table names its file and row; a hull file needs its table inside', () => {
  const bad = { ...OFFSETS_HULL, text: OFFSETS.replace(/\n[^\n]*\n/, '\nx,y,z\n') };
  expect(() => hullOfText(bad)).toThrow(/lines\.csv/);
  const apart = JSON.stringify({ name: 'H', offsets: 'other.csv', offsetsAre: 'outside' });
  expect(() => hullOfText({ ...OFFSETS_HULL, form: 'hull', text: apart })).toThrow(
    /not the name of a/,
  );
  expect(() => hullOfText({ ...OFFSETS_HULL, form: 'hull', text: '{' })).toThrow(/input-not-json/);
});

test('tables are no hull, and need the water they are stated for', () => {
  const tables = { ...OFFSETS_HULL, form: 'tables', text: BOX_TABLE_CSV } as const;
  expect(hullOfText(tables)).toBeNull();
  expect(() => hullAfloatOfText(tables, 20)).toThrow(/density/);
  const afloat = hullAfloatOfText({ ...tables, densityKgM3: 1025, knText: BOX_KN_CSV }, 20);
  expect(afloat.knOf).not.toBeNull();
});

test('spot checks of her against the lines become a cause of displacement and KM', () => {
  const surface = { middleM: 1.9, heelSlope: 0, trimSlope: 0, sagM: 0 };
  const spots = [3, 7.8, 12].map((xM) => ({ xM, depthM: 2.2 }));
  expect(hullAfloatOfText(OFFSETS_HULL, 15).evidenceAt?.(surface, 1.025)).toBeUndefined();
  const { evidenceAt } = hullAfloatOfText({ ...OFFSETS_HULL, spots }, 15);
  const found = evidenceAt!(surface, 1.025);
  expect(found.differences.length).toBeGreaterThan(0);
  expect(found.causes.some(({ displacementT }) => displacementT > 0)).toBe(true);
});
