import { expect, it } from 'vitest';
import { hydrostaticsAnswer, hydrostaticsOutput } from '#core/hull/hydrostatics-output.ts';
import { waterlineAtDraught } from '#core/hull/waterline.ts';
import { prism } from './hulls.ts';

const box = prism(20, 5, [
  [0, 0],
  [3, 0],
  [3, 3],
]);
const question = {
  waterline: waterlineAtDraught(1.5),
  densityKgM3: 1025,
  kgM: 2.2,
  evidence: null,
  trim: 'free',
  side: 'port',
  heelsDeg: [0, 10],
  displacementsT: [],
} as const;

it('answers in the form of its schema, levers at the displacement found', () => {
  const answer = hydrostaticsAnswer(box, question);
  expect(hydrostaticsOutput.parse(answer)).toEqual(answer);
  expect(answer.gmTransverseM).toBeCloseTo(0.55, 10);
  expect(answer.metacentreMovementM).toBeCloseTo(1, 8);
  const [levers] = answer.levers.displacements;
  expect(levers!.displacementT).toBeCloseTo(184.5, 10);
  expect(levers!.points[1]!.heelDeg).toBe(-10);
  expect(levers!.points[1]!.gzM).toBeCloseTo(-0.100905429, 9);
  expect(Math.tan((levers!.limits.deckEdgeDeg! * Math.PI) / 180)).toBeCloseTo(0.5, 9);
});

it('says nothing of GM and GZ without KG, and answers at the displacements asked', () => {
  const answer = hydrostaticsAnswer(box, { ...question, kgM: null, displacementsT: [100, 200] });
  expect(answer.gmTransverseM).toBeNull();
  expect(answer.levers.displacements.map((one) => one.displacementT)).toEqual([100, 200]);
  expect(answer.levers.displacements[0]!.points[1]!.gzM).toBeNull();
  expect(answer.levers.displacements[0]!.limits.vanishingDeg).toBeNull();
});

it('refuses a waterline that passes the hull by', () => {
  const over = { ...question, waterline: waterlineAtDraught(4) };
  expect(() => hydrostaticsAnswer(box, over)).toThrow('input-range');
  const under = { ...question, waterline: waterlineAtDraught(-1) };
  expect(() => hydrostaticsAnswer(box, under)).toThrow('input-range');
});
