import { expect, test } from 'vitest';
import { type LoadingInput, loadingInput, loadingOf } from '#core/stability/loading-input.ts';
import { marramHull } from '#device/emulated/marram-hull.ts';
import { BOX_HULL } from './box-condition.ts';
import { BOX_LOADING } from './box-loading.ts';

const of = (more: Partial<LoadingInput>) => () => loadingOf({ ...BOX_LOADING, ...more }, BOX_HULL);

test('conditions in their order, each with all that is aboard', () => {
  const { questions, asked } = of({})();
  expect(questions.map(({ loaded }) => loaded.name)).toEqual(['half a tank', 'light']);
  expect(questions[0]!.loaded.moments.massT).toBeCloseTo(170 + 6 + 8.5, 12);
  expect(questions[0]!.densityTM3).toBe(1.025);
  expect(asked).toEqual([]);
});

test('ice goes on top, other water where it is said', () => {
  const [first] = BOX_LOADING.conditions!;
  const decks = [{ name: 'deck', areaM2: 100, at: { xM: 10, yM: 0, zM: 3 } }];
  const iced = { ...first!, ice: { zone: 'usual' as const, areas: { decks, sides: [] } } };
  const [question] = of({ conditions: [{ ...iced, densityKgM3: 1000 }] })().questions;
  expect(question!.loaded.moments.massT).toBeCloseTo(184.5 + 3, 10);
  expect(question!.densityTM3).toBe(1);
});

test('ice is by one regulation or the other, never by both', () => {
  const [first] = BOX_LOADING.conditions!;
  const decks = [{ name: 'deck', areaM2: 100, at: { xM: 10, yM: 0, zM: 3 } }];
  const none = { faces: [], fittings: [], rigging: [] };
  const iceByCanada = { trawler: 'stern' as const, deckZM: 3, decks, ...none };
  const [question] = of({ conditions: [{ ...first!, iceByCanada }] })().questions;
  expect(question!.loaded.moments.massT).toBeCloseTo(184.5 + 5.4, 10);
  const ice = { zone: 'usual', areas: { decks, sides: [] } };
  const both = { ...BOX_LOADING, conditions: [{ ...first!, ice, iceByCanada }] };
  expect(loadingInput.safeParse(both).success).toBe(false);
});

test('superstructures that may not count are left out, by name', () => {
  const marram = marramHull();
  const less = loadingOf({ ...BOX_LOADING, notCounted: ['wheelhouse'] }, marram).hull;
  expect(less.bodies).toHaveLength(marram.bodies.length - 1);
  const wrong = () => loadingOf({ ...BOX_LOADING, notCounted: [marram.main.name] }, marram);
  expect(wrong).toThrow(/loading-unknown/);
});

test('what is not there, or stands twice, is refused with a code', () => {
  const [first] = BOX_LOADING.conditions!;
  expect(of({ conditions: [first!, first!] })).toThrow(/input-contradiction/);
  expect(of({ openings: [{ opening: 'hatch', kept: 'shut' }] })).toThrow(/loading-unknown/);
  const fillings = [{ space: 'bilge', share: 0.5 }];
  expect(of({ conditions: [{ ...first!, fillings }] })).toThrow(/loading-unknown/);
  const { conditions: _, ...none } = BOX_LOADING;
  expect(loadingInput.safeParse(none).success).toBe(false);
  expect(loadingInput.safeParse({ ...BOX_LOADING, densityKgM3: 1.025 }).success).toBe(false);
  expect(loadingInput.safeParse({ ...BOX_LOADING, vessel: 'a \u001b[2J box' }).success).toBe(false);
});
