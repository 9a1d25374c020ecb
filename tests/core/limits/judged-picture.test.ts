import { describe, expect, it } from 'vitest';
import { answerOf, judgedPicture } from '#core/limits/judged-picture.ts';
import { IMO_FISHING } from '#core/stability/rules/imo.ts';
import { WORKING, workingBox } from './working-box.ts';

describe('a condition worked out and judged', () => {
  const picture = judgedPicture(workingBox(), WORKING);

  it('has its figures and both sides as plain data', () => {
    // Box 20 x 6, 123 t in 1.025: draught 1, KB .5, BM 3, KG 1.9.
    expect(picture.gmFluidM).toBeCloseTo(1.6, 9);
    const known = judgedPicture(workingBox({ kgUncertaintyM: 0.01 }), WORKING);
    expect(known.kgHalfWidth95M).toBeCloseTo(1.959963985 * 0.01, 9);
    expect(picture.meanDraughtM).toBeCloseTo(1, 9);
    expect(picture.leastFreeboardM).toBeCloseTo(2, 9);
    expect(picture.sides.map((side) => side.side)).toEqual(['starboard', 'port']);
    const [starboard] = picture.sides;
    expect(starboard!.heelsDeg).toHaveLength(46);
    // Wall-sided at 10 degrees: (GM + BM tan2 / 2) sin.
    expect(starboard!.leversM[5]).toBeCloseTo(
      (1.6 + 1.5 * Math.tan(Math.PI / 18) ** 2) * Math.sin(Math.PI / 18),
      4,
    );
    expect(starboard!.floodsDeg).toEqual({
      weathertight: null,
      'open-at-sea': null,
      'open-at-worst': null,
    });
    expect(JSON.parse(JSON.stringify(picture))).toEqual(picture);
  });

  it('answers with the clause that governs', () => {
    expect(picture.answer).toMatchObject({ outcome: 'met', judged: 6, notJudged: 0 });
    const tender = judgedPicture(workingBox({ kgM: 3.4 }), WORKING).answer;
    expect(tender.outcome).toBe('not-met');
    expect(tender.governs!.verdict).toBe('not-met');
  });

  it('counts a margin within its uncertainty as not met unless it is signed for', () => {
    const near = judgedPicture(workingBox({ kgM: 1.9, kgUncertaintyM: 3 }), WORKING);
    expect(near.answer).toMatchObject({
      outcome: 'not-met',
      governs: { verdict: 'met-within-uncertainty' },
    });
    const signed = near.sets[0]!.clauses.map(({ ruleSet, clause }) => ({
      ruleSet,
      clause,
      by: 'A. Sandbank',
    }));
    expect(answerOf(near.sets, signed).outcome).toBe('met');
  });

  it('says where nothing could be judged', () => {
    expect(judgedPicture(workingBox(), { sets: [IMO_FISHING], signed: [] }).answer).toMatchObject({
      outcome: 'nothing-judged',
      governs: null,
      notJudged: 6,
    });
  });
});
