import { Fault } from '#core/fault/fault.ts';
import type { LaptopState } from '#core/record/laptop-line.ts';
import type { SessionState } from '#core/session/session.ts';
import type { Clock } from '#core/time/clock.ts';
import { type BatteryReader, batteryFinding } from './battery.ts';
import type { ClockCheck } from './clock-check.ts';
import { type DiskReader, diskFinding, GrowthRate } from './disk.ts';
import type { Finding } from './matter.ts';
import type { SleepInhibitor } from './sleep.ts';

const MOST_STATIONS = 16;

export interface LaptopParts {
  readonly machine: Clock;
  readonly session: () => SessionState;
  /** Receiver time, which lines are written with. */
  readonly receiverS: () => number;
  readonly recordBytes: () => number;
  /** Why nothing of the record reaches the disk now, or null. */
  readonly recordFault: () => Fault | null;
  readonly stations: () => readonly { station: string; connected: boolean }[];
  readonly battery: BatteryReader;
  readonly disk: DiskReader;
  readonly clock: ClockCheck;
  readonly folder: Finding;
  readonly sleep: SleepInhibitor;
  readonly write: (state: LaptopState) => void;
  readonly warn: (error: Error) => void;
  /** A station gone for less is taken up again by itself and is no matter. */
  readonly linkLostAfterS: number;
}

/**
 * Looks at the machine and its links and writes a line where one changed. What stood last is read
 * from the session, so that a record opened again says nothing twice.
 */
export class LaptopWatch {
  readonly #parts: LaptopParts;
  readonly #growth = new GrowthRate();
  readonly #goneSinceS = new Map<string, number>();
  readonly #foundSince = new Map<string, { severity: string; sinceS: number }>();
  #looking = false;
  #refusedSinceS: number | null = null;

  constructor(parts: LaptopParts) {
    this.#parts = parts;
  }

  /** One look at what the system is asked for; a look that is still waiting for the system is not begun again. */
  async look(): Promise<void> {
    if (this.#looking) return;
    this.#looking = true;
    try {
      const { battery, disk, machine, clock, folder } = this.#parts;
      const [charge, free] = await Promise.all([battery(), disk()]);
      const rate = this.#growth.bytesAnHour(machine.monotonicS(), this.#parts.recordBytes());
      const findings = [
        batteryFinding(charge, this.#stood('battery', null) !== undefined),
        diskFinding(free, rate, this.#stood('disk', null) !== undefined),
        clock.finding(),
        folder,
      ];
      for (const finding of findings) this.#tell(finding);
    } catch (error) {
      this.#parts.warn(error instanceof Error ? error : new Error(String(error)));
    } finally {
      this.#looking = false;
    }
  }

  /** What costs nothing to look at and changes faster: the links, and whether the machine may sleep. */
  lookOften(): void {
    const { test, closed } = this.#parts.session();
    const { sleep } = this.#parts;
    sleep.want(test !== null && closed === null);
    this.#lookAtWriting();
    const held = sleep.finding();
    if (held !== null) this.#tell(held);
    const nowS = this.#parts.machine.monotonicS();
    for (const { station, connected } of this.#parts.stations().slice(0, MOST_STATIONS)) {
      if (connected) this.#goneSinceS.delete(station);
      else if (!this.#goneSinceS.has(station)) this.#goneSinceS.set(station, nowS);
      const goneS = nowS - (this.#goneSinceS.get(station) ?? nowS);
      if (!connected && goneS < this.#parts.linkLostAfterS) continue;
      this.#tell({
        matter: 'link',
        station,
        severity: connected ? 'well' : 'notice',
        found: connected ? 'connected' : 'not connected',
      });
    }
  }

  /** A disk that takes nothing is told of beside one that is low; the line is on disk as soon as there is room. */
  #lookAtWriting(): void {
    const fault = this.#parts.recordFault();
    const nowS = this.#parts.receiverS();
    const sinceS = this.#refusedSinceS;
    if ((fault === null) === (sinceS === null)) return;
    this.#refusedSinceS = fault === null ? null : nowS;
    const found =
      fault === null
        ? 'the record is written again; what waited is in it'
        : `nothing of the record can be written: ${fault.report.found}`;
    this.#write({
      matter: 'disk',
      station: null,
      severity: 'notice',
      found,
      sinceS: sinceS ?? nowS,
    });
  }

  #tell(finding: Finding): void {
    const key = `${finding.matter} ${finding.station}`;
    const before = this.#foundSince.get(key);
    const nowS = this.#parts.receiverS();
    const sinceS = before?.severity === finding.severity ? before.sinceS : nowS;
    this.#foundSince.set(key, { severity: finding.severity, sinceS });
    const stood = this.#stood(finding.matter, finding.station);
    if ((stood?.severity ?? 'well') === finding.severity) return;
    // While nothing can be written the disk is not well, whatever the system says is free.
    if (finding.matter === 'disk' && this.#refusedSinceS !== null) return;
    this.#write({ ...finding, sinceS });
  }

  #write(state: LaptopState): void {
    // A record that is done stays as it is, however often it is looked at.
    if (this.#parts.session().closed !== null) return;
    try {
      this.#parts.write(state);
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      this.#parts.warn(error);
    }
  }

  #stood(matter: string, station: string | null): LaptopState | undefined {
    return this.#parts
      .session()
      .laptop.find(({ state }) => state.matter === matter && state.station === station)?.state;
  }
}
