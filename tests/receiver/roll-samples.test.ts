import { describe, expect, it } from 'vitest';
import { RollSamples } from '#receiver/roll-samples.ts';

describe('samples kept for the roll test', () => {
  it('are the last twenty minutes, in order, without what is missing, late or doubled', () => {
    const samples = new RollSamples();
    for (let second = 0; second < 3000; second++) {
      const atS = [second, second + 0.5];
      samples.add({ instrument: 'fore', atS, heelDeg: [second, second % 2 === 0 ? null : 1] });
      samples.add({ instrument: 'fore', atS, heelDeg: [99, 99] });
    }
    const [fore, ...none] = samples.of(['fore', 'aft']);
    expect(none).toEqual([]);
    const times = Array.from(fore!.timeS);
    expect(times[0]).toBeGreaterThanOrEqual(2999 - 1200 * 1.1 - 1);
    expect(times[0]).toBeLessThanOrEqual(2999.5 - 1200);
    expect(times.at(-1)).toBe(2999.5);
    expect(times).toEqual([...new Set(times)].sort((one, other) => one - other));
    // the doubled even half second came first as missing, then as late by none: it stands once
    expect(Array.from(fore!.heelDeg).filter((heel) => heel === 99).length).toBeLessThan(
      times.length,
    );
  });
});
