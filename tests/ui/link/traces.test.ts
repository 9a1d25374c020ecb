import { describe, expect, it } from 'vitest';
import type { LivePicture } from '#core/wire/screen-message.ts';
import { TRACE_S, Traces } from '#ui/link/traces.ts';

function live(receiverS: number, atS: number[], whole = false): LivePicture {
  return {
    type: 'live',
    receiverS,
    wall: '2026-11-25T12:00:00.000Z',
    whole,
    instruments: [
      {
        instrument: 'fore',
        label: 'Fore',
        verdict: 'settling',
        reason: '',
        estimate: null,
        refused: null,
        temperatureC: null,
        trace: { atS, heelDeg: atS.map((s) => (s === 2 ? null : s)) },
      },
    ],
    joined: {
      verdict: 'settling',
      reason: '',
      estimate: null,
      readable: false,
      whyNot: null,
      countedS: 0,
      inAMinuteDeg: null,
      remainingS: null,
    },
    notUsed: [],
    simulation: null,
    saved: { wall: '2026-11-25T12:00:00.000Z', line: 0, head: '' },
    notRecording: null,
    stations: [],
  };
}

describe('the kept traces', () => {
  it('append what is new, keep gaps, and take no sample twice', () => {
    const traces = new Traces();
    traces.append(live(2, [1, 2], true));
    traces.append(live(3, [2, 3]));
    const kept = traces.byInstrument.get('fore')!;
    expect(kept.atS).toEqual([1, 2, 3]);
    expect(kept.heelDeg).toEqual([1, null, 3]);
  });

  it('never hold more than two minutes', () => {
    const traces = new Traces();
    for (let s = 0; s < 1000; s += 1) traces.append(live(s, [s - 0.5, s]));
    const kept = traces.byInstrument.get('fore')!;
    expect(kept.atS[0]).toBeGreaterThanOrEqual(999 - TRACE_S);
    expect(kept.atS.length).toBe(kept.heelDeg.length);
    expect(kept.meanAtS.length).toBeLessThanOrEqual(TRACE_S + 1);
  });

  it('begin anew when the receiver began anew', () => {
    const traces = new Traces();
    traces.append(live(500, [499]));
    traces.append(live(1, [0.5]));
    expect(traces.byInstrument.get('fore')!.atS).toEqual([0.5]);
  });
});
