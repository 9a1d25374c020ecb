import { describe, expect, it } from 'vitest';
import { surfaceMomentM4 } from '#core/condition/free-surface.ts';
import { radiansFromDegrees } from '#core/quantity/angle.ts';
import { liquidsLeverM } from '#core/reduction/liquids.ts';
import { conditionEvidence } from '#core/stability/condition-evidence.ts';
import { SIDES } from '#core/stability/evidence.ts';
import { prism } from '#tests/core/hull/hulls.ts';
import { boxQuestion } from './box-condition.ts';

const rad = radiansFromDegrees;

describe('the box, whose levers are known in closed form', () => {
  const box = conditionEvidence(boxQuestion());

  // KN = BM sin + (KB + BM t2 / 2) sin, KG 2.2: exact while bilge and deck stay as they are.
  it.each([
    [5, 0.048602772],
    [10, 0.100905429],
    [15, 0.160932846],
    [20, 0.233419969],
    [25, 0.324335356],
  ])('lever at %d degrees, both sides alike', (deg, expected) => {
    for (const side of SIDES) {
      expect(box.levers(side, 'exact').leverM(rad(deg))).toBeCloseTo(expected, 6);
    }
  });

  it('area to 25 degrees is the integral of that formula', () => {
    const phi = rad(25);
    // integral of 0.55 sin + tan2 sin (BM / 2 = 1): (1 - cos)(0.55) + (1 / cos + cos - 2)
    const exact = 0.55 * (1 - Math.cos(phi)) + (1 / Math.cos(phi) + Math.cos(phi) - 2);
    const levers = box.levers('starboard', 'exact');
    expect(Math.abs(levers.areaMRad(0, phi) - exact)).toBeLessThan(2e-6);
    const halves = levers.areaMRad(0, rad(11)) + levers.areaMRad(rad(11), phi);
    expect(halves).toBeCloseTo(levers.areaMRad(0, phi), 12);
  });

  it('floats as a box floats', () => {
    expect(box.meanDraughtM).toBeCloseTo(1.5, 10);
    expect(box.trimM).toBeCloseTo(0, 9);
    expect(box.leastFreeboardM).toBeCloseTo(1.5, 9);
    expect(box.waterlineLengthM).toBeCloseTo(20, 9);
    expect(box.waterlineBeamM).toBeCloseTo(6, 9);
    expect(box.blockCoefficient).toBeCloseTo(1, 9);
    expect(box.gmFluidM('exact')).toBeCloseTo(0.55, 9);
    expect(box.listRad).toBe(0);
    // The deck edge, 1.5 m over the water and 3 m out, and the bilge come level together.
    expect(box.deckEdgeRad('port')).toBeCloseTo(Math.atan(0.5), 6);
    expect(box.freeboardAtM('starboard', rad(10))).toBeCloseTo(
      1.5 * Math.cos(rad(10)) - 3 * Math.sin(rad(10)),
      6,
    );
  });
});

describe('a weight off the middle', () => {
  const to = (tcgM: number) => conditionEvidence(boxQuestion({ tcgM }));

  it('lists her to its side, to where the levers are none; the mirror image to the other', () => {
    const list = to(0.05).listRad!;
    // 0.05 cos = 0.55 sin + tan2 sin
    expect(0.05 * Math.cos(list)).toBeCloseTo(
      0.55 * Math.sin(list) + Math.tan(list) ** 2 * Math.sin(list),
      5,
    );
    expect(to(-0.05).listRad).toBeCloseTo(-list, 9);
    expect(to(0.05).levers('starboard', 'exact').leverM(0)).toBeCloseTo(-0.05, 12);
    for (const deg of [0, 12, 30, 70]) {
      expect(to(0.05).levers('port', 'exact').leverM(rad(deg))).toBeCloseTo(
        to(-0.05).levers('starboard', 'exact').leverM(rad(deg)),
        8,
      );
    }
  });

  it('a vessel without GM lolls, a hopeless one rests nowhere', () => {
    const loll = conditionEvidence(boxQuestion({ kgM: 2.9 }));
    // GM -0.15: tan2 = 2 (KG - KM) / BM, wall-sided.
    expect(loll.listRad).toBeCloseTo(Math.atan(Math.sqrt(0.15)), 4);
    expect(conditionEvidence(boxQuestion({ kgM: 6 })).listRad).toBeNull();
  });
});

describe('a slack tank', () => {
  const half = boxQuestion({ massT: 178.5, fillings: [{ space: 'tank', share: 0.5 }] });
  const found = conditionEvidence(half);
  const liquid = half.loaded.liquids[0]!;

  it('costs GM its second moment, and the exact lever what the liquid moves', () => {
    const loss = surfaceMomentM4(liquid.shape, 6) / 184.5;
    expect(half.loaded.freeSurfaceTM).toBeCloseTo((4 * 27) / 12, 9);
    const levers = (of: 'exact' | 'upright') => found.levers('starboard', of);
    const solid = (deg: number) => {
      const t = Math.tan(rad(deg));
      return Math.sin(rad(deg)) * (2.75 + t * t - half.loaded.centre.zM);
    };
    expect(found.gmFluidM('upright')).toBeCloseTo(2.75 - half.loaded.centre.zM - loss, 8);
    for (const deg of [5, 10, 20, 25]) {
      expect(levers('upright').leverM(rad(deg))).toBeCloseTo(
        solid(deg) - loss * Math.sin(rad(deg)),
        5,
      );
      const moved = liquidsLeverM([liquid], 184.5, 0)(rad(deg));
      expect(levers('exact').leverM(rad(deg))).toBeCloseTo(solid(deg) - moved, 5);
    }
    const small = 1e-3;
    expect(levers('exact').leverM(small) / small).toBeCloseTo(found.gmFluidM('exact'), 3);
  });

  it('by the formula of RD 543/2007 is the exact loss of a rectangle half full, when not small', () => {
    const at = (of: typeof found, method: 'exact' | 'rd-543-2007') =>
      of.levers('starboard', method).leverM(rad(20));
    expect(at(found, 'rd-543-2007')).toBeCloseTo(at(found, 'exact'), 4);
    // A liquid so light that its moment at 30 degrees is under 0.01 of the lightship: left out.
    const fillings = [{ space: 'tank', share: 0.5, densityTM3: 0.3 }];
    const question = boxQuestion({ massT: 182.7, fillings });
    const solid = 2.75 - question.loaded.centre.zM + Math.tan(rad(20)) ** 2;
    const light = conditionEvidence(question);
    expect(at(light, 'rd-543-2007')).toBeCloseTo(solid * Math.sin(rad(20)), 5);
    expect(at(light, 'exact')).toBeLessThan(at(light, 'rd-543-2007') - 0.003);
  });
});

describe('errors of the weights', () => {
  it('of KG alone turn the levers by its sine, of mass cut the hull anew', () => {
    const box = conditionEvidence(boxQuestion({ kgUncertaintyM: 0.02, massUncertaintyT: 1 }));
    const [mass, kg] = box.causes;
    const lever = (of: typeof box) => of.levers('starboard', 'exact').leverM(rad(20));
    expect(kg!.cause).toBe('VCG of the lightship');
    expect(lever(kg!.moved(2) as typeof box)).toBeCloseTo(lever(box) - 0.04 * Math.sin(rad(20)), 9);
    const heavier = conditionEvidence(boxQuestion({ massT: 185.5 }));
    expect(mass!.moved(1).displacementT).toBeCloseTo(185.5, 9);
    expect(lever(mass!.moved(1) as typeof box)).toBeCloseTo(lever(heavier), 5);
    expect(mass!.moved(1).meanDraughtM).toBeCloseTo(heavier.meanDraughtM, 9);
  });

  it('that are not known are told from none', () => {
    const question = boxQuestion();
    const unknown = { ...question, loaded: { ...question.loaded, causes: null } };
    expect(conditionEvidence(unknown).uncertaintyKnown).toBe(false);
    expect(conditionEvidence(question).uncertaintyKnown).toBe(true);
  });

  it('raised is the condition with a higher KG', () => {
    const raised = conditionEvidence(boxQuestion()).raised(0.3);
    const higher = conditionEvidence(boxQuestion({ kgM: 2.5 }));
    expect(raised.kgM).toBeCloseTo(2.5, 12);
    expect(raised.gmFluidM('exact')).toBeCloseTo(higher.gmFluidM('exact'), 9);
    for (const deg of [15, 40, 75]) {
      expect(raised.levers('port', 'exact').leverM(rad(deg))).toBeCloseTo(
        higher.levers('port', 'exact').leverM(rad(deg)),
        6,
      );
    }
  });
});

describe('laws', () => {
  it('a ship twice as large of eight times the mass has twice the levers and areas', () => {
    const twice = prism(40, 5, [
      [0, 0],
      [6, 0],
      [6, 6],
    ]);
    const question = boxQuestion({ massT: 8 * 184.5, kgM: 4.4, tcgM: 0.06 }, twice);
    const { loaded } = question;
    const centre = { ...loaded.centre, xM: 20 };
    const moments = { ...loaded.moments, xTM: 20 * loaded.moments.massT };
    const large = conditionEvidence({ ...question, loaded: { ...loaded, centre, moments } });
    const small = conditionEvidence(boxQuestion({ tcgM: 0.03 }));
    const of = (evidence: typeof small) => evidence.levers('starboard', 'exact');
    for (const deg of [8, 30, 65, 90]) {
      expect(of(large).leverM(rad(deg))).toBeCloseTo(2 * of(small).leverM(rad(deg)), 5);
      expect(of(large).areaMRad(0, rad(deg))).toBeCloseTo(2 * of(small).areaMRad(0, rad(deg)), 5);
    }
    expect(large.listRad).toBeCloseTo(small.listRad!, 5);
  });

  it('lever, area and GM fall with KG, everywhere', () => {
    const box = conditionEvidence(boxQuestion());
    let before = box;
    for (const byM of [0.05, 0.1, 0.4]) {
      const higher = box.raised(byM);
      for (const side of SIDES) {
        for (const deg of [5, 25, 45, 90]) {
          const [high, low] = [higher, before].map((one) => one.levers(side, 'exact'));
          expect(high!.leverM(rad(deg))).toBeLessThan(low!.leverM(rad(deg)));
          expect(high!.areaMRad(0, rad(deg))).toBeLessThan(low!.areaMRad(0, rad(deg)));
        }
      }
      expect(higher.gmFluidM('exact')).toBeLessThan(before.gmFluidM('exact'));
      before = higher;
    }
  });
});
