import { Fault } from '#core/fault/fault.ts';

/**
 * The fault to answer with. An error that is none is a mistake of ours: it is told in full on
 * standard error, and whoever asked is refused, so that one mistake does not end the day.
 */
export function faultOf(error: unknown, where: string): Fault {
  if (error instanceof Fault) return error;
  console.error(error);
  return new Fault('program-fault', where, error instanceof Error ? error.message : String(error));
}
