import { Fault } from '../fault/fault.ts';
import type { Cell, Grid } from '../hull/grid.ts';

/** A column a table may have: what it is called by people, and which unit its values are wanted in. */
export interface ColumnForm {
  readonly field: string;
  /** Lower case, without unit; any of them. */
  readonly names: readonly string[];
  readonly unit: 't' | 'm' | 't/m3' | 'm3' | 'text';
  readonly needed: boolean;
}

/** Where a field's values stand, and how many of their unit make one of the field's. */
export interface FoundColumn {
  readonly field: string;
  readonly index: number;
  readonly heading: string;
  readonly unit: string;
  readonly per: number;
}

export interface FoundHeader {
  readonly columns: readonly FoundColumn[];
  /** Index of the first row of values. */
  readonly firstRow: number;
}

/** The header stands within so many rows: titles and dates come before it. */
const MOST_ROWS_BEFORE = 30;

const UNITS: Readonly<Record<string, { readonly of: ColumnForm['unit']; readonly per: number }>> = {
  t: { of: 't', per: 1 },
  te: { of: 't', per: 1 },
  tonnes: { of: 't', per: 1 },
  kg: { of: 't', per: 1000 },
  m: { of: 'm', per: 1 },
  mm: { of: 'm', per: 1000 },
  cm: { of: 'm', per: 100 },
  't/m3': { of: 't/m3', per: 1 },
  't/m³': { of: 't/m3', per: 1 },
  'kg/m3': { of: 't/m3', per: 1000 },
  'kg/m³': { of: 't/m3', per: 1000 },
  m3: { of: 'm3', per: 1 },
  'm³': { of: 'm3', per: 1 },
  l: { of: 'm3', per: 1000 },
};

/**
 * Finds the header of a table: the first row, alone or with a row of group headings over it (cells
 * merged across name all columns up to the next), that names every needed column. Units stand in
 * the heading, `Mass (kg)`, or in a row of units under it; without one the field's own unit counts.
 * Throws `table-columns` where no row names them or a name stands twice, `table-unit`.
 */
export function findHeader(grid: Grid, forms: readonly ColumnForm[]): FoundHeader {
  const until = Math.min(grid.rows.length, MOST_ROWS_BEFORE);
  let nearest: readonly string[] = forms.filter(({ needed }) => needed).map(({ field }) => field);
  for (let index = 0; index < until; index++) {
    for (const headings of [plainHeadings(grid, index), groupedHeadings(grid, index)]) {
      const places = forms.map((form) => placesOf(headings, form));
      const missing = forms.filter((form, k) => form.needed && places[k]!.length === 0);
      if (missing.length < nearest.length) nearest = missing.map(({ field }) => field);
      if (missing.length > 0) continue;
      const twice = places.findIndex((found) => found.length > 1);
      if (twice >= 0)
        throw new Fault(
          'table-columns',
          `${grid.name}: row ${index + 1}`,
          `${forms[twice]!.field} stands twice`,
        );
      return foundHeader(grid, index, headings, forms, places);
    }
  }
  throw new Fault('table-columns', grid.name, `no row names ${nearest.join(', ')}`);
}

function foundHeader(
  grid: Grid,
  index: number,
  headings: readonly string[],
  forms: readonly ColumnForm[],
  places: readonly (readonly number[])[],
): FoundHeader {
  const under = grid.rows[index + 1] ?? [];
  const isUnits = isUnitRow(under);
  const columns = forms.flatMap((form, k): FoundColumn[] => {
    const at = places[k]![0];
    if (at === undefined) return [];
    const heading = headings[at] ?? '';
    const written = (isUnits ? text(under[at]) : '') || unitIn(heading);
    const where = `${grid.name}: row ${index + 1}, ${form.field}`;
    const { unit, per } = unitOf(written, form, where);
    return [{ field: form.field, index: at, heading, unit, per }];
  });
  return { columns, firstRow: index + (isUnits ? 2 : 1) };
}

function unitOf(written: string, form: ColumnForm, where: string): { unit: string; per: number } {
  if (form.unit === 'text') return { unit: '', per: 1 };
  if (written === '' || written === '-') return { unit: form.unit, per: 1 };
  const known = Object.hasOwn(UNITS, written) ? UNITS[written] : undefined;
  if (known === undefined || known.of !== form.unit)
    throw new Fault('table-unit', where, `${written}, wanted ${form.unit}`);
  return { unit: written, per: known.per };
}

function plainHeadings(grid: Grid, index: number): string[] {
  return (grid.rows[index] ?? []).map(text);
}

/** Group headings of the row above, each carried on to the next, before the row's own. */
function groupedHeadings(grid: Grid, index: number): string[] {
  let group = '';
  const above = index === 0 ? [] : (grid.rows[index - 1] ?? []);
  return (grid.rows[index] ?? []).map((cell, k) => {
    group = text(above[k]) || group;
    return [group, text(cell)].filter((part) => part !== '').join(' ');
  });
}

function placesOf(headings: readonly string[], { names }: ColumnForm): number[] {
  return headings.flatMap((heading, k) => (names.includes(bare(heading)) ? [k] : []));
}

/** A heading without its unit and signs. */
function bare(heading: string): string {
  return heading
    .replace(/[([][^)\]]*[)\]]/g, ' ')
    .replace(/[,:.]/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();
}

function unitIn(heading: string): string {
  return (/[([]\s*([^)\]]*?)\s*[)\]]/.exec(heading)?.[1] ?? '').trim();
}

function isUnitRow(row: readonly Cell[]): boolean {
  const words = row.map(text).filter((word) => word !== '');
  return words.length > 0 && words.every((word) => word === '-' || Object.hasOwn(UNITS, word));
}

function text(cell: Cell | undefined): string {
  return typeof cell === 'string' ? cell.trim().toLowerCase() : '';
}
