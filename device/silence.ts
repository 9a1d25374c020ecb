/** A scan may be late by what a busy machine and a USB adapter hold back; measured up to 30 ms. */
const LEAST_WALL_S = 1;
const PERIODS = 5;

/**
 * Tells when a board has fallen silent: no scan for five periods of the station's clock and for a
 * second of the machine's. Only time in which this program was awake counts: after a sleep of
 * the laptop, or a stall, what has arrived meanwhile is heard before anything is judged.
 */
export class SilenceWatch {
  readonly #periodS: number;
  readonly #tickS: number;
  #stationS: number | null = null;
  #machineS: number | null = null;
  #silentStationS = 0;
  #silentMachineS = 0;

  constructor(periodUs: number, tickS: number) {
    this.#periodS = periodUs * 1e-6;
    this.#tickS = tickS;
  }

  heard(): void {
    this.#silentStationS = 0;
    this.#silentMachineS = 0;
  }

  /** Called every `tickS` of machine time; true when the board is to be given up. */
  tick(stationS: number, machineS: number): boolean {
    const machineStepS = machineS - (this.#machineS ?? machineS);
    const stationStepS = stationS - (this.#stationS ?? stationS);
    this.#machineS = machineS;
    this.#stationS = stationS;
    const awake = machineStepS <= 0 ? 0 : Math.min(1, (2 * this.#tickS) / machineStepS);
    this.#silentMachineS += machineStepS * awake;
    this.#silentStationS += stationStepS * awake;
    return this.#silentMachineS >= LEAST_WALL_S && this.#silentStationS >= PERIODS * this.#periodS;
  }
}
