import type { z } from 'zod';
import { utf8FromText } from '../digest/utf-8.ts';
import { Fault } from '../fault/fault.ts';
import { jsonTextSeen, keysIn } from '../record/guard-json.ts';

/**
 * A message as it came, or the fault it is refused with: `message-too-large`,
 * `message-unknown` (a type the schema does not name) or `message-malformed`.
 */
export function messageFromText<S extends z.ZodType>(
  schema: S,
  text: string,
  limits: { readonly where: string; readonly mostBytes: number },
): z.infer<S> {
  const json = jsonFromText(text, limits);
  return messageFromJson(schema, json, limits.where);
}

/** The JSON of a message within its limits, looked at before it is parsed. */
export function jsonFromText(
  text: string,
  limits: { readonly where: string; readonly mostBytes: number },
): unknown {
  // A UTF-16 unit is at most three bytes of UTF-8: most messages need no counting.
  if (text.length * 3 > limits.mostBytes && utf8FromText(text).length > limits.mostBytes)
    throw new Fault('message-too-large', limits.where, `over ${limits.mostBytes} bytes`);
  const { danger, keys } = jsonTextSeen(text);
  if (danger !== null) throw new Fault('message-malformed', limits.where, danger);
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    throw new Fault('message-malformed', limits.where, 'not JSON');
  }
  // A record refuses such a line, so no item with one may enter it.
  if (keysIn(json) !== keys)
    throw new Fault('message-malformed', limits.where, 'a key stands twice');
  return json;
}

export function messageFromJson<S extends z.ZodType>(
  schema: S,
  json: unknown,
  where: string,
): z.infer<S> {
  const checked = schema.safeParse(json);
  if (checked.success) return checked.data;
  const issue = checked.error.issues[0];
  if (issue?.code === 'invalid_union' && issue.path.join('.') === 'type')
    throw new Fault('message-unknown', where, `type ${shown(typeOf(json))}`);
  const field = issue?.path.map(String).join('.') || 'message';
  throw new Fault(
    'message-malformed',
    where,
    `${field}: ${issue?.message ?? 'not of the agreed form'}`.slice(0, 400),
  );
}

/** The `type` of a parsed message, undefined when it has none. */
export function typeOf(json: unknown): unknown {
  return typeof json === 'object' && json !== null && Object.hasOwn(json, 'type')
    ? (json as { type: unknown }).type
    : undefined;
}

function shown(value: unknown): string {
  return (JSON.stringify(value) ?? 'none').slice(0, 60);
}
