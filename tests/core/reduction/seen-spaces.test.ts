import { expect, test } from 'vitest';
import { seenSpacesEvidence } from '#core/reduction/seen-spaces.ts';

const bilge = { space: 'engine bilge', sounded: true, opened: true, by: 'M. Adair' };

test('sounded, opened and seen excludes free liquid, with who looked', () => {
  expect(seenSpacesEvidence([bilge], undefined)).toBe(
    'sounded, opened and seen: engine bilge by M. Adair',
  );
});

test('one space short of it, and nothing is excluded', () => {
  const hold = { space: 'hold', sounded: true, opened: false };
  expect(seenSpacesEvidence([bilge, hold], undefined)).toBe(
    'not excluded: hold (not opened, nobody named who looked)',
  );
  expect(seenSpacesEvidence([{ ...bilge, sounded: false }], 'dry')).toBe(
    'not excluded: engine bilge (not sounded); written: dry',
  );
});

test('words alone exclude nothing, and no words are no evidence', () => {
  expect(seenSpacesEvidence([], 'tanks dry')).toBe(
    'not excluded, no space is entered as sounded, opened and seen; written: tanks dry',
  );
  expect(seenSpacesEvidence([], undefined)).toBeNull();
});
