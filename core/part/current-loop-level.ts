/**
 * A level transmitter on a 4-20 mA loop, read as volts over a shunt: 4 mA is an empty leg, 20 mA
 * the whole stroke. The live zero of 4 mA is IEC 60381-1 (*from memory*); stroke and shunt are
 * those of the outfit in hardware/parts/water-tube.md.
 */
export const STROKE_MM = 1000;
export const SHUNT_OHM = 150;
const EMPTY_A = 0.004;
const SPAN_A = 0.016;

/** Below this the loop is broken, above it short-circuited (NAMUR NE 43, *from memory*). */
export const LEAST_SOUND_A = 0.0036;
export const MOST_SOUND_A = 0.021;

/** Level in the leg over its zero, mm, from volts over the shunt. Not clipped. */
export function levelMmFromVolts(volts: number): number {
  return ((volts / SHUNT_OHM - EMPTY_A) / SPAN_A) * STROKE_MM;
}

/** Whether the loop's current is one a sound transmitter gives. */
export function loopIsSound(volts: number): boolean {
  const current = volts / SHUNT_OHM;
  return current >= LEAST_SOUND_A && current <= MOST_SOUND_A;
}

/** Volts over the shunt at a level, mm: what an emulated leg needs. */
export function voltsFromLevelMm(levelMm: number): number {
  return (EMPTY_A + (levelMm / STROKE_MM) * SPAN_A) * SHUNT_OHM;
}
