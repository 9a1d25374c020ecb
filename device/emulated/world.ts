/**
 * What the emulated chips feel, at a time of the simulated world in seconds. Queries come with
 * nearly non-decreasing times (a look back of up to one second is allowed). The same seed and
 * the same commands give the same world in every thread.
 */
export interface World {
  /** Specific force in the instrument's own axes, g: x forward, y to port, z up; starboard down makes y positive. */
  specificForceG(instrument: string, timeS: number): { xG: number; yG: number; zG: number };
  /** Liquid level in a leg of the water tube over the zero of its level sensor, mm. */
  legLevelMm(instrument: string, leg: 'port' | 'starboard', timeS: number): number;
  temperatureC(instrument: string, timeS: number): number;
}
