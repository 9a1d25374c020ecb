import { expect, it } from 'vitest';
import { hydrostaticsAnswer } from '#core/hull/hydrostatics-output.ts';
import { waterlineAtDraught } from '#core/hull/waterline.ts';
import { hydrostaticsWords } from '#receiver/commands/hydrostatics-words.ts';
import { prism } from '#tests/core/hull/hulls.ts';

it('rounds only here, and leaves GZ away where no KG was given', () => {
  const box = prism(20, 5, [
    [0, 0],
    [3, 0],
    [3, 3],
  ]);
  const answer = hydrostaticsAnswer(box, {
    waterline: waterlineAtDraught(1.5),
    densityKgM3: 1025,
    kgM: null,
    evidence: null,
    trim: 'free',
    side: 'starboard',
    heelsDeg: [0, 20],
    displacementsT: [],
  });
  const words = hydrostaticsWords(answer).join('\n');
  expect(words).toMatch(/displacement in water of 1025\.0 kg\/m3 +184\.500 t/);
  expect(words).toMatch(/BM transverse \/ longitudinal +2\.000 m \/ 22\.222 m/);
  expect(words).toContain('deck edge under water: 26.6 degrees');
  expect(words).not.toContain('GZ');
});
