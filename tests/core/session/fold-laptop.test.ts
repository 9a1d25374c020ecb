import { describe, expect, it } from 'vitest';
import type { LaptopState } from '#core/record/laptop-line.ts';
import type { Line } from '#core/record/line.ts';
import { laptopAfter, MOST_LAPTOP_NOTICES } from '#core/session/fold-laptop.ts';
import type { SessionState } from '#core/session/session.ts';

function line(n: number, body: LaptopState): Extract<Line, { kind: 'laptop-state' }> {
  const who = { author: 'receiver', role: 'receiver' } as const;
  const at = { wall: '2026-05-04T08:00:00.000Z', receiverS: n, prev: '0'.repeat(64) };
  return { n, kind: 'laptop-state', v: 1, ...at, ...who, body };
}

const low: LaptopState = {
  matter: 'battery',
  station: null,
  severity: 'notice',
  found: '12 % left',
  sinceS: 3,
};

describe('laptopAfter', () => {
  it('holds what is not well, with the newest words, until it is well again', () => {
    const first = laptopAfter([], line(1, low));
    const second = laptopAfter(first, line(2, { ...low, found: '8 % left' }));
    expect(second.map(({ state }) => state.found)).toEqual(['8 % left']);
    expect(laptopAfter(second, line(3, { ...low, severity: 'well' }))).toEqual([]);
  });

  it('keeps the links of two stations apart', () => {
    const link = { ...low, matter: 'link' } as const;
    const both = ['A', 'B'].reduce<SessionState['laptop']>(
      (held, station, n) => laptopAfter(held, line(n, { ...link, station })),
      [],
    );
    const back = laptopAfter(both, line(2, { ...link, station: 'A', severity: 'well' }));
    expect(back.map(({ state }) => state.station)).toEqual(['B']);
  });

  it('does not grow with the stations a hostile record names', () => {
    let held: SessionState['laptop'] = [];
    for (let n = 0; n < 100; n += 1)
      held = laptopAfter(held, line(n, { ...low, matter: 'link', station: `S${n}` }));
    expect(held).toHaveLength(MOST_LAPTOP_NOTICES);
    expect(held.at(-1)?.state.station).toBe('S99');
  });
});
