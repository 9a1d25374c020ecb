import type { FieldValue } from '#core/record/correction.ts';

const MINUS = '\u2212';
const NUMBER = /^[-\u2212+]?(?:\d+(?:[.,]\d+)?|[.,]\d+)$/;

/** A field's value as its line has it: nothing rounded, a true minus. */
export function fieldText(value: FieldValue): string {
  if (value === null) return 'none';
  if (Array.isArray(value)) return value.map(fieldText).join('; ');
  return typeof value === 'number' ? String(value).replace('-', MINUS) : value;
}

/** What stands in the box to be typed over: nothing for none. */
export function fieldTyped(value: FieldValue): string {
  return value === null ? '' : fieldText(value);
}

/**
 * The value typed for a field in whose place this one stands: a text for a text, numbers for a list
 * (parted by spaces or semicolons), else a number, with decimal point or comma; nothing is none.
 * Undefined when it cannot be read so.
 */
export function valueFromText(typed: string, standing: FieldValue): FieldValue | undefined {
  const text = typed.trim();
  if (typeof standing === 'string') return text === '' ? undefined : text;
  if (!Array.isArray(standing)) return text === '' ? null : numberFrom(text);
  const numbers = text.split(/[\s;]+/).map(numberFrom);
  return numbers.every((one) => one !== undefined) ? numbers : undefined;
}

function numberFrom(text: string): number | undefined {
  if (!NUMBER.test(text)) return undefined;
  return Number(text.replace(MINUS, '-').replace(',', '.'));
}
