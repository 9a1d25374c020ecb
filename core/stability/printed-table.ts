import type { PrintedTable } from './rule-quantity.ts';

/** A value of a printed table: linear between rows, the end rows' own beyond them. */
export function tableValue(
  table: PrintedTable,
  at: number,
): { readonly value: number; readonly fromMemory: boolean } {
  const { at: places, value: values, fromMemoryUpTo } = table;
  const next = places.findIndex((place) => at <= place);
  if (next <= 0) {
    const value = next === 0 ? values[0]! : values.at(-1)!;
    return { value, fromMemory: uses(fromMemoryUpTo, next === 0 ? places[0]! : places.at(-1)!) };
  }
  const share = (at - places[next - 1]!) / (places[next]! - places[next - 1]!);
  const value = values[next - 1]! + share * (values[next]! - values[next - 1]!);
  // At a row itself the row before is not used.
  return { value, fromMemory: share < 1 && uses(fromMemoryUpTo, places[next - 1]!) };
}

function uses(fromMemoryUpTo: number | undefined, place: number): boolean {
  return fromMemoryUpTo !== undefined && place <= fromMemoryUpTo;
}
