import { expect, it } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import { printableText } from '#core/report/printable-text.ts';

const all = () => true;

it('leaves Latin, Greek and Cyrillic as they are', () => {
  const text = 'Ærø Łódź Ελπίδα Надежда ½ ± 3 m²\n→';
  expect(printableText(text, 'name', all)).toBe(text);
});

it.each([
  ['Hebrew', 'שלום', '[U+05E9]'],
  ['Arabic', 'سفينة', '[U+0633]'],
  ['Han', '船', '[U+8239]'],
  ['Devanagari', 'नाव', '[U+0928]'],
  ['Armenian', 'նավ', '[U+0576]'],
  ['Georgian', 'გემი', '[U+10D2]'],
])('refuses %s with the code, the place and the letters', (_, text, letter) => {
  const refused = () => printableText(`A ${text}`, 'remark', all);
  expect(refused).toThrow(Fault);
  try {
    refused();
  } catch (error) {
    expect((error as Fault).report).toMatchObject({ code: 'text-not-printable', where: 'remark' });
    expect((error as Fault).report.found).toContain(letter);
  }
});

it('names signs the font does not have, and what cannot be seen or turns the direction', () => {
  expect(printableText('ok 🙂', 'remark', (codePoint) => codePoint < 0x10000)).toBe('ok [U+1F642]');
  expect(printableText('a\u202Eb\u0007c\u200B', 'remark', all)).toBe('a[U+202E]b[U+0007]c[U+200B]');
});
