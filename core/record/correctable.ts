import { Fault } from '../fault/fault.ts';
import type { Correction, FieldPath, FieldValue } from './correction.ts';
import { LINE_BODIES, type LineBody } from './line.ts';

const places = (of: string) => ['xM', 'yM', 'zM'].map((axis) => `${of}.${axis}`);

/**
 * What a person enters and may enter wrongly, by kind of line; `#` is any place in a list. Names
 * that other lines refer by (of test, weight, sensor) are not here, nor what was measured by
 * the program. Where a move began is where the move before it ended, so only its end is here.
 */
const CORRECTABLE = {
  'test-opened': [
    'vessel',
    'at',
    ...[
      'displacementT',
      'displacementUncertaintyT',
      'kmM',
      'kmUncertaintyM',
      'metacentreMovementM',
      'gmGuessM',
      'gmGuessUncertaintyM',
      'beamM',
      'lengthM',
    ].map((name) => `particulars.${name}`),
    ...['massT', 'massUncertaintyT', 'certificate'].map((name) => `weights.#.${name}`),
    ...places('weights.#.at'),
    'distanceUncertaintyM',
    ...places('plan.#.moves.#.to'),
  ],
  'shift-begun': places('moves.#.to'),
  'weight-landed': ['landedS'],
  'hand-reading': [
    'instrument',
    'kind',
    'lengthMm',
    'extremesMm',
    'portLegMm',
    'starboardLegMm',
    'reader',
  ],
} as const satisfies Partial<Record<keyof typeof LINE_BODIES, readonly string[]>>;

/** Only a tube whose legs were read has them. */
const LEGS: readonly string[] = ['portLegMm', 'starboardLegMm'];

export type CorrectableKind = keyof typeof CORRECTABLE;
/** The body of a line that can be corrected, with its kind. */
export type CorrectableBody = {
  [K in CorrectableKind]: { readonly kind: K; readonly body: LineBody<K> };
}[CorrectableKind];

/** Every field of this body that can be corrected, with what stands there; null also: nothing. */
export function correctableFields({ kind, body }: CorrectableBody): {
  readonly field: FieldPath;
  readonly value: FieldValue;
}[] {
  return CORRECTABLE[kind]
    .filter((pattern) => !LEGS.includes(pattern) || Object.hasOwn(body, pattern))
    .flatMap((pattern) =>
      pathsOf(body, pattern.split('.')).map((field) => ({ field, value: valueAt(body, field) })),
    );
}

/**
 * The body with a correction's values in it. Throws `correction-unfit` (a field that is none, or
 * cannot be corrected; twice the same; another value stood there; the same value again; a value
 * that the form of the line's kind does not take) and changes nothing.
 */
export function correctedBody(
  { kind, body }: CorrectableBody,
  changes: Correction['changes'],
): CorrectableBody {
  const corrected: unknown = structuredClone(body);
  const seen = new Set<string>();
  for (const { field, was, is } of changes) {
    const name = field.join('.');
    if (!isCorrectableField(kind, field)) throw unfit(name, `no field of ${kind} to be corrected`);
    if (seen.has(name)) throw unfit(name, 'named twice in one correction');
    seen.add(name);
    const stands = valueAt(corrected, field);
    if (!sameValue(stands, was))
      throw unfit(name, `${JSON.stringify(stands)} stands there, not ${JSON.stringify(was)}`);
    if (sameValue(was, is)) throw unfit(name, `${JSON.stringify(is)} stands there already`);
    setAt(corrected, field, is);
  }
  return checkedBody(kind, corrected);
}

/** The body with these changes in it, whatever stood there: what their author saw may have fallen away. */
export function bodyWith(
  { kind, body }: CorrectableBody,
  changes: Correction['changes'],
): CorrectableBody {
  const corrected: unknown = structuredClone(body);
  for (const { field, is } of changes) setAt(corrected, field, is);
  return checkedBody(kind, corrected);
}

function checkedBody(kind: CorrectableKind, body: unknown): CorrectableBody {
  const checked = LINE_BODIES[kind].safeParse(body);
  if (!checked.success) {
    const issue = checked.error.issues[0];
    throw unfit(issue?.path.map(String).join('.') ?? kind, issue?.message ?? 'not of the form');
  }
  // Kind and body come as a pair, which TypeScript cannot follow.
  return { kind, body: checked.data } as CorrectableBody;
}

function isCorrectableField(kind: CorrectableKind, field: FieldPath): boolean {
  const pattern = field.map((step) => (typeof step === 'number' ? '#' : step)).join('.');
  const isPlain = field.every((step) => typeof step === 'number' || /^[A-Za-z]+$/.test(step));
  return isPlain && (CORRECTABLE[kind] as readonly string[]).includes(pattern);
}

/** Every path a pattern stands for in this body. */
function pathsOf(value: unknown, pattern: readonly string[]): FieldPath[] {
  const [step, ...rest] = pattern;
  if (step === undefined) return [[]];
  if (step !== '#') {
    const inner = rest.length === 0 ? null : (value as Record<string, unknown>)[step];
    return pathsOf(inner, rest).map((path) => [step, ...path]);
  }
  if (!Array.isArray(value)) return [];
  return value.flatMap((each, k) => pathsOf(each, rest).map((path) => [k, ...path]));
}

/** The holder of a field's last step. Only own keys and places there are: never a prototype. */
function holderOf(body: unknown, field: FieldPath): Record<string | number, unknown> {
  let holder = body;
  for (const step of field.slice(0, -1)) {
    if (typeof holder !== 'object' || holder === null || !Object.hasOwn(holder, step))
      throw unfit(field.join('.'), `there is no ${step}`);
    holder = (holder as Record<string | number, unknown>)[step];
  }
  if (typeof holder !== 'object' || holder === null)
    throw unfit(field.join('.'), 'there is no such field');
  return holder as Record<string | number, unknown>;
}

function valueAt(body: unknown, field: FieldPath): FieldValue {
  const holder = holderOf(body, field);
  const last = field.at(-1)!;
  return Object.hasOwn(holder, last) ? (holder[last] as FieldValue) : null;
}

function setAt(body: unknown, field: FieldPath, is: FieldValue): void {
  holderOf(body, field)[field.at(-1)!] = is;
}

function sameValue(left: FieldValue, right: FieldValue): boolean {
  return JSON.stringify(left) === JSON.stringify(right);
}

function unfit(field: string, found: string): Fault {
  return new Fault('correction-unfit', field.slice(0, 200), found.slice(0, 300));
}
