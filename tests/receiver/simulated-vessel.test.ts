import { describe, expect, it } from 'vitest';
import { readLine } from '#core/record/read-line.ts';
import { foldLines } from '#core/session/fold.ts';
import type { Simulate, SimulationStatus } from '#core/wire/link-message.ts';
import { SimulatedVessel } from '#receiver/simulated-vessel.ts';
import { PLACE, RecordLines, readingBody, TEST_BODY } from '#tests/support/record-lines.ts';

const QUIET = { wind: false, gusts: false, wakes: false, walking: false, snaggedLine: false };
const SIMULATION = {
  seed: 1,
  paceAsked: 20,
  paceHeld: 20,
  disturbances: { ...QUIET, wind: true },
  truth: { gmFluidM: 1, displacementT: 40 },
};

function status(more: Partial<SimulationStatus> = {}): SimulationStatus {
  return {
    type: 'simulation-status',
    stationS: 0,
    paceAsked: 20,
    paceHeld: 20,
    disturbances: QUIET,
    carrying: [],
    settledState: 0,
    ...more,
  };
}

function vesselAt() {
  const machine = { nowS: 0, monotonicS: () => machine.nowS, wallMs: () => 0 };
  const vessel = new SimulatedVessel(machine);
  const orders: Simulate[] = [];
  vessel.connect((order) => orders.push(order));
  return { machine, vessel, orders };
}

describe('the simulated vessel', () => {
  it('has her held pace written when it differs by over a tenth for five wall seconds', () => {
    const { machine, vessel } = vesselAt();
    const heardAt = (nowS: number, paceHeld: number) => {
      machine.nowS = nowS;
      return vessel.heard(status({ paceHeld }), SIMULATION)?.paceHeld ?? null;
    };
    expect(heardAt(0, 12)).toBeNull();
    expect(heardAt(4.9, 12)).toBeNull();
    expect(heardAt(5.1, 13)).toBe(13);
    // A dip that passes is not written; nor is what stays within a tenth.
    expect(heardAt(6, 12)).toBeNull();
    expect(heardAt(10, 19)).toBeNull();
    expect(heardAt(12, 12)).toBeNull();
    expect(heardAt(16, 12)).toBeNull();
    for (let nowS = 20; nowS < 40; nowS += 1) expect(heardAt(nowS, 18.5)).toBeNull();
  });

  it('is told where every weight shall be: those moved at their new place, the others where they are', () => {
    const record = new RecordLines();
    record.add('test-opened', TEST_BODY);
    record.add('simulation', SIMULATION, 'simulator');
    record.add('reading', readingBody(0));
    record.add('shift-begun', {
      state: 1,
      moves: [{ weight: 'A', from: PLACE(-2), to: PLACE(2) }],
      heelingMomentTM: 1,
      predictedHeelDeg: null,
      predictedStandardErrorDeg: null,
    });
    const { vessel, orders } = vesselAt();
    vessel.order(foldLines(record.lines.map((bytes) => readLine(bytes, 'test').line)));
    expect(orders).toEqual([
      {
        type: 'simulate',
        state: 1,
        weights: [
          { weight: 'A', ...PLACE(2) },
          { weight: 'B', ...PLACE(2) },
        ],
        disturbances: SIMULATION.disturbances,
        pace: 20,
      },
    ]);
  });

  it('tells her once that people set her rolling, with everything else as it is', () => {
    const record = new RecordLines();
    record.add('test-opened', TEST_BODY);
    record.add('simulation', SIMULATION, 'simulator');
    const session = foldLines(record.lines.map((bytes) => readLine(bytes, 'test').line));
    const { vessel, orders } = vesselAt();
    vessel.order(session, { sway: true });
    vessel.order(session);
    expect(orders[0]).toEqual({ ...orders[1], sway: true });
    expect(orders[1]).not.toHaveProperty('sway');
  });

  it('is restless until every weight is down where the day has it', () => {
    const { vessel } = vesselAt();
    expect(vessel.isRestless(1)).toBe(false);
    vessel.heard(status({ settledState: 0 }), SIMULATION);
    expect(vessel.isRestless(1)).toBe(true);
    vessel.heard(status({ settledState: 1, carrying: ['A'] }), SIMULATION);
    expect(vessel.isRestless(1)).toBe(true);
    vessel.heard(status({ settledState: 1 }), SIMULATION);
    expect(vessel.isRestless(1)).toBe(false);
  });
});
