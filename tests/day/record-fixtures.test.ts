import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { resultOfSession } from '#core/session/result.ts';
import { sessionFromFile } from '#receiver/commands/replay.ts';

const recordings = new URL('../recordings/', import.meta.url);
/** Heel and GM are sums of many doubles; another engine may add their last digits otherwise. */
const LAST_DIGITS = 1e-9;

interface Expected {
  readonly record: string;
  readonly lines: number;
  readonly heelDeg: readonly number[];
  readonly samples: readonly number[];
  readonly gmFluidM: number;
  readonly closed: string;
}

describe('records of earlier formats', () => {
  it.each(['record-v1'])('%s always opens, and folds to the result it gave then', (name) => {
    const expected = JSON.parse(
      readFileSync(new URL(`${name}.json`, recordings), 'utf8'),
    ) as Expected;
    const session = sessionFromFile(new URL(`${name}.hwr`, recordings).pathname);
    expect(session.record).toBe(expected.record);
    expect(session.lines).toBe(expected.lines);
    expect(session.streams.map(({ samples }) => samples)).toEqual(expected.samples);
    expect(session.states.map(({ reading }) => reading?.joined.heelDeg)).toEqual(expected.heelDeg);
    expect(session.closed?.reason).toBe(expected.closed);
    const gmM = resultOfSession(session).gmFluidM?.value ?? Number.NaN;
    expect(Math.abs(gmM - expected.gmFluidM)).toBeLessThan(LAST_DIGITS);
  });
});
