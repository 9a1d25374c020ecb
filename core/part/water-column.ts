/** Standard gravity, exact by its definition (ISO 80000-3, *from memory*). */
const STANDARD_GRAVITY_M_S2 = 9.80665;

/**
 * Fresh water at 20 degC, kg/m3 (Tanaka's formula, *from memory*): 9.789 Pa for each millimetre.
 * What the tube is really filled with, and how warm, is part of the scale a certificate proves.
 */
export const TUBE_WATER_KG_M3 = 998.2;

/** Height of the column that makes a pressure, mm. */
export function heightMmOfPressure(
  pressurePa: number,
  densityKgM3: number = TUBE_WATER_KG_M3,
): number {
  return (pressurePa / (densityKgM3 * STANDARD_GRAVITY_M_S2)) * 1000;
}

/** Pressure under a column, Pa: what an emulated sensor needs. */
export function pressurePaOfHeight(
  heightMm: number,
  densityKgM3: number = TUBE_WATER_KG_M3,
): number {
  return (heightMm / 1000) * densityKgM3 * STANDARD_GRAVITY_M_S2;
}
