import type { FaultCode } from '#core/fault/fault.ts';
import { BUS_BITS, type ScanFrame, type ScanStep } from './bus/scan-message.ts';
import type { DriverStep, StepAnswer } from './drivers/driver.ts';

/** The steps of all chips of one board as one list, and the way back from a frame's bytes. */
export class ScanPlan {
  readonly steps: readonly ScanStep[];
  readonly #chipOfStep: readonly number[];
  readonly #chipCount: number;

  constructor(chips: readonly { address: number; steps: readonly DriverStep[] }[]) {
    this.#chipCount = chips.length;
    this.#chipOfStep = chips.flatMap(({ steps }, chip) => steps.map(() => chip));
    this.steps = chips.flatMap(({ address, steps }) => steps.map((step) => ({ address, ...step })));
  }

  /**
   * The answers of a frame, a row a chip in the order of its steps; null when the frame does not
   * have the bytes this list asks for (it is then another list's frame, or spoiled).
   */
  answers(
    frame: Pick<ScanFrame, 'bytes' | 'failedSteps' | 'bus' | 'sequence'>,
  ): StepAnswer[][] | null {
    const rows: StepAnswer[][] = Array.from({ length: this.#chipCount }, () => []);
    const odd = frame.sequence % 2 === 1;
    let at = 0;
    for (const [index, step] of this.steps.entries()) {
      const row = rows[this.#chipOfStep[index]!]!;
      if (step.when !== 'always' && (step.when === 'odd') !== odd) {
        row.push({ kind: 'not-due' });
        continue;
      }
      const bytes = frame.bytes.subarray(at, at + step.readCount);
      at += step.readCount;
      if (frame.failedSteps & (1 << index)) {
        row.push({ kind: 'failed', code: failureCode(frame.bus, step) });
      } else {
        row.push({ kind: 'bytes', bytes });
      }
    }
    return at === frame.bytes.length ? rows : null;
  }
}

/** One set of bus bits stands for all steps of a frame, so the gravest that can be meant is named. */
function failureCode(bus: number, step: ScanStep): FaultCode {
  if (bus & (BUS_BITS.timeLimit | BUS_BITS.dataFreed | BUS_BITS.stillHeld)) return 'bus-stuck';
  if (bus & BUS_BITS.frameBeforeLacked && step.fromFrameBefore) return 'chip-not-ready';
  return 'bus-no-answer';
}
