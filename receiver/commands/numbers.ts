/** Numbers parted by commas, as they are typed with an option; undefined where one is none, or too many. */
export function numbersOf(text: string | boolean | undefined, most: number): number[] | undefined {
  if (typeof text !== 'string') return undefined;
  const fields = text.split(',');
  const values = fields.map(Number);
  const right = fields.every((field) => field.trim() !== '') && values.every(Number.isFinite);
  if (!right || values.length > most) return undefined;
  return values;
}
