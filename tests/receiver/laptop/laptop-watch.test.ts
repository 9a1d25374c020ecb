import { describe, expect, it } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import type { LaptopState } from '#core/record/laptop-line.ts';
import type { Line } from '#core/record/line.ts';
import { EMPTY_SESSION } from '#core/session/fold.ts';
import { laptopAfter } from '#core/session/fold-laptop.ts';
import type { SessionState } from '#core/session/session.ts';
import type { Battery } from '#receiver/laptop/battery.ts';
import { ClockCheck } from '#receiver/laptop/clock-check.ts';
import { LaptopWatch } from '#receiver/laptop/laptop-watch.ts';
import { SleepInhibitor } from '#receiver/laptop/sleep.ts';

/** A laptop of which every reading is set by the test. */
class Laptop {
  atS = 0;
  stepS = 0;
  battery: Battery | null = null;
  freeBytes: number | null = 1e12;
  connected = true;
  fault: Fault | null = null;
  session: SessionState = EMPTY_SESSION;
  readonly written: LaptopState[] = [];
  readonly machine = {
    monotonicS: () => this.atS,
    wallMs: () => 1.7e12 + (this.atS + this.stepS) * 1000,
  };
  readonly watch = new LaptopWatch({
    machine: this.machine,
    session: () => this.session,
    receiverS: () => this.atS,
    recordBytes: () => 0,
    recordFault: () => this.fault,
    stations: () => [{ station: 'S', connected: this.connected }],
    battery: async () => this.battery,
    disk: async () => this.freeBytes,
    clock: new ClockCheck(this.machine, null),
    folder: { matter: 'folder', station: null, severity: 'well', found: 'ours' },
    sleep: new SleepInhibitor(null),
    write: (body) => {
      this.written.push(body);
      const line = { n: 1, wall: '', receiverS: 0, author: 'r', role: 'receiver', body };
      this.session = {
        ...this.session,
        laptop: laptopAfter(
          this.session.laptop,
          line as unknown as Extract<Line, { kind: 'laptop-state' }>,
        ),
      };
    },
    linkLostAfterS: 5,
    warn: (error) => {
      throw error;
    },
  });

  async look(afterS = 30): Promise<void> {
    this.atS += afterS;
    await this.watch.look();
  }

  get said(): string[] {
    return this.written.map(({ matter, severity }) => `${matter} ${severity}`);
  }
}

describe('LaptopWatch', () => {
  it('writes when nothing of the record can be written, and when it can again', async () => {
    const laptop = new Laptop();
    await laptop.look();
    laptop.fault = new Fault('record-disk', 'day.hwr', 'ENOSPC: no space left');
    laptop.watch.lookOften();
    laptop.atS += 7;
    // What the system says is free counts for nothing now.
    await laptop.look();
    laptop.watch.lookOften();
    laptop.fault = null;
    laptop.watch.lookOften();
    await laptop.look();
    expect(laptop.said).toEqual(['disk notice', 'disk notice', 'disk well']);
    expect(laptop.written[0]?.found).toMatch(/can be written: ENOSPC/);
    expect(laptop.written[1]).toMatchObject({ sinceS: laptop.written[0]?.sinceS });
  });

  it('writes a low battery once, however it trembles, and once that it is well', async () => {
    const laptop = new Laptop();
    for (const chargePercent of [60, 20, 19, 20, 21, 19, 24, 25, 24]) {
      laptop.battery = { chargePercent, draining: true };
      await laptop.look();
    }
    expect(laptop.said).toEqual(['battery notice', 'battery well']);
    expect(laptop.written[0]).toMatchObject({ found: '19 % left and no mains', sinceS: 90 });
  });

  it('says nothing of a low battery on the mains', async () => {
    const laptop = new Laptop();
    laptop.battery = { chargePercent: 5, draining: false };
    await laptop.look();
    expect(laptop.said).toEqual([]);
  });

  it('warns of a disk that does not hold eight hours, with the hours left', async () => {
    const laptop = new Laptop();
    laptop.freeBytes = 64 * 1024 * 1024;
    await laptop.look();
    // Nothing is written yet in this record, so the assumed 32 MiB an hour counts: two hours.
    expect(laptop.written[0]?.found).toContain('2.0 hours');
    laptop.freeBytes = 1e12;
    await laptop.look();
    expect(laptop.said).toEqual(['disk notice', 'disk well']);
  });

  it('tells a step of the wall clock over two seconds, and not one of one', async () => {
    const laptop = new Laptop();
    laptop.stepS = 1;
    await laptop.look();
    expect(laptop.said).toEqual([]);
    laptop.stepS = -3600;
    await laptop.look();
    expect(laptop.written[0]?.found).toContain('back by 60.0 min');
    await laptop.look(700);
    expect(laptop.said).toEqual(['clock notice', 'clock well']);
  });

  it('tells a wall clock before the last line of the record it opened', () => {
    const { machine } = new Laptop();
    const check = new ClockCheck(machine, machine.wallMs() + 90_000);
    expect(check.finding()).toMatchObject({ severity: 'notice' });
    expect(new ClockCheck(machine, machine.wallMs() - 1).finding().severity).toBe('well');
  });

  it('tells a link that stays lost, and not one that is back at once', () => {
    const laptop = new Laptop();
    const at = (atS: number, connected: boolean) => {
      laptop.atS = atS;
      laptop.connected = connected;
      laptop.watch.lookOften();
    };
    at(0, true);
    at(1, false);
    at(3, false);
    at(4, true);
    at(5, false);
    at(9, false);
    expect(laptop.said).toEqual([]);
    at(10, false);
    at(11, false);
    at(12, true);
    expect(laptop.said).toEqual(['link notice', 'link well']);
  });

  it('adds nothing to a record that is closed', async () => {
    const laptop = new Laptop();
    const written = { line: 1, wall: '', receiverS: 0, author: 'a', role: 'architect' };
    laptop.session = { ...EMPTY_SESSION, closed: { written, reason: 'done' } };
    laptop.freeBytes = 0;
    await laptop.look();
    expect(laptop.said).toEqual([]);
  });
});
