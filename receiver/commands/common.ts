import { readFileSync, writeFileSync } from 'node:fs';
import type { z } from 'zod';
import { FAULTS, Fault } from '#core/fault/fault.ts';

/** How a command ends: done, wrong usage, input refused, a check did not hold. */
export const EXIT = { done: 0, usage: 2, refused: 3, failed: 4 } as const;

const MOST_INPUT_BYTES = 8 * 1024 * 1024;

/** Says a fault on standard error, in words or as JSON, and sets the exit code. */
export function reportFault(error: Fault, json: boolean, exit: number = EXIT.refused): void {
  const { code, where, found } = error.report;
  const { means, remedy } = FAULTS[code];
  if (json) console.error(JSON.stringify({ code, means, where, found, remedy }));
  else console.error(error.message);
  process.exitCode = exit;
}

/** Runs a command's work; a fault is reported, anything else is a bug and shows as one. */
export async function guarded(json: boolean, work: () => Promise<void> | void): Promise<void> {
  try {
    await work();
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    reportFault(error, json);
  }
}

/** A JSON file of a person's, checked. Throws `file-not-readable`, `input-not-json`, `input-shape`, `input-too-large`. */
export function inputFromFile<S extends z.ZodType>(schema: S, path: string): z.infer<S> {
  const text = textFromFile(path);
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch (error) {
    throw new Fault('input-not-json', path, (error as Error).message);
  }
  const checked = schema.safeParse(json);
  if (checked.success) return checked.data;
  const issue = checked.error.issues[0];
  const field = issue?.path.map(String).join('.') || 'the whole';
  throw new Fault('input-shape', `${path}: ${field}`, issue?.message ?? 'not of the agreed form');
}

function textFromFile(path: string): string {
  let text: string;
  try {
    text = readFileSync(path, 'utf8');
  } catch (error) {
    throw new Fault('file-not-readable', path, (error as Error).message);
  }
  if (text.length > MOST_INPUT_BYTES)
    throw new Fault('input-too-large', path, `over ${MOST_INPUT_BYTES} bytes`);
  return text;
}

/** What stands is not written over. Throws `file-not-writable`. */
export function writeNewFile(path: string, content: string | Uint8Array): void {
  try {
    writeFileSync(path, content, { flag: 'wx' });
  } catch (error) {
    throw new Fault('file-not-writable', path, (error as Error).message);
  }
}
