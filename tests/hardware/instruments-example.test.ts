import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { outfitFile } from '#device/outfit.ts';

it('prints an instruments.json in hardware/README.md that the program takes', () => {
  const page = readFileSync(new URL('../../hardware/README.md', import.meta.url), 'utf8');
  const [, example] = /```json\n([\s\S]*?)```/.exec(page) ?? [];
  const outfit = outfitFile.parse(JSON.parse(example ?? ''));
  expect(outfit.boards[0]!.instruments[0]!.address).toBe(0x6a);
});
