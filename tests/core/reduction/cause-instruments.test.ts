import { expect, it } from 'vitest';
import { instrumentFindings } from '#core/reduction/cause-instruments.ts';
import { dayEvidence } from '#tests/core/reduction/cause-evidence.ts';

const JUMP = 0.001;

it('finds which instrument slipped, since when and by how much', () => {
  const found = instrumentFindings(
    dayEvidence({ shown: (state, j) => (j === 2 && state >= 4 ? JUMP : 0) }),
  );
  const slipped = found.find(({ cause }) => cause === 'slipped')!;
  expect([slipped.instrument, slipped.state]).toEqual([2, 4]);
  expect(slipped.size).toBeCloseTo(JUMP, 4);
  expect(slipped.support).toBeGreaterThan(10);
});

it('takes wind and people, which all feel, for no fault of an instrument', () => {
  const windy = dayEvidence({ heel: (t, state) => t + JUMP * Math.sin(7 * state) });
  for (const { support } of instrumentFindings(windy)) expect(support).toBeLessThan(4.5);
});

it('names a scale only where it is seen beyond what the certificates leave', () => {
  const scaled = (seen: boolean) =>
    instrumentFindings(
      dayEvidence({
        shown: (state, j) => (j === 0 ? JUMP * [0, 1, 2, 1, 0, -1, -2, -1, 0][state]! : 0),
        more: { shapes: [{ shape: 'scale of one instrument', seen }] },
      }),
    ).filter(({ cause }) => cause === 'scale');
  expect(scaled(false)).toEqual([]);
  expect(scaled(true)[0]).toMatchObject({ instrument: 0, state: null });
  expect(scaled(true)[0]!.size).toBeCloseTo(JUMP / 0.024, 2);
});

it('finds nothing with one instrument', () => {
  const day = dayEvidence();
  const one = { ...day, instrumentNames: ['fore'], tangents: day.tangents.map(([t]) => [t!]) };
  expect(instrumentFindings(one)).toEqual([]);
});
