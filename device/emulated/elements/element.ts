/**
 * What an emulated chip has inside: the sensing element, without registers and without a bus.
 * Both entrances of the simulator, chips and samples, read the same elements, so they can differ
 * only in how they read them. Times are seconds of the simulated world, nearly non-decreasing.
 */

/** An accelerometer of two or three axes used as an inclinometer, with its own clock, filter and faults. */
export interface InclinometerElement {
  /** Output rate, -3 dB corner of the chip's low-pass filter, and range, as the registers say. */
  configure(settings: { odrHz: number; bandwidthHz: number; rangeG: number }, timeS: number): void;
  /**
   * The output registers at this time: the newest finished conversion. `tick` counts conversions
   * on the chip's own clock (a change of tick is new data). Counts are signed; `saturated` is
   * true when a count stands at the end of its range. Throws before `configure`.
   */
  read(timeS: number): {
    tick: number;
    xCounts: number;
    yCounts: number;
    /** Of a third axis, where the part has one. */
    zCounts?: number;
    temperatureCounts: number;
    saturated: boolean;
  };
}

/** What a converter sees on its input pins. */
export interface VoltageElement {
  /** Volts of input `input` (0: port leg, 1: starboard leg) to ground at this time. */
  volts(input: number, timeS: number): number;
}

/** What a pressure sensor with a converter of its own has inside. */
export interface PressureElement {
  /** Whole counts of one measurement at this time, not stopped at the ends of the register. */
  read(timeS: number): { pressureCounts: number; temperatureCounts: number };
}
