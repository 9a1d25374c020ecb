import { expect, it } from 'vitest';
import { pendulumWords } from '#receiver/commands/pendulum-words.ts';

it('says how many pendulums were read, their lengths, and which texts are not met', () => {
  const asks = [
    { asks: 'three pendulums, at least two', source: 'a code', met: false, found: '1 pendulum' },
    { asks: '150 mm to each side', source: 'a code', met: true, found: '163 mm' },
  ];
  const words = pendulumWords({ used: ['Aft'], lengthsMm: [[2500, 2480]], tubes: [], asks });
  expect(words).toEqual([
    'Pendulums read: 1: Aft (2500, then 2480 mm)',
    'What the texts ask:',
    '  not met  three pendulums, at least two: 1 pendulum (a code)',
    '  met      150 mm to each side: 163 mm (a code)',
  ]);
  const none = pendulumWords({ used: [], lengthsMm: [], tubes: [], asks: [] });
  expect(none[0]).toBe('No pendulum was read.');
});
