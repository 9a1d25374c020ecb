import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { expect, it } from 'vitest';
import { fontCoverage } from '#receiver/export/font-coverage.ts';

const file = createRequire(import.meta.url).resolve('dejavu-fonts-ttf/ttf/DejaVuSansCondensed.ttf');

it('knows the letters and signs reports are printed with, and none the font lacks', () => {
  const has = fontCoverage(readFileSync(file));
  for (const letter of 'AzÅłßΔΩώЖяїě±×·°√²Σ≥–’“−½→')
    expect(has(letter.codePointAt(0)!), letter).toBe(true);
  for (const letter of ['船', '🙂', '\u{10FFFF}', 'क'])
    expect(has(letter.codePointAt(0)!), letter).toBe(false);
});

it('takes no file for a font that is none', () => {
  expect(() => fontCoverage(new Uint8Array(64))).toThrow(RangeError);
});
