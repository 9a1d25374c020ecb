import { ENTRY_SHEETS, type EntrySheet } from '#core/record/entry-line.ts';
import { metresOf, numberOf } from './typed.ts';

/** What stands in the fields of a form, by the field's path. A flag is `yes` or `no`. */
export type Typed = Readonly<Record<string, string>>;

/** One field of a form of the survey. */
export interface FormField {
  /** Where its value stands in the row, `at.xM`; what begins with `ask.` decides other fields only. */
  readonly path: string;
  readonly label: string;
  readonly unit?: string;
  readonly hint?: string;
  readonly kind: 'number' | 'length' | 'words' | 'choice' | 'flag';
  readonly options?: readonly { readonly value: string; readonly words: string }[];
  /** What an empty field says; missing: it has to be filled. */
  readonly empty?: 'null' | 'left-out' | 'no-words';
  readonly start?: string;
  readonly wide?: boolean;
  /** Known before the form is opened, and not asked. */
  readonly given?: boolean;
  /** Is it asked for, with what stands in the others? */
  readonly when?: (typed: Typed) => boolean;
}

/** The form of one kind of row. */
export interface EntryForm {
  readonly sheet: EntrySheet;
  /** As a title: "Freeboard". */
  readonly title: string;
  /** Name of the field for the row's key; null: the key is given. */
  readonly keyLabel: string | null;
  readonly fields: readonly FormField[];
  /** Parts of the value that are not asked. */
  readonly constant?: Readonly<Record<string, unknown>>;
  /** What the `ask.` fields say of a row that stands. */
  readonly asked?: (value: object) => Typed;
}

/** What was made of a form: a value, or what is missing and what cannot be. */
export interface FormRead {
  readonly value: object | null;
  readonly missing: readonly string[];
  readonly wrong: Readonly<Record<string, string>>;
}

export function fieldsAsked(form: EntryForm, typed: Typed): FormField[] {
  return form.fields.filter((field) => field.when?.(typed) ?? true);
}

/** The value that stands in the fields, held to the form of its line. */
export function readForm(form: EntryForm, typed: Typed): FormRead {
  const missing: string[] = [];
  const wrong: Record<string, string> = {};
  const value: Record<string, unknown> = structuredClone({ ...form.constant });
  for (const field of fieldsAsked(form, typed)) {
    const text = (typed[field.path] ?? '').trim();
    const read = valueRead(field, text);
    if (read === undefined && text === '' && field.empty === undefined) missing.push(field.label);
    else if (Number.isNaN(read)) wrong[field.path] = wrongWords(field);
    else if (read !== undefined && !field.path.startsWith('ask.'))
      setAt(value, field.path.split('.'), read);
  }
  if (missing.length > 0 || Object.keys(wrong).length > 0) return { value: null, missing, wrong };
  const checked = ENTRY_SHEETS[form.sheet].safeParse(value);
  if (checked.success) return { value, missing, wrong };
  for (const { path, message } of checked.error.issues) wrong[path.join('.')] = message;
  return { value: null, missing, wrong };
}

/** NaN: it cannot be read as what it should be; undefined: nothing is said. */
function valueRead(field: FormField, text: string): unknown {
  if (field.kind === 'flag') return text === 'yes';
  if (text === '') {
    if (field.empty === 'null') return null;
    return field.empty === 'no-words' ? '' : undefined;
  }
  if (field.kind === 'number') return numberOf(text) ?? Number.NaN;
  if (field.kind === 'length') return metresOf(text) ?? Number.NaN;
  return text;
}

function wrongWords(field: FormField): string {
  return field.kind === 'length'
    ? 'no length: digits, then m, mm, cm, in or ft'
    : 'no number: digits, with comma or point';
}

/** What stands in the fields when a row is opened, each number with all its digits. */
export function typedOf(form: EntryForm, value: object): Typed {
  const typed: Record<string, string> = { ...form.asked?.(value) };
  for (const { path, kind } of form.fields) {
    if (path.startsWith('ask.')) continue;
    const found = getAt(value, path.split('.'));
    if (kind === 'flag') typed[path] = found === true ? 'yes' : 'no';
    else typed[path] = found === undefined || found === null ? '' : String(found);
  }
  return typed;
}

/** What stands in an empty form. */
export function startOf(form: EntryForm): Typed {
  return Object.fromEntries(
    form.fields.map(({ path, start, kind, options }) => [
      path,
      start ?? (kind === 'flag' ? 'no' : kind === 'choice' ? (options?.[0]?.value ?? '') : ''),
    ]),
  );
}

function setAt(into: Record<string, unknown>, [first, ...rest]: string[], value: unknown): void {
  if (first === undefined) return;
  if (rest.length === 0) {
    into[first] = value;
    return;
  }
  const inner = (into[first] ?? {}) as Record<string, unknown>;
  into[first] = inner;
  setAt(inner, rest, value);
}

function getAt(from: unknown, path: readonly string[]): unknown {
  return path.reduce<unknown>(
    (inner, name) =>
      typeof inner === 'object' && inner !== null
        ? (inner as Record<string, unknown>)[name]
        : undefined,
    from,
  );
}
