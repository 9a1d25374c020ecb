import { describe, expect, it } from 'vitest';
import { type RollRunLine, rollRunLine } from '#core/record/roll-line.ts';
import { lookForRoll } from '#core/reduction/roll-look.ts';
import { RollAgain } from '#receiver/roll-again.ts';
import { aDay } from '#tests/core/session/a-day.ts';
import { releasedRoll } from '#tests/support/free-roll.ts';

const session = {
  mountings: [{ ...aDay().mountings[0]!, instrument: 'fore', kind: 'inclinometer' as const }],
};
const { timeS, heelDeg } = releasedRoll({
  ...{ lengthS: 130, noiseDeg: 0.01, seed: 1 },
  releases: [5, 70].map((atS) => ({ atS, heelDeg: 2 })),
});
const taken = { startedLines: 0, afterLines: 90, marked: null, afterS: null };
const lines = lookForRoll([{ instrument: 'fore', timeS, heelDeg }], null, 0).map(
  (found): RollRunLine => rollRunLine.parse(JSON.parse(JSON.stringify({ ...found, taken }))),
);

function again(heels: readonly (number | null)[] = heelDeg): RollAgain {
  const rolled = new RollAgain();
  for (let k = 0; k < timeS.length; k += 10)
    rolled.add({
      instrument: 'fore',
      atS: timeS.slice(k, k + 10),
      heelDeg: heels.slice(k, k + 10),
    });
  return rolled;
}

describe('a run of free roll looked for again', () => {
  it('is the run its line says, to the last digit', () => {
    expect(lines).toHaveLength(2);
    const rolled = again();
    expect(lines.map((line) => rolled.difference(line, session))).toEqual([null, null]);
  });

  it('shows a period that was changed, and samples that were', () => {
    const { run } = lines[0]!;
    const changed = { ...run, periodS: { ...run.periodS, value: run.periodS.value + 1e-9 } };
    expect(again().difference({ ...lines[0]!, run: changed }, session)).toMatch(
      /^its blocks give 5\.0\d+ s by fore, free roll$/,
    );
    const other = again(heelDeg.map((heel, k) => (k === 300 ? heel! + 1e-6 : heel)));
    expect(other.difference(lines[0]!, session)).not.toBeNull();
  });

  it('says where there is no such run, or no mark to look at', () => {
    const later = { ...lines[1]!, taken: { ...taken, marked: { fromS: 500, toS: 600 } } };
    expect(again().difference(later, session)).toMatch(/^no run is found/);
    const { run } = lines[0]!;
    const elsewhere = { ...lines[0]!, run: { ...run, fromS: run.fromS + 1 } };
    expect(again().difference(elsewhere, session)).toMatch(/^its blocks give no run from/);
    const { taken: _, ...old } = lines[0]!;
    expect(again().difference(old, session)).toMatch(/does not say/);
  });
});
