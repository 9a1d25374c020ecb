import { describe, expect, it } from 'vitest';
import { checkClauses } from '#core/limits/clause-check.ts';
import { type LimitQuestion, limitingKg, limitingKgTable } from '#core/limits/limiting-kg.ts';
import { conditionEvidence } from '#core/stability/condition-evidence.ts';
import { US_WORKING } from '#core/stability/rules/united-states.ts';
import { rectangularTank } from '#core/survey/tank-liquid.ts';
import { marramHull } from '#device/emulated/marram-hull.ts';
import { boxQuestion, NO_PARTICULARS } from '#tests/core/stability/box-condition.ts';
import { GM_035, oneClause } from './gm-rule.ts';

const { loaded: _, ...ask } = boxQuestion();
const vessel = { ...NO_PARTICULARS, services: ['workboat'] as const };

const box: LimitQuestion = { ask: { ...ask, vessel }, slack: [], lightshipT: 100, sets: [GM_035] };

describe('limiting KG', () => {
  it('of a box by GM alone is KM less GM, by its formula, at any displacement', () => {
    for (const massT of [123, 184.5, 246]) {
      const draught = massT / 1.025 / 120;
      const { kgM, governing } = limitingKg(box, massT, 0);
      expect(Math.abs(kgM! - (draught / 2 + 3 / draught - 0.35))).toBeLessThan(2e-5);
      expect(governing.map(({ clause }) => clause)).toEqual(['one']);
    }
  });

  it('falls by the free surface of the slack tanks', () => {
    const shape = rectangularTank({
      fromXM: 8,
      toXM: 12,
      fromYM: -1.5,
      toYM: 1.5,
      fromZM: 0.2,
      toZM: 1.2,
    });
    const slack = [{ tank: 't', shape, volumeM3: 6, densityTM3: 1 }];
    const dry = limitingKg(box, 184.5, 0).kgM!;
    expect(dry - limitingKg({ ...box, slack }, 184.5, 0).kgM!).toBeCloseTo(9 / 184.5, 4);
  });

  it('is proven by the whole judgement of the vessel just below and just above', () => {
    const marram: LimitQuestion = {
      ask: { ...box.ask, hull: marramHull() },
      slack: [],
      lightshipT: 40,
      sets: [US_WORKING],
    };
    const [one, other] = limitingKgTable(marram, [46], [0.1, 0.6]);
    expect(one!.governing.length).toBeGreaterThan(0);
    // by the stern she has another limit, and not by rounding
    expect(Math.abs(other!.kgM! - one!.kgM!)).toBeGreaterThan(1e-3);
    const checkAt = (kgM: number) => {
      const lcgM = xOf(marram, 46, 0.1, kgM);
      const question = boxQuestion({ massT: 46, kgM }, marram.ask.hull);
      const { loaded } = question;
      const centre = { xM: lcgM, yM: 0, zM: kgM };
      const moments = { massT: 46, xTM: 46 * lcgM, yTM: 0, zTM: 46 * kgM };
      const evidence = conditionEvidence({
        ...question,
        vessel,
        loaded: { ...loaded, moments, centre, causes: null },
      });
      expect(evidence.trimM).toBeCloseTo(0.1, 6);
      return checkClauses([US_WORKING], evidence);
    };
    expect(checkAt(one!.kgM! - 1e-4).met).toBe(true);
    const above = checkAt(one!.kgM! + 1e-4);
    expect(above.failing.map(({ clause }) => clause)).toEqual(
      one!.governing.map(({ clause }) => clause),
    );
  });

  it('that no KG can give names what fails; nothing that judges, or never fails, is a fault', () => {
    const high = oneClause({ kind: 'downflooding', opened: 'weathertight' }, 20, 'deg');
    const never = oneClause({ kind: 'downflooding', opened: 'weathertight' }, 0, 'deg');
    const flooded = {
      ...box,
      ask: {
        ...box.ask,
        openings: [
          {
            openFrom: 'weathertight' as const,
            opening: { name: 'vent', xM: 10, yM: 3, zM: 1.6, closing: 'unprotected' as const },
          },
        ],
      },
    };
    expect(limitingKg({ ...flooded, sets: [high] }, 184.5, 0)).toMatchObject({ kgM: null });
    expect(() => limitingKg({ ...flooded, sets: [never] }, 184.5, 0)).toThrow(/loading-no-limit/);
    const outside = { ...box, ask: { ...ask, vessel: NO_PARTICULARS }, sets: [US_WORKING] };
    expect(() => limitingKg(outside, 184.5, 0)).toThrow(/loading-no-limit/);
  });
});

/** Where the centre lies fore and aft for an upright trim, found the other way: by trying. */
function xOf({ ask: { hull } }: LimitQuestion, massT: number, trimM: number, kgM: number): number {
  let [low, high] = [4, 9];
  for (let count = 0; count < 40; count++) {
    const xM = (low + high) / 2;
    const question = boxQuestion({ massT, kgM }, hull);
    const centre = { xM, yM: 0, zM: kgM };
    const moments = { massT, xTM: massT * xM, yTM: 0, zTM: massT * kgM };
    const loaded = { ...question.loaded, moments, centre, causes: null };
    const { upright } = conditionEvidence({ ...question, loaded });
    if (upright.draughtAftM - upright.draughtForwardM > trimM) low = xM;
    else high = xM;
  }
  return (low + high) / 2;
}
