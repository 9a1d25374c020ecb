import type { Fault } from '#core/fault/fault.ts';
import type { Channel } from '#core/sample/stream-item.ts';
import type { Clock } from '#core/time/clock.ts';
import { addressText, type Bus } from './bus/bus.ts';
import type { ScanFrame } from './bus/scan-message.ts';
import { ChipWatch } from './chip-watch.ts';
import type { Count } from './drivers/driver.ts';
import { waitS } from './machine-clock.ts';
import type { ExpectedChip } from './outfit.ts';
import { ScanPlan } from './scan-plan.ts';

/** All chips of one board: what to scan for them, and their counts out of a frame. */
export class ChipSet {
  readonly plan: ScanPlan;
  readonly channels: readonly Channel[];
  readonly #chips: readonly ChipWatch[];
  readonly #clock: Clock;

  /**
   * @param options.stepUs time a conversion has between two scans
   */
  constructor(
    chips: readonly ExpectedChip[],
    options: {
      bus: Bus;
      clock: Clock;
      where: string;
      periodUs: number;
      stepUs: number;
      tell: (fault: Fault) => void;
    },
  ) {
    const { bus, clock, where, periodUs, stepUs, tell } = options;
    this.#clock = clock;
    this.plan = new ScanPlan(
      chips.map(({ driver, address }) => ({ address, steps: driver.steps(stepUs) })),
    );
    this.channels = chips.flatMap(({ instrument, driver, leg, address }) =>
      driver.quantities.map((quantity) => ({
        instrument,
        quantity: quantityOf(quantity, leg),
        part: driver.part,
        address: addressText(address),
      })),
    );
    this.#chips = chips.map(({ driver, address }) => {
      const chip = {
        bus,
        address,
        where: `${where} ${driver.part} ${addressText(address)}`,
        waitS: (seconds: number) => waitS(clock, seconds),
      };
      return new ChipWatch(driver, chip, { periodUs, tell });
    });
  }

  /** Sets all chips up, one after another. One that does not answer is told of and tried again later. */
  async configure(): Promise<void> {
    for (const chip of this.#chips) await chip.configure(this.#clock.monotonicS());
  }

  /** One count a channel; null when the frame does not have the bytes this board was asked for. */
  counts(frame: ScanFrame, nowS: number): readonly Count[] | null {
    const answers = this.plan.answers(frame);
    if (answers === null) return null;
    return this.#chips.flatMap((chip, index) =>
      chip.counts(answers[index] ?? [], frame.sequence, nowS),
    );
  }

  tick(nowS: number): void {
    for (const chip of this.#chips) chip.tick(nowS);
  }
}

/** Columns of a leg are called after it: `port`, `port-supply`. */
function quantityOf(quantity: string, leg: ExpectedChip['leg']): string {
  if (leg === undefined) return quantity;
  return quantity === 'leg' ? leg : `${leg}-${quantity}`;
}
