/**
 * The fields of a row, trimmed and out of their quotes; null for a quote that does not close or
 * closes inside a field.
 */
export function fieldsOfRow(row: string, delimiter: string): string[] | null {
  if (!row.includes('"')) return row.split(delimiter).map((field) => field.trim());
  const fields: string[] = [];
  let rest = row;
  for (;;) {
    const quoted = /^\s*"([^"]*)"\s*/.exec(rest);
    const field = quoted === null ? rest.split(delimiter, 1)[0]! : quoted[1]!;
    const used = quoted === null ? field.length : quoted[0].length;
    if (quoted === null && field.includes('"')) return null;
    fields.push(field.trim());
    if (used === rest.length) return fields;
    if (!rest.startsWith(delimiter, used)) return null;
    rest = rest.slice(used + delimiter.length);
  }
}

/**
 * A number, null for an empty field, undefined for anything else. One comma and no point is a
 * decimal comma: where commas part fields none is left in a field but in quotes.
 */
export function numberOfField(field: string): number | null | undefined {
  if (field === '') return null;
  const plain = field.includes('.') ? field : field.replace(',', '.');
  if (!/^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/.test(plain)) return undefined;
  const value = Number(plain);
  return Number.isFinite(value) ? value : undefined;
}
