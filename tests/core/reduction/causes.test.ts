import { describe, expect, it } from 'vitest';
import type { CauseName } from '#core/reduction/cause-names.ts';
import { causesOf } from '#core/reduction/causes.ts';
import { dayEvidence } from '#tests/core/reduction/cause-evidence.ts';

const DEG = Math.PI / 180;
const TAUT = 0.008;
const beyond = (heel: number, from: number) => Math.max(0, heel - from);

/** What each would do, worked out apart from the program's own patterns. */
const PLANTED: readonly (readonly [CauseName, Parameters<typeof dayEvidence>[0], RegExp])[] = [
  [
    'weight',
    { heel: (t, state) => ([1, 2, 3].includes(state) ? t - 0.03 * 0.024 : t) },
    /A acts as carried 3\.8\d, not 4\.00, or as [23]\.\d % lighter/,
  ],
  [
    'moved',
    { heel: (t, state) => (state >= 3 ? t + 0.05 * DEG : t) },
    /from state 3 on, 0\.0[45]\d deg to starboard/,
  ],
  [
    'line',
    {
      heel: (t) => t - 0.1 * beyond(t, TAUT),
      stiffness: (state) => ([1, 2, 3].includes(state) ? 1.11 : 1),
    },
    /to starboard, where she is 1\d\.\d % stiffer/,
  ],
  [
    'tank-wall',
    {
      heel: (t) => t - 0.06 * Math.sign(t) * beyond(Math.abs(t), 0.02),
      stiffness: (state) => ([1, 2, 3, 5, 6, 7].includes(state) ? 1.06 : 1),
    },
    /to both sides, where she is/,
  ],
  [
    'free-surface',
    { heel: (t, state) => (state >= 3 ? 1.06 * t : t), stiffness: (s) => (s >= 3 ? 0.943 : 1) },
    /from state 3 on, 5\.\d % softer/,
  ],
  [
    'ground',
    { heel: (t, state) => (state >= 3 ? 0.92 * t : t), stiffness: (s) => (s >= 3 ? 1.087 : 1) },
    /from state 3 on, \d\.\d % stiffer/,
  ],
  [
    'cross-connection',
    { heel: (t, state) => t + 0.02 * t - 0.02 * 0.5 * (t - remembered(state)) },
    /of a heel come late/,
  ],
  ['list-drift', { heel: (t, state) => t + 0.02 * DEG * state }, /0\.1[56]\d deg to starboard/],
  [
    'slipped',
    { shown: (state, j) => (j === 1 && state >= 5 ? -0.04 * DEG : 0) },
    /aft, from state 5 on, by 0\.0[34]\d deg to port/,
  ],
  [
    'misread-instrument',
    { shown: (state, j) => (j === 2 && state === 4 ? 0.05 * DEG : 0) },
    /tube, state 4, 0\.0[45]\d deg to starboard/,
  ],
  [
    'scale',
    {
      shown: (state, j) => (j === 0 ? 0.02 * heelOf(state) : 0),
      more: { shapes: [{ shape: 'scale of one instrument', seen: true }] },
    },
    /fore, 2\.\d % more heel/,
  ],
  [
    'wind',
    {
      heel: (t, state) => t + [3, -6, 4, 2, -5, 6, -3, -4, 5][state]! * 0.01 * DEG,
      more: { traces: [0, 2, 3, 5].map((state) => ({ state, kind: 'wind', instruments: null })) },
    },
    /deg from state to state/,
  ],
];

const heelOf = (state: number) => 0.024 * [0, 1, 2, 1, 0, -1, -2, -1, 0][state]!;
const remembered = (state: number): number =>
  state === 0 ? 0 : heelOf(state) - 0.5 * (heelOf(state) - remembered(state - 1));

describe('what may be wrong', () => {
  it.each(PLANTED)('names %s first, with its place and size', (cause, wrong, words) => {
    const [first] = causesOf(dayEvidence(wrong));
    expect(first?.cause).toBe(cause);
    expect(first!.words).toMatch(words);
    expect(first!.evidence.length).toBeGreaterThan(0);
  });

  it('names nothing on a good day, whatever its chance', () => {
    for (let seed = 1; seed <= 60; seed++) {
      expect([seed, ...causesOf(dayEvidence({ seed })).map(({ words }) => words)]).toEqual([seed]);
    }
  });

  it('says the same of the mirrored vessel, on the other side', () => {
    const right = dayEvidence({ heel: (t) => t - 0.1 * beyond(t, TAUT) });
    const mirrored = {
      ...right,
      moments: right.moments.map((moment) => -moment),
      tangents: right.tangents.map((row) => row.map((one) => (one === null ? null : -one))),
      weights: right.weights.map((one) => ({ ...one, moments: one.moments.map((m) => -m) })),
    };
    const said = causesOf(right).map(
      ({ cause, words, support }) => [cause, words, support] as const,
    );
    const other = causesOf(mirrored);
    expect(other.map(({ cause }) => cause)).toEqual(said.map(([cause]) => cause));
    other.forEach(({ support, words }, k) => {
      expect(support).toBeCloseTo(said[k]![2], 9);
      if (/to (starboard|port)/.test(words)) expect(words).not.toBe(said[k]![1]);
    });
  });

  it('puts the line behind where her roll is not stiffer there, and says so', () => {
    const of = (stiff: number) =>
      causesOf(
        dayEvidence({
          heel: (t) => t - 0.1 * beyond(t, TAUT),
          stiffness: (state) => ([1, 2, 3].includes(state) ? stiff : 1),
        }),
      ).find(({ cause }) => cause === 'line')!;
    const against = of(1).evidence.find(({ from }) => from === 'roll')!;
    expect(against.speaksFor).toBe(false);
    expect(of(1.11).evidence.find(({ from }) => from === 'roll')!.speaksFor).toBe(true);
    expect(of(1.11).support).toBeGreaterThan(of(1).support + 5);
  });

  it('calls two instruments that part from each other by both names', () => {
    const three = dayEvidence({ shown: (state, j) => (j === 1 && state >= 5 ? 0.05 * DEG : 0) });
    const two = {
      ...three,
      instrumentNames: ['fore', 'aft'],
      tangents: three.tangents.map((row) => row.slice(0, 2)),
    };
    const slipped = causesOf(two).find(({ cause }) => cause === 'slipped')!;
    expect(slipped.words).toContain('fore or aft: these two disagree');
    expect(slipped.instrument).toBeNull();
  });

  it('names nothing of fewer than five states, and takes readings that are missing', () => {
    const day = dayEvidence({ heel: (t, state) => (state >= 3 ? t + 0.1 * DEG : t) });
    const few = {
      ...day,
      moments: day.moments.slice(0, 4),
      tangents: day.tangents.slice(0, 4),
      weights: day.weights.map((one) => ({ ...one, moments: one.moments.slice(0, 4) })),
      stateNames: day.stateNames.slice(0, 4),
      timesS: day.timesS!.slice(0, 4),
      periods: day.periods.slice(0, 4),
    };
    expect(causesOf(few)).toEqual([]);
    const gaps = {
      ...day,
      tangents: day.tangents.map((row, i) => row.map((one, j) => ((i + j) % 4 === 0 ? null : one))),
    };
    expect(causesOf(gaps)[0]!.cause).toBe('moved');
  });
});
