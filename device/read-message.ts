import type { z } from 'zod';
import { FAULTS, Fault, type FaultCode } from '#core/fault/fault.ts';

/** A message of the receiver, checked. Throws `message-malformed` or `message-unknown`. */
export function readMessage<S extends z.ZodType>(
  schema: S,
  data: Buffer,
  where: string,
): z.infer<S> {
  let parsed: unknown;
  try {
    parsed = JSON.parse(data.toString('utf8'));
  } catch {
    throw new Fault('message-malformed', where, 'not JSON');
  }
  const checked = schema.safeParse(parsed);
  if (checked.success) return checked.data;
  const [issue] = checked.error.issues;
  const unknown = issue?.code === 'invalid_union' && issue.path.join('.') === 'type';
  throw new Fault(
    unknown ? 'message-unknown' : 'message-malformed',
    where,
    `${issue?.path.join('.')}: ${issue?.message}`.slice(0, 200),
  );
}

/** A code the receiver gave, as one of ours; a newer receiver may have codes we do not know. */
export function knownCode(code: string): FaultCode {
  return code in FAULTS ? (code as FaultCode) : 'message-unknown';
}
