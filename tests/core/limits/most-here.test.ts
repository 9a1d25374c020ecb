import { describe, expect, it } from 'vitest';
import { type LoadChange, withChange } from '#core/limits/change.ts';
import { judgedPicture } from '#core/limits/judged-picture.ts';
import { mostHere } from '#core/limits/most-here.ts';
import { IMO_FISHING } from '#core/stability/rules/imo.ts';
import { WORKING, workingBox } from './working-box.ts';

const high: LoadChange = { act: 'add', what: 'bags', massT: 0, at: { xM: 10, yM: 0, zM: 8 } };

describe('the most that may be put at a place', () => {
  it('is met just below and not just above', () => {
    const question = workingBox();
    const most = mostHere(question, WORKING, high)!;
    expect(most.massT).toBeGreaterThan(5);
    expect(most.governs!.verdict).toBe('not-met');
    const at = (massT: number) =>
      judgedPicture(withChange(question, { ...high, massT }), WORKING).answer.outcome;
    expect(at(most.massT)).toBe('met');
    expect(at(most.massT + most.withinT)).toBe('not-met');
    expect(most.withinT / most.massT).toBeLessThan(0.01);
  });

  it('is none where she does not meet the clauses as she is', () => {
    expect(mostHere(workingBox({ kgM: 3.4 }), WORKING, high)).toMatchObject({
      massT: 0,
      governs: { verdict: 'not-met' },
    });
  });

  it('is not said where nothing is judged, and not looked for beyond half of what she weighs', () => {
    expect(mostHere(workingBox(), { sets: [IMO_FISHING], signed: [] }, high)).toBeNull();
    const ballast = { ...high, at: { xM: 10, yM: 0, zM: 0.2 } };
    expect(mostHere(workingBox(), WORKING, ballast)).toMatchObject({
      massT: 61.5,
      beyondT: 61.5,
      governs: null,
    });
  });
});
