import { expect, test } from 'vitest';
import { draftOf, forgetDraft, keepDraft, newDraft } from '../../../ui/calibrate/kept-draft.ts';

function store() {
  const held = new Map<string, string>();
  return {
    getItem: (key: string) => held.get(key) ?? null,
    setItem: (key: string, value: string) => void held.set(key, value),
    removeItem: (key: string) => void held.delete(key),
    held,
  };
}
const OF = { instrument: 'fore', kind: 'inclinometer', date: '2026-11-25' } as const;

test('what was kept comes back, of each instrument its own, until it is forgotten', () => {
  const kept = store();
  const draft = { ...draftOf(kept, OF), noise: 0.002 };
  expect(keepDraft(kept, draft)).toBe(true);
  expect(draftOf(kept, OF)).toEqual(draft);
  expect(draftOf(kept, { ...OF, instrument: 'aft' })).toEqual(
    newDraft('aft', 'inclinometer', OF.date),
  );
  forgetDraft(kept, 'fore');
  expect(draftOf(kept, OF).noise).toBeNull();
});

test.each(['', '{', '{"v":1}', '[]'])('%j is no draft: it begins anew', (text) => {
  const kept = store();
  kept.held.set('heelwright-calibration-fore', text);
  expect(draftOf(kept, OF)).toEqual(newDraft('fore', 'inclinometer', OF.date));
});

test('a draft of another kind of instrument is not taken', () => {
  const kept = store();
  keepDraft(kept, newDraft('fore', 'water-tube', OF.date));
  expect(draftOf(kept, OF).kind).toBe('inclinometer');
});

test('a browser without room says so', () => {
  const full = {
    ...store(),
    setItem() {
      throw new Error('no room');
    },
  };
  expect(keepDraft(full, newDraft('fore', 'inclinometer', OF.date))).toBe(false);
});
