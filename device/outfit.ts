import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { z } from 'zod';
import { Fault } from '#core/fault/fault.ts';
import { certificate, mounting } from '#core/sample/certificate.ts';
import type { Bus } from './bus/bus.ts';
import { addressText } from './bus/bus.ts';
import { DRIVERS, driverOf } from './drivers/all.ts';
import type { Driver } from './drivers/driver.ts';
import { serialLine } from './serial-outfit.ts';

const name = z.string().min(1).max(64);

/** `instruments.json` in the data folder: what stands on which board. Written by the technician. */
export const outfitFile = z.strictObject({
  /** Names for boards without our firmware, by the port they are on. */
  names: z.record(z.string().max(200), z.string().regex(/^[0-9A-Za-z-]{1,40}$/)).optional(),
  boards: z
    .array(
      z.strictObject({
        /** The board's identity as `heelwright ports` shows it, or its typed name. */
        board: z.string().regex(/^[0-9A-Za-z-]{1,40}$/),
        instruments: z
          .array(
            z.strictObject({
              instrument: name,
              part: name,
              /** 7-bit bus address, as a number. */
              address: z.number().int().min(1).max(127),
              mounting,
              certificate: certificate.nullable(),
            }),
          )
          .min(1)
          .max(8),
      }),
    )
    .max(16),
  /** Serial lines with instruments that speak for themselves. */
  serial: z.array(serialLine).max(8).default([]),
});
export type OutfitFile = z.infer<typeof outfitFile>;

/** A chip that is expected on a board. */
export interface ExpectedChip {
  readonly instrument: string;
  readonly driver: Driver;
  readonly address: number;
}

export const NO_OUTFIT: OutfitFile = { boards: [], serial: [] };

/** Reads the technician's file; none is none. Throws `input-not-json` or `input-shape`. */
export async function readOutfit(folder: string): Promise<OutfitFile> {
  const file = path.join(folder, 'instruments.json');
  let text: string;
  try {
    text = await readFile(file, 'utf8');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return NO_OUTFIT;
    throw new Fault('file-not-readable', file, (error as Error).message);
  }
  let parsed: unknown;
  try {
    parsed = JSON.parse(text);
  } catch (error) {
    throw new Fault('input-not-json', file, (error as Error).message);
  }
  const checked = outfitFile.safeParse(parsed);
  if (!checked.success) {
    const [issue] = checked.error.issues;
    throw new Fault('input-shape', `${file} ${issue?.path.join('.')}`, issue?.message ?? '');
  }
  for (const { board, instruments } of checked.data.boards) {
    for (const { part, instrument } of instruments) {
      if (driverOf(part) === undefined) {
        throw new Fault('input-shape', `${file} ${board} ${instrument}`, `no driver for ${part}`);
      }
    }
  }
  const twice = namedTwice(checked.data);
  if (twice !== undefined) throw new Fault('input-contradiction', file, `${twice} stands twice`);
  return checked.data;
}

/** An instrument, board, line or port that stands twice: which of the two would be meant? */
function namedTwice({ boards, serial }: OutfitFile): string | undefined {
  const names = [
    ...boards.map(({ board }) => `board ${board}`),
    ...serial.flatMap(({ name: line, port }) => [`board ${line}`, `port ${port}`]),
    ...[...boards, ...serial].flatMap((each) =>
      each.instruments.map((one: { instrument: string }) => `instrument ${one.instrument}`),
    ),
  ];
  return names.find((one, k) => names.indexOf(one) !== k);
}

/** The chips the technician named for a board; null when the board is not named. */
export function expectedChips(outfit: OutfitFile, board: string): ExpectedChip[] | null {
  const entry = outfit.boards.find((candidate) => candidate.board === board);
  if (entry === undefined) return null;
  return entry.instruments.map(({ instrument, part, address }) => {
    const driver = driverOf(part);
    if (driver === undefined) throw new Fault('input-shape', instrument, `no driver for ${part}`);
    return { instrument, driver, address };
  });
}

/**
 * Looks for known chips on a board nobody has described. They are named after board, part and
 * address and have no certificate: they are shown and cannot be used for GM.
 */
export async function findChips(bus: Bus, board: string): Promise<ExpectedChip[]> {
  const found: ExpectedChip[] = [];
  for (const driver of DRIVERS) {
    for (const address of driver.addresses) {
      try {
        await driver.identify({ bus, address, where: board });
      } catch (error) {
        if (error instanceof Fault && error.code !== 'board-lost') continue;
        throw error;
      }
      const instrument = `${board.slice(0, 8)}-${driver.part}-${addressText(address)}`;
      found.push({ instrument, driver, address });
    }
  }
  return found;
}
