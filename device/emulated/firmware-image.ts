import { readFileSync } from 'node:fs';

/**
 * The firmware every emulated board runs, Intel HEX text. The bundled programs lie as deep in the
 * project as this file does, so one relative place serves both.
 */
export function firmwareImage(): string {
  return readFileSync(new URL('../../hardware/firmware/board.hex', import.meta.url), 'utf8');
}
