import { expect, it } from 'vitest';
import { belowDeck, deckAt } from '#core/hull/deck-line.ts';

const deckLine = [
  { xM: 10, zM: 2.4, camberM: 0.1 },
  { xM: 0, zM: 2, camberM: 0.1 },
  { xM: 5, zM: 2, camberM: 0.1 },
];
const station = (xM: number, footM: number) => ({
  xM,
  points: [0, 1, 2].map((k) => ({ yM: k, zM: footM + k * 0.8, knuckle: false, where: `x ${xM}` })),
});

it('is a fair line through its points, and refuses an x beyond them', () => {
  const deck = deckAt(deckLine);
  expect(deck(5).zM).toBe(2);
  expect(deck(2.5).camberM).toBeCloseTo(0.1, 12);
  expect(() => deck(10.1)).toThrow('hull-deck');
  expect(() => deckAt([...deckLine, { xM: 5, zM: 3 }])).toThrow('hull-deck');
});

it('cuts sections at the deck and closes the hull where its stem meets it', () => {
  const deck = deckAt([
    { xM: 0, zM: 1.5 },
    { xM: 10, zM: 1.5 },
  ]);
  const stations = [station(0, 0.1), station(4, 0.1), station(8, 1), station(10, 2)];
  const cut = belowDeck({ stations }, deck);
  expect(cut.map((one) => one.xM)).toEqual([0, 4, 8, 9]);
  for (const { curve } of cut) expect(curve.at(1)[1]).toBeCloseTo(1.5, 9);
  expect(cut.at(-1)!.curve.girthM).toBe(0);
});

it('refuses a deck over the top of a section, and one under the whole hull', () => {
  const at = (zM: number) =>
    deckAt([
      { xM: 0, zM },
      { xM: 10, zM },
    ]);
  expect(() => belowDeck({ stations: [station(0, 0.1), station(5, 0.1)] }, at(2))).toThrow(
    'hull-deck',
  );
  expect(() => belowDeck({ stations: [station(0, 0.1), station(5, 0.1)] }, at(0))).toThrow(
    'hull-deck',
  );
});
