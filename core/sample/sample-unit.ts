import { Fault } from '../fault/fault.ts';

/** What one of a unit is in seconds or degrees. */
const UNITS = {
  time: { s: 1, sec: 1, second: 1, seconds: 1, ms: 1e-3, millisecond: 1e-3, milliseconds: 1e-3 },
  heel: {
    deg: 1,
    degree: 1,
    degrees: 1,
    '°': 1,
    rad: 180 / Math.PI,
    radian: 180 / Math.PI,
    radians: 180 / Math.PI,
  },
} as const satisfies Record<string, Readonly<Record<string, number>>>;

/** A unit at the end of a name as we write names: timeMs, heelRad. */
const ENDINGS = { time: { Ms: 1e-3 }, heel: { Rad: 180 / Math.PI } } as const;

/**
 * The factor that brings a column to seconds or degrees: by its field in a row of units, by a unit
 * in brackets after its name, or by the end of its name. One without is in seconds or degrees.
 * Throws `table-unit` for a unit that is none of these.
 */
export function unitOfColumn(
  kind: 'time' | 'heel',
  name: string | undefined,
  unit: string | undefined,
  where: string,
  column: number,
): number {
  const said = unit || (name === undefined ? undefined : bracketed(name));
  if (said !== undefined) {
    const word = said.replace(/^[[(]\s*|\s*[\])]$/g, '').toLowerCase();
    const units: Readonly<Record<string, number>> = UNITS[kind];
    if (!Object.hasOwn(units, word)) {
      throw new Fault(
        'table-unit',
        `${where}, column ${column}`,
        JSON.stringify(said.slice(0, 40)),
      );
    }
    return units[word]!;
  }
  const ending = Object.entries(ENDINGS[kind]).find(([end]) => name?.endsWith(end));
  return ending?.[1] ?? 1;
}

function bracketed(name: string): string | undefined {
  return /[[(]([^[\]()]*)[\])]\s*$/.exec(name)?.[1];
}
