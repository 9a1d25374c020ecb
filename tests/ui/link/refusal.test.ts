import { describe, expect, it } from 'vitest';
import { FAULTS } from '#core/fault/fault.ts';
import { refusalTold, sentence } from '#ui/link/refusal.ts';

describe('a refusal', () => {
  it('is told by what it means, what was found and what to do, never by its code', () => {
    const { remedy } = FAULTS['act-not-steady'];
    const told = refusalTold({ code: 'act-not-steady', found: 'wake', remedy });
    expect(told.title).toBe(`Not done: ${FAULTS['act-not-steady'].means}.`);
    expect(told.found).toBe('Wake.');
    expect(told.remedy).toBe(remedy);
    expect(Object.values(told).join(' ')).not.toContain('act-not-steady');
    expect(refusalTold({ code: 'not-of-ours', found: 'x', remedy: 'y' }).title).toBe('Not done.');
  });

  it('is a sentence with the degree ring', () => {
    expect(sentence('3.00 deg are left')).toBe('3.00° are left.');
    expect(sentence('Is it?')).toBe('Is it?');
  });
});
