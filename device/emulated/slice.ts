import type { EmulatedBoard, Outgoing } from './emulated-board.ts';
import type { BoardName, BusFault, RigCommand } from './rig-types.ts';

/** What the rig does to a board or its world at the beginning of a slice of time. */
export type Act =
  | { readonly kind: 'bytes'; readonly bytes: Uint8Array }
  | { readonly kind: 'reset' }
  | { readonly kind: 'power'; readonly on: boolean }
  | { readonly kind: 'bus'; readonly fault: BusFault };

/** A change of the world from a second on, the same in every thread. */
export interface TimedCommand {
  readonly atS: number;
  readonly command: RigCommand;
}

/** To a worker. */
export interface SliceOrder {
  readonly untilS: number;
  readonly acts: readonly Act[];
  readonly commands: readonly TimedCommand[];
}

/** From a worker. */
export interface SliceResult {
  readonly untilS: number;
  readonly outgoing: readonly Outgoing[];
  /** Bytes from the host the board is through with, since its beginning. */
  readonly heardBytes: number;
  /** The whole image when it changed in this slice. */
  readonly eeprom?: Uint8Array;
}

export interface WorkerSettings {
  readonly name: BoardName;
  readonly seed: number;
  readonly clockErrorPpm: number;
  readonly eeprom: Uint8Array | undefined;
}

/** One board through one slice. */
export function runSlice(
  board: EmulatedBoard,
  order: Pick<SliceOrder, 'untilS' | 'acts'>,
): SliceResult {
  const changes = board.eepromChanges;
  for (const act of order.acts) apply(board, act);
  board.runTo(order.untilS);
  const result = {
    untilS: order.untilS,
    outgoing: board.takeOutgoing(),
    heardBytes: board.heardBytes,
  };
  return board.eepromChanges === changes ? result : { ...result, eeprom: board.eepromImage() };
}

function apply(board: EmulatedBoard, act: Act): void {
  switch (act.kind) {
    case 'bytes':
      board.receive(act.bytes);
      break;
    case 'reset':
      board.reset();
      break;
    case 'power':
      if (act.on) board.restorePower();
      else board.cutPower();
      break;
    case 'bus':
      board.disturbBus(act.fault);
      break;
  }
}
