import { describe, expect, it } from 'vitest';
import type { SessionState } from '#core/session/session.ts';
import { ROLL_RUN } from '#tests/support/roll-run-body.ts';
import { markedStretch, runRows, runsThatCount } from '../../../ui/roll/runs.ts';

const written = (line: number) => {
  return { line, wall: '', receiverS: line, author: 'E. Thorne', role: 'architect' };
};
const rollRuns: SessionState['rollRuns'] = [
  { written: written(4), rolled: ROLL_RUN, refused: null },
  {
    written: written(5),
    rolled: {
      ...ROLL_RUN,
      run: { ...ROLL_RUN.run, refused: { reason: 'not-decaying', words: 'driven by waves' } },
    },
    refused: null,
  },
  { written: written(6), rolled: ROLL_RUN, refused: { written: written(7), reason: 'ran on' } },
  { written: written(8), rolled: ROLL_RUN, refused: null },
];

describe('rows of the roll page', () => {
  it('count the runs that count, and say why others do not', () => {
    const rows = runRows({ rollRuns });
    expect(rows.map(({ number }) => number)).toEqual([1, null, null, 2]);
    expect(rows.map(({ why }) => why)).toEqual([
      null,
      'driven by waves',
      'left out by E. Thorne: ran on',
      null,
    ]);
    expect(runsThatCount({ rollRuns })).toBe(2);
  });

  it('take a marked stretch in seconds before now, and nothing else', () => {
    expect(markedStretch('90', '40,5', 1000)).toEqual({ fromS: 910, toS: 959.5 });
    for (const [from, to] of [
      ['40', '90'],
      ['', '0'],
      ['2000', '0'],
      ['-5', '-9'],
      ['1e2', '0'],
    ]) {
      expect(markedStretch(from!, to!, 1000)).toBeNull();
    }
  });
});
