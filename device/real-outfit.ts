import { expectedChips, type OutfitFile } from './outfit.ts';
import type { StationOutfit } from './station.ts';

/** What the technician wrote down, as the station asks for it. */
export function realOutfit(outfit: OutfitFile): StationOutfit {
  const instruments = [
    ...outfit.boards.flatMap((board) => board.instruments),
    ...outfit.serial.flatMap((line) => [...line.instruments]),
  ];
  return {
    mountings: instruments.map(({ mounting }) => mounting),
    certificates: instruments.flatMap(({ certificate }) => certificate ?? []),
    lineOf: (port) => outfit.serial.find((line) => line.port === port) ?? null,
    expected: (board) => expectedChips(outfit, board),
    nameOf: (port) => outfit.names?.[port] ?? nameFromPort(port),
  };
}

/** A board that cannot say who it is, and nobody has named, is called after its port. */
export function nameFromPort(port: string): string {
  const name = port.replaceAll(/[^0-9A-Za-z]+/g, '-').replaceAll(/^-|-$/g, '');
  return `port-${name}`.slice(0, 40);
}
