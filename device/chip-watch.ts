import { Fault, type FaultCode } from '#core/fault/fault.ts';
import type { Chip, Count, Driver, StepAnswer } from './drivers/driver.ts';

/** A chip in trouble is looked at this often, on the station's clock. */
const CHECK_EVERY_S = 1;
/** One fault of a kind is told again at most this often; every sample it touches is flagged anyway. */
const TELL_AGAIN_AFTER_S = 60;

/**
 * Keeps one chip honest. Counts pass through unchanged; what is known to be wrong with them is
 * said beside them: no answer, the end of the range, one value for too long. After any such fault
 * the chip may have lost its settings, so its counts stay flagged until its identity and settings
 * have been proven again; a chip that lost them is set up anew.
 */
export class ChipWatch {
  readonly driver: Driver;
  readonly #chip: Chip;
  readonly #periodUs: number;
  readonly #tell: (fault: Fault) => void;
  readonly #toldAtS = new Map<FaultCode, number>();
  #trusted = false;
  #answers = true;
  #checking = false;
  #nextCheckS = Number.NEGATIVE_INFINITY;
  #lastCounts = '';
  #repeats = 0;

  constructor(
    driver: Driver,
    chip: Chip,
    options: { periodUs: number; tell: (fault: Fault) => void },
  ) {
    this.driver = driver;
    this.#chip = chip;
    this.#periodUs = options.periodUs;
    this.#tell = options.tell;
  }

  /** Sets the chip up; a chip that does not answer is told of and tried again later. */
  async configure(nowS: number): Promise<void> {
    this.#checking = true;
    try {
      await this.driver.configure(this.#chip, this.#periodUs);
      this.#trusted = true;
      this.#repeats = 0;
    } catch (error) {
      this.#report(error, nowS);
    } finally {
      this.#checking = false;
      this.#nextCheckS = nowS + CHECK_EVERY_S;
    }
  }

  /** One scan's counts with what is wrong with them. */
  counts(answers: readonly StepAnswer[], sequence: number, nowS: number): readonly Count[] {
    const counts = this.driver.counts(answers, sequence);
    const failure = counts.find(({ fault }) => fault !== null)?.fault ?? null;
    this.#answers = failure === null;
    if (failure !== null && failure !== 'chip-not-ready') {
      this.#trusted = false;
      this.#report(new Fault(failure, this.#chip.where, `scan ${sequence}`), nowS);
    }
    const stuck = this.#isStuck(counts);
    if (stuck) {
      this.#trusted = false;
      const found = `${this.#repeats} scans with the same counts`;
      this.#report(new Fault('chip-stuck', this.#chip.where, found), nowS);
    }
    return counts.map((count) => this.#flagged(count, stuck));
  }

  /** Starts a check when one is due. Called often; never waits. */
  tick(nowS: number): void {
    if (this.#trusted || this.#checking || nowS < this.#nextCheckS) return;
    this.#checking = true;
    void this.#recheck(nowS).finally(() => {
      this.#checking = false;
      this.#nextCheckS = nowS + CHECK_EVERY_S;
    });
  }

  #flagged({ count, fault }: Count, stuck: boolean): Count {
    if (count === null || fault !== null) return { count, fault };
    const { least, most } = this.driver.countRange;
    if (count <= least || count >= most) return { count, fault: 'chip-saturated' };
    if (stuck) return { count, fault: 'chip-stuck' };
    return { count, fault: this.#trusted ? null : 'chip-unchecked' };
  }

  #isStuck(counts: readonly Count[]): boolean {
    const limit = this.driver.stuckAfterScans;
    if (limit === null || counts.some(({ count }) => count === null)) return false;
    const now = counts.map(({ count }) => count).join();
    this.#repeats = now === this.#lastCounts ? this.#repeats + 1 : 0;
    this.#lastCounts = now;
    return this.#repeats >= limit;
  }

  async #recheck(nowS: number): Promise<void> {
    // Answers only: a chip that does not even answer its scan would cost the bus a time limit more.
    if (!this.#answers) return;
    if (this.#repeats >= (this.driver.stuckAfterScans ?? Number.POSITIVE_INFINITY)) {
      return this.#setUpAgain(nowS);
    }
    try {
      await this.driver.check(this.#chip, this.#periodUs);
      this.#trusted = true;
    } catch (error) {
      this.#report(error, nowS);
      await this.#setUpAgain(nowS);
    }
  }

  /** While one value still repeats the chip stays distrusted, however well it answers. */
  async #setUpAgain(nowS: number): Promise<void> {
    try {
      await this.driver.configure(this.#chip, this.#periodUs);
      this.#trusted = true;
    } catch (error) {
      this.#report(error, nowS);
    }
  }

  #report(error: unknown, nowS: number): void {
    if (!(error instanceof Fault)) throw error;
    const told = this.#toldAtS.get(error.code);
    if (told !== undefined && nowS - told < TELL_AGAIN_AFTER_S) return;
    this.#toldAtS.set(error.code, nowS);
    this.#tell(error);
  }
}
