import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { FLASH_BYTES } from '#device/emulated/avr.ts';
import { firmwareImage } from '#device/emulated/firmware-image.ts';
import { flashFromHex } from '#device/emulated/intel-hex.ts';

const folder = new URL('../../../hardware/firmware/', import.meta.url).pathname;
const build = JSON.parse(readFileSync(join(folder, 'board.build.json'), 'utf8')) as {
  compiler: string;
  binutils: string;
  sha256: string;
};

function firstLine(program: string): string | null {
  try {
    return execFileSync(program, ['--version'], { encoding: 'utf8' }).split('\n')[0] ?? null;
  } catch {
    return null;
  }
}

test('the committed image is the one its build note names, and leaves room for a bootloader', () => {
  expect(createHash('sha256').update(firmwareImage()).digest('hex')).toBe(build.sha256);
  const flash = flashFromHex(firmwareImage(), FLASH_BYTES);
  expect(flash.subarray((FLASH_BYTES - 2048) / 2).every((word) => word === 0xffff)).toBe(true);
});

test('a fresh build gives the committed bytes, where the same compiler is present', () => {
  const compiler = firstLine('avr-gcc');
  const binutils = firstLine('avr-objcopy');
  if (compiler !== build.compiler || binutils !== build.binutils || firstLine('make') === null) {
    console.warn(
      `not checked: board.hex was built by ${build.compiler}, ${build.binutils}; here: ` +
        `${compiler ?? 'no avr-gcc'}, ${binutils ?? 'no avr-objcopy'}`,
    );
    return;
  }
  const into = mkdtempSync(join(tmpdir(), 'heelwright-firmware-'));
  try {
    const hex = join(into, 'board.hex');
    execFileSync('make', ['-s', '-C', folder, `BUILD=${into}`, `HEX=${hex}`], { stdio: 'pipe' });
    expect(readFileSync(hex, 'utf8')).toBe(firmwareImage());
  } finally {
    rmSync(into, { recursive: true });
  }
});
