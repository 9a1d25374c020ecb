import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { z } from 'zod';
import { Fault } from '#core/fault/fault.ts';
import { inclinometerPart } from '#core/part/inclinometer-parts.ts';
import { legPart } from '#core/part/leg-parts.ts';
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
              /** Of a water tube whose legs have a chip each: `address` is the port leg's, this the other. */
              starboardAddress: z.number().int().min(1).max(127).optional(),
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
  /** The leg of a water tube it reads, where each leg has a chip of its own. */
  readonly leg?: 'port' | 'starboard';
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
    const where = `${file} ${board}`;
    for (const one of instruments) checkInstrument(one, `${where} ${one.instrument}`);
    checkCompany(instruments.flatMap(chipsOf), where);
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

type OutfitInstrument = OutfitFile['boards'][number]['instruments'][number];

/** Throws `input-shape` where part, mounting and addresses do not go together. */
function checkInstrument(one: OutfitInstrument, where: string): void {
  const { part, address, starboardAddress, mounting } = one;
  const refuse = (found: string) => new Fault('input-shape', where, found);
  const driver = driverOf(part);
  if (driver === undefined) throw refuse(`no driver for ${part}`);
  if (mounting.instrument !== one.instrument) throw refuse(`a mounting of ${mounting.instrument}`);
  const wrong = [address, ...(starboardAddress === undefined ? [] : [starboardAddress])].find(
    (each) => !driver.addresses.includes(each),
  );
  if (wrong !== undefined) throw refuse(`${part} is never at ${addressText(wrong)}`);
  if (driver.isLeg !== (starboardAddress !== undefined)) {
    throw refuse(
      driver.isLeg
        ? `each leg has a ${part} of its own: starboardAddress is missing`
        : `one ${part} is all there is: starboardAddress has no meaning`,
    );
  }
  const reads = mounting.kind === 'inclinometer' ? inclinometerPart(part) : legPart(part);
  if (reads === undefined) throw refuse(`${part} does not make a ${mounting.kind}`);
  if (mounting.kind === 'water-tube' && mounting.spanM === null) throw refuse('spanM is missing');
  const lacks = legPart(part)?.lacks(mounting.asBuilt) ?? null;
  if (lacks !== null) throw refuse(`${lacks} is missing`);
}

/**
 * Refuses chips that cannot share one bus: two at an address, or company for one that bears none.
 * Faults: `input-shape`, `bus-not-alone` with the reason.
 */
export function checkCompany(chips: readonly ExpectedChip[], where: string): void {
  for (const [k, chip] of chips.entries()) {
    const { driver, address, instrument } = chip;
    if (chips.findIndex((one) => one.address === address) !== k) {
      throw new Fault('input-shape', where, `two chips at ${addressText(address)}`);
    }
    if (driver.aloneBecause !== null && chips.length > 1) {
      const others = chips.filter((one) => one !== chip).map((one) => one.instrument);
      const found = `${instrument} (${driver.part}) beside ${others.join(', ')}: ${driver.aloneBecause}`;
      throw new Fault('bus-not-alone', where, found);
    }
  }
}

/** The chips the technician named for a board; null when the board is not named. */
export function expectedChips(outfit: OutfitFile, board: string): ExpectedChip[] | null {
  const entry = outfit.boards.find((candidate) => candidate.board === board);
  if (entry === undefined) return null;
  return entry.instruments.flatMap(chipsOf);
}

/** The chips of one described instrument: one, or one a leg. */
function chipsOf({
  instrument,
  part,
  address,
  starboardAddress,
}: OutfitInstrument): ExpectedChip[] {
  const driver = driverOf(part);
  if (driver === undefined) throw new Fault('input-shape', instrument, `no driver for ${part}`);
  if (starboardAddress === undefined) return [{ instrument, driver, address }];
  return [
    { instrument, driver, address, leg: 'port' },
    { instrument, driver, address: starboardAddress, leg: 'starboard' },
  ];
}

/**
 * Looks for known chips on a board nobody has described. They are named after board, part and
 * address and have no certificate: they are shown and cannot be used for GM. Parts that cannot be
 * told by looking are not found.
 */
export async function findChips(bus: Bus, board: string): Promise<ExpectedChip[]> {
  const found: ExpectedChip[] = [];
  for (const driver of DRIVERS.filter(({ foundByLooking }) => foundByLooking)) {
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
